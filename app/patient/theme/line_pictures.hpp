// Lines that the atlas has no letters for, as pictures in it: Dear ImGui knows characters of 16
// bits one beside the other, and most scripts want more of a line than that. A picture is made when
// its line is drawn, and goes when it is drawn no more. The fonts of the world are looked for when
// the first such line comes, never at launch.
#pragma once

#include "app/letters/installed_fonts.hpp"

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

struct ImFontAtlas;

namespace qb::inline looks {

// Where a line's picture lies in the atlas, in its own pixels and as shares of the texture.
struct pictured_line {
  int width{0};
  int height{0};
  int baseline{0};
  float u0{0};
  float v0{0};
  float u1{0};
  float v1{0};
};

// One atlas's pictures.
class line_pictures {
public:
  // The width of that line in pixels.
  [[nodiscard]] float width(std::string_view line, const line_style& style);
  // Its picture; nothing where it is still to be made, which is then wanted.
  [[nodiscard]] const pictured_line* find(std::string_view line, const line_style& style);
  // Whether every letter of it has a font.
  [[nodiscard]] bool printable(std::string_view text) { return fonts().have(text); }

  // Before an atlas is built: takes room for what is wanted and was drawn since the last time.
  void reserve(ImFontAtlas& atlas);
  // After it: puts the pictures there.
  void fill(ImFontAtlas& atlas);

private:
  struct entry {
    line_picture made;
    pictured_line place;
    int rectangle{-1};
    bool drawn{true}; // since the atlas was built
  };
  using key = std::pair<std::string, std::pair<double, bool>>;

  [[nodiscard]] installed_fonts& fonts();

  std::unique_ptr<installed_fonts> fonts_;
  std::map<key, entry> lines_;
  std::map<key, float> widths_;
};

} // namespace qb::inline looks
