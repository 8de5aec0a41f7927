// One kit's case: what the patient's log (or code, or paper sheet) says of its times, what the
// laboratory found and measured, joined by kit and tube, and judged at the true minutes.
//
// Minutes count from the profile's time zero: the closing of tube 1, or the drink's start or end.
// Where the drink came before tube 1 there is no baseline, and minutes count from the drink's
// start; where that moment is not known they count from tube 1. Both are findings.
// A tube goes into the curve when its time and at least one gas are known and no finding says that
// it cannot be used. It stays in the curve, and in sight, and decides nothing, while a finding
// stands that its carbon dioxide is too low, that too great a factor would correct it, or that the
// analyser marked it invalid. The baseline is tube 1 and no other: a tube at time zero or before
// that is not number 1 stays out while tube 1 is not in. The judging is
// core/curve/judge_curve.hpp's; nothing of it is done again here.
#pragma once

#include "core/code/result_of_events.hpp"
#include "core/curve/judge_curve.hpp"
#include "core/curve/judge_symptoms.hpp"
#include "core/findings/rules.hpp"
#include "core/receiving/received.hpp"
#include "core/report/report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline cases {

// What the laboratory brings to every case. The profile is its present one.
struct case_rules {
  lab_profile profile;
  finding_rules findings;
  std::shared_ptr<const judging_rules> judging;
};

// The gases of one tube: as measured, and as they are judged.
struct case_gases {
  gas_reading raw;
  std::optional<exact> h2;  // corrected where the profile asks for it, else as measured
  std::optional<exact> ch4; // the same
  bool corrected{false};
};

// One tube of the test with all that is known of it.
struct case_tube {
  int number{1};
  std::optional<instant> due;    // none while there is no grid
  std::optional<instant> closed; // on the patient's clock
  std::string how;               // "pressed", "told", "from memory", "by hand"; empty: not taken
  tube_standing standing{tube_standing::not_yet};
  std::optional<duration> late; // negative before the due time
  std::optional<exact> minute;  // since time zero
  std::optional<case_gases> gases;
  std::vector<case_gases> other_gases{};  // of readings that are kept beside it and are not used
  std::vector<std::optional<int>> scores; // one for each of the case's symptoms
  std::string comment;
  bool in_curve{false};
  std::string left_out;       // why not, where it was taken or measured
  std::string undecided_by{}; // in the curve: the finding by which it decides nothing
};

// Scores that belong to no tube and were given.
struct case_after {
  score_time what{score_time::after_last};
  instant given;                          // on the patient's clock; of a code, as time passed
  exact minute;                           // since time zero
  std::vector<std::optional<int>> scores; // one for each of the case's symptoms
  std::string comment;
};

// A finding with its name, what follows from it, and who set it aside.
struct case_finding {
  finding what;
  std::string name;
  std::string source; // the rule's, in full
  consequence weight{consequence::note};
  std::optional<override_of> aside;
  bool at_once{false}; // not to wait for the box: the entry's `look`
  std::string plain{}; // to whoever was tested; never empty once weighed

  // Whether it counts: nobody set it aside.
  [[nodiscard]] bool stands() const { return !aside.has_value(); }
};

// The second axis.
enum class symptom_answer { rose, did_not_rise, not_known };

// Gas and symptoms side by side, in plain words; neither is drawn from the other.
struct two_axes {
  // meets: some criterion is met; does-not-meet: none is, and no gas is unjudged.
  answer gas{answer::cannot_be_determined};
  symptom_answer symptoms{symptom_answer::not_known};
  std::string words;
};

// The whole case, joined and judged. Texts are empty and moments nothing where nobody told.
struct test_case {
  std::string kit;
  std::optional<report> log;
  std::optional<code::packed_result> code; // where there is no log
  std::optional<paper_record> paper;       // where there is neither
  protocol test;
  zone place; // of a paper sheet: the clock on the wall, at no distance
  time_zero asked{time_zero::tube_1_closed};
  time_zero zero{time_zero::tube_1_closed}; // from which minutes really count
  std::optional<instant> zero_at;
  std::optional<instant> drink_start;
  std::optional<instant> drink_end;
  std::optional<exact> drink_minute; // the drink's start, counted like the tubes' minutes
  std::vector<case_tube> tubes;
  std::vector<case_after> after;
  std::vector<case_finding> findings; // in the log's order, then receiving's
  curve gases;
  exact precision; // how far a minute may be off: of a code or a paper sheet
  test_judging by; // holds what `judged` points into
  judgement judged;
  std::vector<symptom_track> tracks; // by the test's symptoms
  std::vector<symptom_rise> rises;
  two_axes axes;
  std::vector<std::string> cannot_be_used; // rules that keep the whole test from being judged
  std::optional<conclusion> concluded;
  std::optional<conclusion> replaced; // the one before that
  std::vector<std::string> since;     // what came after that conclusion, in words
  instant as_of;                      // the latest moment anything here was told or entered

  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  test_case();
  test_case(const test_case&);
  test_case(test_case&&) noexcept;
  test_case& operator=(const test_case&);
  test_case& operator=(test_case&&) noexcept;
  ~test_case();
};

// From a log. `receiving_findings` are what was found while receiving of box, tubes and readings.
// Refuses a log in which no test was chosen.
[[nodiscard]] result<test_case> case_of(const read_log_result& log, const report& told,
                                        const received_kit& received, const case_rules& rules,
                                        const std::vector<finding>& receiving_findings = {});

// A code holds whole seconds.
inline constexpr std::chrono::seconds code_precision{1};

// From a result that came by code alone. `own` are the laboratory's protocols, to hold against the
// one in the code. Refuses another number of tubes or symptoms than the test has.
[[nodiscard]] result<test_case> case_of(const code::packed_result& code, const protocol& test,
                                        const received_kit& received, const case_rules& rules,
                                        const own_files& own = {},
                                        const std::vector<finding>& receiving_findings = {});

// What a code that is kept beside its log adds: that the log ends before it, or says otherwise.
// Empty where both agree.
[[nodiscard]] std::vector<finding> beside_findings(const code::packed_result& code,
                                                   const std::vector<event>& events);

// From the last paper sheet, for that test; times are to the minute.
[[nodiscard]] test_case case_of(const paper_record& sheet, const protocol& test,
                                const received_kit& received, const case_rules& rules,
                                const std::vector<finding>& receiving_findings = {});

// Whether criteria are answered at all: nothing keeps the test from being judged.
[[nodiscard]] inline bool is_judged(const test_case& c) {
  return c.cannot_be_used.empty();
}

// Whether a qualified reader's words do not stand: there are none, or something came after them.
[[nodiscard]] inline bool is_draft(const test_case& c) {
  return !c.concluded.has_value() || !c.since.empty();
}

// The number of the tube whose sample is at that minute of the curve, if it is one.
[[nodiscard]] std::optional<int> tube_at(const test_case& c, exact minute);

} // namespace qb::inline cases
