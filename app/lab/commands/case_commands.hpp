// The commands about one kit's case: judged, reported, a finding set aside, concluded. Each answers
// an exit status, as those of commands.hpp do.
#pragma once

#include "app/lab/context/lab_context.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// A kit from the store judged by the criteria of its test, as text or JSON.
[[nodiscard]] int judge_kit(const shared_options& shared, const lab_context_options& at,
                            const std::string& kit_or_test, const console& to);

// The report. "pdf": one or two pages; "json": app/lab/render/report_json.hpp; "fhir": an R4
// bundle with the laboratory's results, which needs a log.
struct report_options {
  std::string kit_or_test;
  std::string format;    // "pdf", "json" or "fhir"
  std::string out;       // a file, its owner's alone; empty: KIT.report.FORMAT
                         // beside the caller; "-" is standard output
  bool with_name{false}; // in FHIR name and birth date too; PDF and JSON always name the person
  int number{0};         // what went out with that conclusion, byte for byte; 0: as it is now
  bool all{false};       // every concluded test that was not reported since, into the folder `out`
};
[[nodiscard]] int write_report(const shared_options& shared, const lab_context_options& at,
                               const report_options& o, const console& to);

// KIT.report.pdf, .json or .fhir.json: the name of a report's file where none was given; of
// "letters" without its ending.
[[nodiscard]] std::string report_name(const std::string& kit, const std::string& format);

// The reports of all tests that were concluded, and whose report was not written by this command
// since: each once. One that cannot be made is told, and the others are written.
[[nodiscard]] int write_all_reports(const shared_options& shared, const lab_context_options& at,
                                    const report_options& o, const console& to);

// Drafts for a person to sign, where it was concluded that a test cannot be reported: to whoever
// was tested, to whoever asked for it, and the slip for a new kit; as NAME.letters.pdf and .txt.
struct letters_options {
  std::string kit_or_test;
  std::string out;    // a folder; empty: beside the caller
  std::string name{}; // of the files; empty: the kit number
};
[[nodiscard]] int write_letters(const shared_options& shared, const lab_context_options& at,
                                const letters_options& o, const console& to);

// A finding set aside by a named person, or that taken back. Both stay in the store. Refuses a rule
// that was not found of this kit, or not of that tube.
struct override_options {
  std::string kit;
  std::string rule;
  std::optional<int> tube; // none: wherever the rule was found
  std::string reason;
  bool withdraw{false};
};
[[nodiscard]] int override_finding(const shared_options& shared, const lab_context_options& at,
                                   const override_options& o, const console& to);

// The qualified reader's own words; from then on a report is no draft. Append-only and numbered: a
// later one amends or corrects an earlier, with a reason. What may be concluded is core's to say
// (core/case/concluding.hpp); who and which test is shown, and confirmed. A reader who has a key
// signs with it.
struct conclude_options {
  std::string kit;
  std::string words;
  std::string kind{};       // "final", "amended", "corrected", "cannot-be-reported"; empty: final
  std::string reason{};     // why there is a later one
  std::string lack{};       // why readings are missing
  std::string confirm{};    // the test's short id
  std::string passphrase{}; // the file it is the first line of; empty: the terminal is asked
  std::string letters{};    // of what cannot be reported: the folder for its letters; empty: none
};
[[nodiscard]] int conclude_kit(const shared_options& shared, const lab_context_options& at,
                               const conclude_options& o, const console& to);

// One after the other all that wait for a conclusion, in the order of the day's list: each is
// shown, and a line of standard input is the words for it. `o` is without kit and words.
[[nodiscard]] int conclude_waiting(const shared_options& shared, const lab_context_options& at,
                                   const conclude_options& o, const console& to);

} // namespace qb::lab
