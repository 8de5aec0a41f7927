// What may be concluded of a case: the one gate, which every door that keeps a conclusion asks.
// Until a box was received, its identifiers compared, and its tubes read or their lack explained,
// nothing stands for the curve but the words that it cannot be reported.
#pragma once

#include "core/case/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline cases {

// Why nothing but `cannot_be_reported` may be concluded now, each in words; empty where it may. A
// finding that a named person set aside does not stand against it.
[[nodiscard]] std::vector<std::string>
bars_to_concluding(const test_case& c, const received_kit& received, bool lack_explained);

// Whether that conclusion may be kept as the next of its test; else what is to be told instead.
// The first is final or cannot-be-reported; a later one amends or corrects, or says that it cannot
// be reported after all, and has a reason. Name and words are not blank.
[[nodiscard]] std::optional<refusal> no_to_conclusion(const conclusion& next, const test_case& c,
                                                      const received_kit& received);

// Why the test cannot be reported, to whoever was tested, each once and as a whole sentence: what
// bars it from being concluded, and what cannot be used; where there is nothing of that, what
// stands for review and has plain words (assets/findings). Empty: the reader's own words are all
// there is.
[[nodiscard]] std::vector<std::string> plain_reasons(const test_case& c,
                                                     const received_kit& received);

// "Report 2: replaces report 1 of 2027-04-12 (a reading came late)."; of a first one "Report 1.".
[[nodiscard]] std::string report_number_words(const test_case& c);

// The words as they are printed: that it cannot be reported, and why readings are missing.
[[nodiscard]] std::string printed_conclusion(const conclusion& c);

} // namespace qb::inline cases
