// A published criterion as data: what is measured, how much of it, by when, and who said so.
// Each stands in a file of assets/criteria; no number of one is in code.
#pragma once

#include "core/curve/curve_number.hpp"
#include "core/protocol/protocol.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline curves {

// Against what a reading is held.
enum class measured_kind {
  rise, // how far it is above the baseline's
  level // the reading itself, the baseline's included
};

// How well tests with a sugar told apart those with and without what they look for, pooled over
// published studies. Of the tests as they were read there, not of this criterion, and of no person.
struct pooled_accuracy {
  std::string substrate;       // the sugar, as a protocol names it
  int sensitivity_permille{0}; // 0..1000
  int specificity_permille{0};
  std::string source;
};

// A sugar that a criterion was made for, or is used for.
struct applied_to {
  std::string substrate;     // as a protocol names it: "lactulose"
  std::optional<int> dose_g; // none: any dose of it
  std::string source;
};

// One criterion. It is met by the first sample whose h2_weight x H2 + ch4_weight x CH4 (its rise,
// or itself) is at least the threshold, at a minute that is in the window.
struct criterion {
  std::string id;
  std::string title;
  std::vector<applied_to> applies_to; // sugars with their doses, each once; never empty
  measured_kind kind{measured_kind::rise};
  int h2_weight{0}; // 0..10, not both 0
  int ch4_weight{0};
  std::string measured_source;
  exact threshold; // ppm
  std::string threshold_source;
  std::optional<exact> until; // the window's last minute, itself included; none: any sample
  std::string window_source;  // empty where there is no window
  std::string published_for;  // the dose, in words
  std::string published_source;
  std::vector<std::string> beside;       // ids of other criteria that answer the same question
  std::vector<pooled_accuracy> accuracy; // each sugar once; empty: none was read
  std::vector<std::string> notes;
  std::vector<source> sources;
};

// Reads a criterion's file; refuses with line and field, as `read_protocol` does.
[[nodiscard]] result<criterion> read_criterion(std::string_view text);

// Whether it was made, or is used, for that sugar in that dose; and for that sugar in any dose, so
// that two criteria can be spoken of together. Capitals are no matter.
[[nodiscard]] bool is_for(const criterion& c, const substrate& sugar);
[[nodiscard]] bool is_for_sugar(const criterion& c, const substrate& sugar);

// "H2 rise", "CH4", "rise of H2 + 2 x CH4": what is measured, in words.
[[nodiscard]] std::string measured_text(const criterion& c);

// The citation of its threshold, in full.
[[nodiscard]] std::string citation_of(const criterion& c);

// The figures for tests with that sugar, or nullptr. And their sentence, with its citation: "Tests
// with this sugar, pooled over studies: sensitivity 42.0 %, specificity 70.6 % (…)".
[[nodiscard]] const pooled_accuracy* accuracy_for(const criterion& c, std::string_view sugar);
[[nodiscard]] std::string accuracy_words(const criterion& c, const pooled_accuracy& a);

// Refuses a list in which an id stands twice, or one names another beside it that is not there.
[[nodiscard]] result<void> check_criteria(const std::vector<criterion>& all);

} // namespace qb::inline curves
