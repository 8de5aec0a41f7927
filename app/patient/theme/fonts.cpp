// Builds the font atlas with FreeType.
// Sizes are given as the em, as printers do; the atlas wants ascent + descent, so the ratio is read
// from the font itself.
#include "app/patient/theme/fonts.hpp"

#include "app/patient/theme/glyph_supply.hpp"
#include "app/patient/theme/theme.hpp"
#include "core/base/text.hpp"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <imgui.h>
#include <imgui_freetype.h>

#include <cmath>
#include <vector>

namespace qb::inline looks {

namespace {

struct cut_plan {
  face which;
  float em;
};
constexpr cut_plan plans[face_count] = {
    {face::small, sizes::small},         {face::small_bold, sizes::small},
    {face::body, sizes::body},           {face::bold, sizes::body},
    {face::label, sizes::label},         {face::headline, sizes::headline},
    {face::figure, sizes::figure},       {face::countdown_close, sizes::countdown_close},
    {face::countdown, sizes::countdown},
};

// Ascent + descent, and ascent, in ems.
struct proportions {
  float line{};
  float ascent{};
  std::vector<bool> letters; // by code point
};

std::vector<bool> letters_in(FT_Face opened) {
  std::vector<bool> letters(0x10000);
  FT_UInt glyph = 0;
  for (FT_ULong c = FT_Get_First_Char(opened, &glyph); glyph != 0 && c < letters.size();
       c = FT_Get_Next_Char(opened, c, &glyph))
    letters[c] = true;
  return letters;
}

result<proportions> measure(const std::string& bytes, const char* where) {
  const refusal no{refusal_kind::malformed, "", where, "bytes that are no font", "a TrueType font"};
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) return tl::unexpected(no);
  FT_Face opened = nullptr;
  proportions p;
  const bool ok = !bytes.empty() &&
                  FT_New_Memory_Face(library, reinterpret_cast<const FT_Byte*>(bytes.data()),
                                     static_cast<FT_Long>(bytes.size()), 0, &opened) == 0 &&
                  opened->units_per_EM > 0;
  if (ok) {
    const auto em = static_cast<float>(opened->units_per_EM);
    p.ascent = static_cast<float>(opened->ascender) / em;
    p.line = p.ascent - static_cast<float>(opened->descender) / em;
    p.letters = letters_in(opened);
    FT_Done_Face(opened);
  }
  FT_Done_FreeType(library);
  if (!ok) return tl::unexpected(no);
  return p;
}

ImFont* add(ImFontAtlas& atlas, const std::string& bytes, float size_px, const ImWchar* ranges) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  // The atlas only reads the bytes, though its signature does not say so.
  return atlas.AddFontFromMemoryTTF(const_cast<char*>(bytes.data()), static_cast<int>(bytes.size()),
                                    size_px, &config, ranges);
}

} // namespace

result<fonts> build_fonts(ImFontAtlas& atlas, const font_bytes& bytes, float scale,
                          glyph_supply& supply) {
  const auto regular = measure(bytes.regular, "regular font");
  if (!regular) return tl::unexpected(regular.error());
  const auto bold = measure(bytes.bold, "bold font");
  if (!bold) return tl::unexpected(bold.error());
  supply.set_letters(false, regular->letters);
  supply.set_letters(true, bold->letters);
  atlas.Clear();
  atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  fonts made;
  made.scale = scale;
  made.supply = &supply;
  for (const cut_plan& plan : plans) {
    const proportions& shape = is_bold(plan.which) ? *bold : *regular;
    fonts::cut& cut = made.cuts[static_cast<std::size_t>(plan.which)];
    cut.em = plan.em;
    cut.line = std::round(plan.em * shape.line * scale) / scale;
    cut.ascent = plan.em * shape.ascent;
    cut.font = add(atlas, is_bold(plan.which) ? bytes.bold : bytes.regular, cut.line * scale,
                   supply.ranges(plan.which));
  }
  supply.pictures().reserve(atlas);
  if (!atlas.Build()) {
    return tl::unexpected(refusal{refusal_kind::malformed, "", "fonts", "no glyphs", "two fonts"});
  }
  supply.pictures().fill(atlas);
  supply.made();
  return made;
}

void fonts::need(face f, std::string_view text) const {
  if (supply != nullptr) supply->need(f, text);
}

std::optional<float> fonts::pictured_width(face f, std::string_view line) const {
  if (supply == nullptr || !supply->is_pictured(f, line)) return std::nullopt;
  return supply->pictures().width(line, {double{of(f).em * scale}, is_bold(f)}) / scale;
}

const pictured_line* fonts::picture(face f, std::string_view line) const {
  const pictured_line* there =
      supply->pictures().find(line, {double{of(f).em * scale}, is_bold(f)});
  if (there == nullptr) supply->lack_picture();
  return there;
}

bool fonts::printable(std::string_view text) const {
  return supply == nullptr || !supply->is_pictured(face::body, text) ||
         supply->pictures().printable(text);
}

bool fonts::lacking() const {
  return supply != nullptr && supply->lacking();
}

bool has_all_glyphs(const fonts& set, face f, const std::string& text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const char32_t c = next_character(text, at);
    if (c == U'\n') continue;
    if (set.supply == nullptr || !set.supply->has_letter(f, c)) return false;
  }
  return true;
}

} // namespace qb::inline looks
