// Sheets and rolls of labels as data: where the labels of a page stand.
// Labels are bought in many grids, printers shift the page, and a sheet that was begun is used up:
// so the grid is a file (assets/labels), and start and shift are settings of one print.
#pragma once

#include "core/base/result.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace qb::inline sheets {

// A length on paper in whole tenths of a millimetre, as the files have it.
struct paper_size {
  int width{0};
  int height{0};
};

// One kind of sheet, or of roll. Lengths are tenths of a millimetre from the page's top left
// corner.
struct label_sheet {
  std::string id;
  std::string name;
  bool roll{false}; // each label is a page of its own
  paper_size page;
  std::size_t columns{0};
  std::size_t rows{0};
  paper_size label;
  int left{0}; // of the first label
  int top{0};
  int pitch_x{0}; // from one label's left edge to the next one's
  int pitch_y{0};
  int margin_x{0}; // inside a label, kept free at the left and at the right
  int margin_y{0};
  std::string citation;
  std::string basis; // as a protocol's source has it

  [[nodiscard]] std::size_t on_a_page() const { return columns * rows; }
};

// Reads a file of labels; refuses with line and field: unknown or missing fields, numbers out of
// range, labels that overlap or leave the page, a roll of more than one label.
// The contract is assets/schema/labels.schema.json.
[[nodiscard]] result<label_sheet> read_label_sheet(std::string_view text);

// What one print needs beside the sheet.
struct label_print {
  std::size_t start_at{1}; // the first label used, from 1: those before are already gone
  int offset_x{0};         // moves everything to the right by that many tenths of a millimetre
  int offset_y{0};         // and down
};

// No printer is off by more than that; in tenths of a millimetre.
inline constexpr int most_offset = 100;

// Refuses a start that is not on the sheet, and offsets beyond `most_offset`, by the option's name.
[[nodiscard]] result<void> check_print(const label_sheet& sheet, const label_print& print);

// Where the label of that index (from 0) stands: its page, from 0, and its top left corner.
struct label_place {
  std::size_t page{0};
  int left{0};
  int top{0};
};
[[nodiscard]] label_place place_of(const label_sheet& sheet, const label_print& print,
                                   std::size_t index);

// Plain A4 to be cut, for the labels that follow a record's sheet: the same grid as the most common
// sheet of labels (assets/labels/a4-70x37.json).
[[nodiscard]] const label_sheet& plain_paper();

} // namespace qb::inline sheets
