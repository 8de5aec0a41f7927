// A judgement for a person at a terminal: each criterion with its answer, its reason, how firm it
// is and where it was published.
#pragma once

#include "core/curve/judge_curve.hpp"

#include <string>

namespace qb::lab {

// Some lines, the last with its end. `precision` is how far a minute of the record may be off.
[[nodiscard]] std::string judge_text(const judgement& j, const curve& c, const test_judging& test,
                                     exact precision = exact());

// "meets the criterion", "does not meet the criterion", "cannot be determined".
[[nodiscard]] const char* answer_words(answer a);

// How firm an answer is, as a sentence: firm, or which plausible changes would turn it.
[[nodiscard]] std::string firmness_words(const firmness& f, answer is, const judging_terms& by,
                                         exact precision = exact());

// What it would be by the strict minute; empty where that is no other.
[[nodiscard]] std::string strict_words(const firmness& f, answer is);

// What the criteria beside it say, a sentence each; empty where there is none.
[[nodiscard]] std::string others_words(const firmness& f);

// Whether gases were corrected for carbon dioxide, as a sentence; empty where none was measured.
[[nodiscard]] std::string correction_words(const judgement& j);

// That the deciding sample's carbon dioxide was low; empty where it was not.
[[nodiscard]] std::string low_co2_words(const judged_criterion& j);

} // namespace qb::lab
