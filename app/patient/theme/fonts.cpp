// Builds the font atlas with FreeType.
// Sizes are given as the em, as printers do; the atlas wants ascent + descent, so the ratio is read
// from the font itself.
#include "app/patient/theme/fonts.hpp"

#include "app/patient/theme/theme.hpp"
#include "core/base/text.hpp"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <imgui.h>
#include <imgui_freetype.h>

#include <cmath>

namespace qb {

namespace {

// Basic Latin to Latin Extended B, Greek, Cyrillic, Latin Extended Additional, punctuation.
constexpr ImWchar all_ranges[] = {0x0020, 0x024F, 0x0370, 0x03FF, 0x0400, 0x052F,
                                  0x1E00, 0x1EFF, 0x2010, 0x2027, 0x2030, 0x203A,
                                  0x20AC, 0x20AC, 0xFFFD, 0xFFFD, 0};
constexpr ImWchar latin_1[] = {0x0020, 0x00FF, 0x2012, 0x2014, 0x2019, 0x2019, 0x2026, 0x2026, 0};

struct cut_plan {
  face which;
  bool bold;
  float em;
  const ImWchar* ranges;
};
constexpr cut_plan plans[face_count] = {
    {face::small, false, sizes::small, all_ranges},
    {face::small_bold, true, sizes::small, all_ranges},
    {face::body, false, sizes::body, all_ranges},
    {face::bold, true, sizes::body, all_ranges},
    {face::label, true, sizes::label, all_ranges},
    {face::headline, true, sizes::headline, all_ranges},
    {face::figure, true, sizes::figure, latin_1},
    {face::countdown_close, true, sizes::countdown_close, latin_1},
    {face::countdown, true, sizes::countdown, latin_1},
};

// Ascent + descent, and ascent, in ems.
struct proportions {
  float line{};
  float ascent{};
};

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

result<fonts> build_fonts(ImFontAtlas& atlas, const font_bytes& bytes, float scale) {
  const auto regular = measure(bytes.regular, "regular font");
  if (!regular) return tl::unexpected(regular.error());
  const auto bold = measure(bytes.bold, "bold font");
  if (!bold) return tl::unexpected(bold.error());
  atlas.Clear();
  atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  fonts made;
  made.scale = scale;
  for (const cut_plan& plan : plans) {
    const proportions& shape = plan.bold ? *bold : *regular;
    fonts::cut& cut = made.cuts[static_cast<std::size_t>(plan.which)];
    cut.em = plan.em;
    cut.line = std::round(plan.em * shape.line * scale) / scale;
    cut.ascent = plan.em * shape.ascent;
    cut.font = add(atlas, plan.bold ? bytes.bold : bytes.regular, cut.line * scale, plan.ranges);
  }
  if (!atlas.Build()) {
    return tl::unexpected(refusal{refusal_kind::malformed, "", "fonts", "no glyphs", "two fonts"});
  }
  return made;
}

bool has_all_glyphs(const fonts& set, face f, const std::string& text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const char32_t c = next_character(text, at);
    if (c == U'\n') continue;
    if (c > 0xFFFF) return false;
    if (set.of(f).font->FindGlyphNoFallback(static_cast<ImWchar>(c)) == nullptr) return false;
  }
  return true;
}

} // namespace qb
