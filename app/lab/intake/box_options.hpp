// What is typed while receiving: the options of a box, in a few keystrokes, and of a paper sheet.
// Apart from the loop, so that a script's option and a person's line are read by the same reader.
#pragma once

#include "core/protocol/protocol.hpp"
#include "core/receiving/paper.hpp"
#include "core/receiving/readings.hpp"
#include "core/receiving/received.hpp"
#include "core/time/zone.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// The options of a box, in any order:
//   y            the two identifiers are those of the request        n   they are not
//   -7           tube 7 is not in the box                            !4  the lid of tube 4 is bad
//   +11          one more tube, which bears the number 11
//   4@08:16      the label of tube 4 says 08:16
//   lactulose-10g         the test, where neither log nor code tells it
//   arrived 2027-04-09 09:40   when it arrived; else now
//   posted 2027-04-07     by the postmark        tested 2027-04-06   by the sheet
//   whole / partial       the test was completed, or was not, by the sheet
//   stopped               stopped, or vomited, by the sheet
//   lot L7                the lot that stands on the box
//   expires 2027-12-31    its last day of use        stored cool   how the tubes lay (room, cool,
//                         warm, frozen), by the sheet
//   A1B2C3                a maker's code of a tube that is here (with a list of them)
//   FV-2071-04            the label of a tube that is here
struct box_options {
  stated identifiers{stated::not_stated};
  std::string protocol;
  std::optional<std::string> arrived; // as it was typed
  std::optional<civil_date> posted;
  std::optional<civil_date> tested;
  stated completed{stated::not_stated};
  stated stopped{stated::not_stated};
  std::vector<int> missing;
  std::vector<int> bad_lids;
  std::vector<int> more;
  std::vector<std::pair<int, day_minute>> labels;
  std::vector<std::string> codes; // a maker's, of tubes that are here
  kit_supply supply{};
  std::string stored{};
};

// Whether any of them is about the tubes.
[[nodiscard]] bool tells_tubes(const box_options& w);

// Reads them; `codes` are those that a maker printed on tubes. Refuses what is none of
// these.
[[nodiscard]] result<box_options> read_box_options(const std::string& line,
                                                   const tube_codes& codes);

// The tubes that they tell of: all of the test that `blown` has as taken, or all of its samples
// where that is empty, changed by the options. Refuses a missing tube or a bad lid of a number the
// box cannot have.
[[nodiscard]] result<std::vector<received_tube>>
stated_tubes(const box_options& w, std::size_t samples,
             const std::vector<std::optional<day_minute>>& blown);

// A paper sheet in one line: the day, the times, the drink if it is known, and the scores if they
// are to be kept, one group a tube (core/receiving/paper.hpp).
//   2027-04-06 07:30 07:45 - 08:15 08:30 08:45 09:00 09:15 09:30 09:45 drink 07:32-07:34
//   scores 000 000 100 - 210 310 320 210 100 000
struct sheet_options {
  std::string day;
  std::string times; // at the column where they were typed, blanks before them
  paper_drink drink;
  std::string scores; // likewise; empty: none
};
[[nodiscard]] result<sheet_options> read_sheet_options(const std::string& line);

// The words between blanks.
[[nodiscard]] std::vector<std::string> words_of(const std::string& line);

} // namespace qb::lab
