// Which letters the installed fonts have, and a line of any script as a picture, shaped and ordered
// as that script wants it: what paper and window must agree about.
//
// Finding the fonts takes a tenth of a second, so that nobody makes one of these at launch.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline lettering {

// Latin, Greek and Cyrillic letters are in the first; the others are named too, so that a name in
// another script has the same face on each machine that has the package.
inline constexpr const char* letter_family =
    "Noto Sans,Noto Sans Arabic,Noto Sans Hebrew,Noto Sans Devanagari,Noto Sans Bengali,"
    "Noto Sans Armenian,Noto Sans Georgian,Noto Sans Thai,Noto Sans Symbols2";

// How large a line is set: the em in pixels.
struct line_style {
  double em{0};
  bool bold{false};
};

// A line's ink, row by row from the top, 255 where it is full.
struct line_picture {
  int width{0};
  int height{0};
  int baseline{0}; // below its top
  std::vector<unsigned char> ink;
};

// Asked again and again for the same letters: it remembers.
class installed_fonts {
public:
  installed_fonts();
  ~installed_fonts();
  installed_fonts(const installed_fonts&) = delete;
  installed_fonts& operator=(const installed_fonts&) = delete;

  // Whether a font has every letter of it.
  [[nodiscard]] bool have(std::string_view text);
  // The text with a square for each letter that no font has, and what is not seen by its number.
  [[nodiscard]] std::string printable(std::string_view text);

  // A line so made printable: its width, and its picture.
  [[nodiscard]] double width_of(std::string_view line, const line_style& style);
  [[nodiscard]] line_picture picture_of(std::string_view line, const line_style& style);

private:
  struct inside;
  std::unique_ptr<inside> in_;
};

} // namespace qb::inline lettering
