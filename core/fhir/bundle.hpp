// One test as a FHIR R4 (4.0.1) Bundle of the type `collection`, for other systems.
// Made by the laboratory's side from a log; the same log gives the same bytes.
//
// Everything is named by the UUID of the test's id: a kit number may be borne by two tests, of two
// people.
//
// What stands for what:
//   Patient                   name and birth date only if asked for
//   Device                    the program that wrote the log
//   Specimen                  one for each sample of the test; its container bears the kit number
//                             too. A tube that was not blown has the status `unavailable`, no
//                             collection, and a note that says so
//   Observation               one for each symptom and sample, and for each symptom scored after
//                             the tubes, which has no specimen. A skipped score has a
//                             dataAbsentReason and no value, never 0; one put right is `corrected`
//   MedicationAdministration  the drink, from its first sip to its end. The dose is given as taken
//                             only where all of it was drunk
//   QuestionnaireResponse     what was asked and told; the linkIds are the rules' ids
//   Provenance                who told it and what assembled it; one more for each correction
//                             (with the tubes of an exchange go their scores)
// With results of the laboratory: an Observation for each gas of a tube, one for each criterion,
// one for each finding for review, and a DiagnosticReport, preliminary until a qualified reader has
// concluded.
#pragma once

#include "core/curve/curve.hpp"
#include "core/fhir/codes.hpp"
#include "core/report/report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::fhir {

// What whoever asks for it wants.
struct bundle_choices {
  bool with_name{false};  // the person's name and birth date too, and who scored for them
  bool rehearsals{false}; // practice is refused without this, and marked with it
  std::string mark{};     // words on every resource, such as that the laboratory is invented
};

// What was measured in one tube. A gas that was not measured is nothing, never zero.
struct gas_reading {
  sample_number number{1};
  std::optional<exact> h2;         // ppm
  std::optional<exact> ch4;        // ppm
  std::optional<exact> co2;        // per cent
  std::optional<instant> measured; // when the laboratory measured it
  // Where h2 and ch4 are corrected for carbon dioxide: the share they are corrected to, as
  // "5.5" per cent, and what was measured. Empty where they are as measured.
  std::string corrected_to{};
  std::optional<exact> h2_measured{};
  std::optional<exact> ch4_measured{};
  // Of a figure that the reading is only below or above.
  reading_range h2_is{reading_range::within};
  reading_range ch4_is{reading_range::within};
  reading_range co2_is{reading_range::within};
};

// How one published criterion came out, as `judge` words it.
struct criterion_answer {
  std::string id;
  std::string title;
  std::string answer; // "meets", "does-not-meet", "cannot-be-determined"
  std::string reason;
  std::string citation;
  std::vector<std::string> limits{}; // how firm it is, and the strict answer: sentences
};

// A finding that a reader has to look at.
struct review_finding {
  std::string rule;
  std::optional<sample_number> tube; // none: the whole test
  std::string words;
};

// What a conclusion is in FHIR's terms; a report that cannot be made is `cancelled`.
enum class result_status { final_one, amended, corrected, cancelled };

// What the laboratory adds to a log.
struct laboratory_results {
  std::vector<gas_reading> gases;
  std::vector<criterion_answer> criteria;
  std::vector<review_finding> findings{}; // those that stand and weigh more than a note
  std::string conclusion;                 // the qualified reader's own words; empty: a draft
  std::string reader;                     // their name; empty: a draft
  std::optional<instant> issued;
  result_status status{result_status::final_one}; // where it is no draft
};

// The bundle's JSON. `told` must be the report of this log. Refuses practice that was not asked
// for, and a gas reading of a tube that the log does not have as blown, or of one tube twice.
[[nodiscard]] result<std::string>
bundle_text(const read_log_result& log, const report& told, const code_list& codes,
            const bundle_choices& choices,
            const std::optional<laboratory_results>& results = std::nullopt);

// The same resources, each on a line of its own, as a data warehouse takes them: newline-delimited
// JSON. They name each other as TYPE/ID, since there is no bundle around them.
[[nodiscard]] result<std::string>
resource_lines(const read_log_result& log, const report& told, const code_list& codes,
               const bundle_choices& choices,
               const std::optional<laboratory_results>& results = std::nullopt);

} // namespace qb::fhir
