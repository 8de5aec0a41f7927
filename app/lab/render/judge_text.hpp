// A judgement for a person at a terminal: each criterion with its answer, its reason, how firm it
// is and where it was published.
#pragma once

#include "core/curve/judge_curve.hpp"

#include <string>

namespace qb::lab {

// Some lines, the last with its end.
[[nodiscard]] std::string judge_text(const judgement& j, const curve& c, const std::string& test);

// "meets the criterion", "does not meet the criterion", "cannot be determined".
[[nodiscard]] const char* answer_words(answer a);

// How firm an answer is, as a sentence: firm, or what would change it.
[[nodiscard]] std::string firmness_words(const firmness& f, answer is);

// That the deciding sample's carbon dioxide was low; empty where it was not.
[[nodiscard]] std::string low_co2_words(const judged_criterion& j);

} // namespace qb::lab
