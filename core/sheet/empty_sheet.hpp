// The symptom and sample sheet to be filled in with a pen: when no device is at hand, or it fails.
// What is printed on it is only what is sure before the test; a printed time would be believed.
#pragma once

#include "core/protocol/profile.hpp"
#include "core/sheet/labels.hpp"
#include "core/time/zone.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sheets {

// Something asked, with room to write or boxes to tick.
struct pen_field {
  std::string ask;
  std::string value;              // printed where it is known; empty: a line to write on
  int share{1};                   // of the row's width, beside the other fields' shares
  std::vector<std::string> ticks; // with boxes; a line follows the last one
};
using pen_row = std::vector<pen_field>;

// A headline with rows to fill in.
struct pen_block {
  std::string title;
  std::string note; // small, under the headline; may be empty
  std::vector<pen_row> rows;
};

// One tube: what is printed; time, how it is known, scores and note are left to the pen.
struct empty_row {
  sample_number number{1};
  std::string offset;
  std::string planned; // "07:45", holds only under the sheet's condition; may be empty
};

// The sheet from top to foot, in the order it is drawn.
struct empty_sheet {
  bool rehearsal{false};
  std::string title;
  std::string kit_number;   // may be empty
  std::vector<pen_row> top; // what the laboratory needs first, then the person
  std::string condition;    // "Only if tube 1 was at 07:30"; empty without a start
  std::string scale;        // "0 is none, 10 is the worst"
  std::vector<std::string> symptoms;
  std::vector<empty_row> rows;
  std::vector<pen_block> blocks; // the drink, the preparation, what else is to be told
  std::vector<std::string> foot;
};

// A start that was planned, and the zone its times are shown in.
struct planned_start {
  instant start;
  const zone& place;
};

// `start` may be nothing: then no times are printed at all.
[[nodiscard]] empty_sheet empty_sheet_of(const protocol& p, const lab_profile& lab,
                                         const paper_person& who,
                                         const std::optional<planned_start>& start);

// The empty sheet for the person and the plan of a record, which must have both.
[[nodiscard]] empty_sheet empty_sheet_of(const state& s, const zone& place);

} // namespace qb::inline sheets
