// The times of a paper sheet, as one line: read, and doubted where a hand may have slipped.
//
//   07:30 07:45 - 08:15 …    one a sample, in their order; "-" is a gap; "7:30", "07.30" and "0730"
//                            are times too
//
//   000 1-2 10/0/3 -         scores, one group a sample and one score a symptom, as the sheet's
//   columns
//                            stand; "-" is a score, or a whole group, that was not given
//
//   A@10:45 200 B -          after them the sheet's rows A and B, which belong to no tube, each
//   with
//                            the time that is written there, if one is
//
// What is refused of a word says where it stands in the text (core/receiving/typed_place.hpp), so
// whoever hands over a part of a line keeps its columns by blanks before it.
//
// A sheet has times of day and no days. Each time is set against the one before it and the test's
// grid: where adding a day, or adding or taking half a day, brings it nearer to where the grid has
// it, the hand may have crossed midnight, or written a time of a 12-hour clock. That is asked,
// never assumed. Times are differences on a wall clock: a clock change in that night does not show.
#pragma once

#include "core/protocol/profile.hpp"
#include "core/receiving/received.hpp"

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// What is asked.
enum class paper_doubt {
  past_midnight, // the times go on after midnight
  twelve_hours,  // times are half a day off: written from a 12-hour clock
  backwards,     // a time is not after the one before it
  drink,         // the drink's time cannot be (core/receiving/slips.hpp)
  replaces,      // another sheet of the kit is kept
};

// The word that confirms it: "past-midnight", "twelve-hours", "as-written", "drink-as-written",
// "replaces".
[[nodiscard]] const char* doubt_text(paper_doubt d);

// One question, with the first sample it is about.
struct paper_question {
  paper_doubt what{paper_doubt::backwards};
  int sample{1};
  std::string words; // the question itself
};

// A line as it was read.
struct paper_line {
  std::vector<std::optional<day_minute>> times; // as meant: shifted where a 12-hour clock was asked
  bool past_midnight{false};
  std::vector<paper_question> questions; // each kind once
};

// Reads the line for a grid of that many samples. Refuses another number of times, what is no time
// of day, and a line without any.
[[nodiscard]] result<paper_line> read_paper_line(std::string_view text,
                                                 const std::vector<std::chrono::minutes>& offsets);

// Reads the scores of a sheet: `symptoms` in each group, each from 0 to `most`. Without slashes
// each character is a score. Refuses another number of groups or scores, and what is no such score.
[[nodiscard]] result<std::vector<tube_scores>>
read_paper_scores(std::string_view text, std::size_t samples, std::size_t symptoms, int most);

// The part of a line of scores from its row A or B on; empty where it has none.
[[nodiscard]] std::string_view paper_rows_in(std::string_view scores);

// Reads those rows: `symptoms` in each group, or as many as there are where it is 0. Refuses a row
// without its group, one that comes twice or is none of `asked`, what is no time, and what
// `read_paper_scores` refuses.
[[nodiscard]] result<std::vector<paper_after>>
read_paper_after(std::string_view rows, std::size_t symptoms, int most,
                 const std::vector<score_time>& asked);

// "A@10:45 2/0/0 B -": what `read_paper_after` reads again; empty for none.
[[nodiscard]] std::string paper_after_text(const std::vector<paper_after>& after);

// "0/0/1 - 2/-/0": what `read_paper_scores` reads again; empty for none.
[[nodiscard]] std::string paper_scores_text(const std::vector<tube_scores>& scores);

// Each sample's minutes after the midnight before the first: rising where the sheet was.
[[nodiscard]] std::vector<std::optional<std::chrono::minutes>> paper_clock(const paper_record& p);

// Each sample's minutes after the profile's time zero, where it was taken. Nothing at all where the
// sheet does not tell time zero: no time for tube 1, or none for the drink.
[[nodiscard]] std::optional<std::vector<std::optional<exact>>> paper_minutes(const paper_record& p,
                                                                             time_zero zero);

} // namespace qb::inline receiving
