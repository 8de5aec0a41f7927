// A box's tubes held against what the patient's record says of them.
// A pure function, so that receiving, the day's list and the report say the same.
//
// rule              weight  when
// tube-missing      review  the record has a breath for it, and it is not in the box
// tube-extra        review  in the box, and the record has no breath for it, or no such sample
// tube-twice        review  two of one number
// lid-bad           review  its lid was not closed well
// label-differs     review  the time on its label is farther from the record's than `label_within`
// labels-swapped    review  two such labels that would both agree if they were exchanged
// identifiers-differ  review  the two on the box are not those of the request
// identifiers-open  review  they were not compared
// kit-other-test    review  the box is of another test than the record
// posted-late       review  posted later after the test than the protocol asks
// transit-long      review  longer on its way than `transit_within`
// late-or-long      review  no posting day is known, and it came later than both together allow
// arrived-before    review  it arrived before the day of the test
// stopped-told      note    the sheet says that the test was stopped
// not-completed     note    the sheet says that it was not completed
#pragma once

#include "core/protocol/profile.hpp"
#include "core/receiving/received.hpp"
#include "core/report/report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline receiving {

// One thing a reader should know of a box or its readings.
struct receiving_finding {
  std::string rule;
  consequence weight{consequence::review};
  std::vector<int> samples;          // the tubes it is about; none: the test
  std::vector<std::int64_t> figures; // whole numbers of its sentence, in the order of its words
  std::string words;
};

// What the record says of the tubes: of a log, of a result by code, or of a paper sheet.
struct recorded_tubes {
  std::string protocol;
  std::vector<std::optional<day_minute>> labels; // one a sample: its label's time; none: no breath
  std::optional<civil_date> tested;
};

// Of a log's report: the minute that the device's clock showed in the record's zone.
[[nodiscard]] recorded_tubes recorded_tubes_of(const report& r);
[[nodiscard]] recorded_tubes recorded_tubes_of(const paper_record& p);

// How many days there are for posting and for the way.
struct box_terms {
  std::optional<std::chrono::minutes> label_within;
  std::optional<std::chrono::days> post_within; // the protocol's
  std::optional<std::chrono::days> transit_within;
};

// What stands against the box that arrived last; empty where none did. `told` is nullptr while no
// record is there: then tubes are held against nothing. `lab` is the laboratory's zone.
[[nodiscard]] std::vector<receiving_finding> check_box(const received_kit& kit,
                                                       const recorded_tubes* told,
                                                       const box_terms& terms, const zone& lab);

// The same as findings of the record's kind, so that one list holds all: one for each tube a thing
// is about, without a tube where its number is none that a sample has.
[[nodiscard]] std::vector<finding> as_findings(const std::vector<receiving_finding>& found);

} // namespace qb::inline receiving
