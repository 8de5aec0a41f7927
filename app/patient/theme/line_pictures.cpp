// Room in the atlas, and ink into it.
#include "app/patient/theme/line_pictures.hpp"

#include <imgui.h>

#include <cstring>

namespace qb::inline looks {

installed_fonts& line_pictures::fonts() {
  if (!fonts_) fonts_ = std::make_unique<installed_fonts>();
  return *fonts_;
}

float line_pictures::width(std::string_view line, const line_style& style) {
  const key of{std::string(line), {style.em, style.bold}};
  const auto known = widths_.find(of);
  if (known != widths_.end()) return known->second;
  return widths_[of] = static_cast<float>(fonts().width_of(line, style));
}

const pictured_line* line_pictures::find(std::string_view line, const line_style& style) {
  const key of{std::string(line), {style.em, style.bold}};
  entry& one = lines_[of];
  one.drawn = true;
  if (one.made.ink.empty()) one.made = fonts().picture_of(line, style);
  return one.rectangle < 0 ? nullptr : &one.place;
}

void line_pictures::reserve(ImFontAtlas& atlas) {
  std::erase_if(lines_, [](const auto& one) { return !one.second.drawn; });
  widths_.clear();
  for (auto& [of, one] : lines_) {
    one.drawn = false;
    one.rectangle = atlas.AddCustomRectRegular(one.made.width, one.made.height);
  }
}

void line_pictures::fill(ImFontAtlas& atlas) {
  unsigned char* pixels = nullptr;
  int wide = 0;
  int high = 0;
  if (lines_.empty()) return;
  atlas.GetTexDataAsAlpha8(&pixels, &wide, &high);
  for (auto& [of, one] : lines_) {
    const ImFontAtlasCustomRect& r = *atlas.GetCustomRectByIndex(one.rectangle);
    for (int y = 0; y < one.made.height; ++y)
      std::memcpy(pixels + static_cast<std::ptrdiff_t>(r.Y + y) * wide + r.X,
                  one.made.ink.data() + static_cast<std::ptrdiff_t>(y) * one.made.width,
                  static_cast<std::size_t>(one.made.width));
    ImVec2 from;
    ImVec2 to;
    atlas.CalcCustomRectUV(&r, &from, &to);
    one.place = {one.made.width, one.made.height, one.made.baseline, from.x, from.y, to.x, to.y};
  }
}

} // namespace qb::inline looks
