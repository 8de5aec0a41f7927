// The resources of a bundle, one function for each kind.
// What each stands for is told in core/fhir/bundle.hpp.
#pragma once

#include "core/fhir/parts.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::fhir {

// Who the kit belongs to, and the program that wrote the log.
[[nodiscard]] resource patient_of(const making& m);
[[nodiscard]] resource device_of(const making& m);

// One for each sample of the test, blown or not.
[[nodiscard]] std::vector<resource> specimens_of(const making& m);
[[nodiscard]] std::string tube_part(sample_number n);

// One for each symptom of each sample that was blown or scored, and of scores that belong to none.
[[nodiscard]] std::vector<resource> scores_of(const making& m);
[[nodiscard]] std::string score_part(sample_number n, const std::string& symptom);
[[nodiscard]] std::string score_part(score_time t, const std::string& symptom);

// The drink; nothing where it was never begun.
inline constexpr const char* drink_name = "drink";
[[nodiscard]] std::optional<resource> drink_of(const making& m);

// What was asked and told before, at the start and during the test.
[[nodiscard]] resource answers_of(const making& m);

// Who says all that; then one for each correction, of those `made` that it changed.
[[nodiscard]] std::vector<resource> provenance_of(const making& m,
                                                  const std::vector<resource>& made);

// The same of what the laboratory added: it is the author, never the person.
[[nodiscard]] resource provenance_of_results(const making& m, const std::vector<resource>& made,
                                             std::optional<instant> issued);

// Gases, criteria and the report that holds them together.
[[nodiscard]] result<std::vector<resource>> results_of(const making& m,
                                                       const laboratory_results& results);

} // namespace qb::fhir
