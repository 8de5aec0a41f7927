// The faces of the patient's window: one family, two weights, a handful of sizes.
// Font files come in as bytes, because only app/platform reads files.
#pragma once

#include "core/base/result.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>

struct ImFont;
struct ImFontAtlas;

namespace qb::inline looks {

class glyph_supply;
struct pictured_line;

// A size and weight of type, from quiet captions to the countdown.
enum class face {
  small,
  small_bold,
  body,
  bold,
  label,
  headline,
  figure,
  countdown_close,
  countdown
};
inline constexpr int face_count = 9;

// The bytes of the two font files (Noto Sans Regular and Bold). They must outlive the atlas.
struct font_bytes {
  std::string regular;
  std::string bold;
};

// Faces built into an atlas for one scale. `em` is the type size in logical pixels; `line` the
// height the rasteriser calls the font's size (ascent + descent) in logical pixels.
struct fonts {
  struct cut {
    ImFont* font{nullptr};
    float em{};
    float line{};
    float ascent{}; // baseline below the top of the line
  };
  std::array<cut, face_count> cuts{};
  float scale{1.0F};
  glyph_supply* supply{nullptr}; // hears what texts need, and knows what the files have

  [[nodiscard]] const cut& of(face f) const { return cuts[static_cast<std::size_t>(f)]; }
  // This text is measured or drawn in that face.
  void need(face f, std::string_view text) const;
  // The width of a line that the atlas has no letters for and that is drawn as a picture, in
  // logical pixels; nothing for any other.
  [[nodiscard]] std::optional<float> pictured_width(face f, std::string_view line) const;
  // That picture; nothing while it is lacking.
  [[nodiscard]] const pictured_line* picture(face f, std::string_view line) const;
  // Whether every letter of a text has a font, on paper as on the screen.
  [[nodiscard]] bool printable(std::string_view text) const;
  // What was measured or drawn since they were built had letters that are not rasterised yet: the
  // frame is to be drawn again once they are.
  [[nodiscard]] bool lacking() const;
};

// Rasterises all faces at `scale` with the letters `supply` knows to be needed: at first those of
// plain English and the figures, then by blocks what texts turned out to have (Latin and its
// extensions, Greek, Cyrillic and the punctuation of running text; in the sizes of figures Latin 1
// only). `supply` must outlive the fonts. Refuses with `malformed` when the bytes are no font.
[[nodiscard]] result<fonts> build_fonts(ImFontAtlas& atlas, const font_bytes& bytes, float scale,
                                        glyph_supply& supply);

// True if every character of the text has a glyph in that face, rasterised by now or not; a missing
// one would be drawn as a question mark, silently.
[[nodiscard]] bool has_all_glyphs(const fonts& set, face f, const std::string& text);

} // namespace qb::inline looks
