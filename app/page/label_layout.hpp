// How one label is filled: which sizes let everything stand on it.
// A label may be as small as 38 x 21 mm and a name as long as it is, so sizes are found, not given.
#pragma once

#include "app/page/canvas.hpp"
#include "core/code/symbol.hpp"
#include "core/sheet/sheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::page {

// The em of a label's facts, in points: the largest that is tried, and the floor. Below it a
// printer of 203 dots an inch breaks the strokes.
inline constexpr double largest_label_em = 10.5;
inline constexpr double least_label_em = 6;
// The number is at least this many times as large: 18 points on the smallest label.
inline constexpr double least_number_times = 3;
// A name stands on at most two lines, and so does a doctor's.
inline constexpr int most_name_lines = 2;

// The largest sizes that may be used, so that all labels of a sheet look alike.
struct label_sizes {
  double em{largest_label_em};
  double number_em{a4_height}; // as large as it fits
};

// What is set where, from top to bottom: the name (or the kit, where there is none); beside each
// other number, offset with kit, and code; practice; birth date; doctor; date and time at the foot.
struct label_layout {
  double em{least_label_em};
  type_style name;
  std::string title;     // what stands at the name's place
  bool kit_apart{false}; // the kit number needs a line of its own
  bool doctor{true};     // there is room for the doctor
  int doctor_lines{0};   // 0: as many as it takes
  double module{0};      // side of the code's modules in points; 0: no code
  double code_side{0};   // with its quiet zone
  double number_em{least_label_em * least_number_times};
  double number_wide{0};
  double middle_high{0};
  double when_high{0};
  std::vector<std::string> shortened; // "name", "doctor", "code"
};

// The largest layout in which everything fits a room of that many points. Where nothing fits, the
// doctor is cut with an ellipsis, then left out, then the code is left out, then the name is cut
// with an ellipsis; each is told in `shortened`. On a label of practice the doctor may be left out
// to make room for the mark, which is not told.
[[nodiscard]] label_layout lay_out(canvas& c, const label_text& l, double width, double height,
                                   const std::optional<code::symbol>& code, double module,
                                   const label_sizes& most = {});

// Text set a little tighter than the font's own lines, which are made for books; answers its
// height.
double tight_text(canvas& c, double x, double y, double width, const words& w, type_style style);
[[nodiscard]] double tight_height(canvas& c, double width, const std::string& text,
                                  type_style style);

} // namespace qb::page
