// A breath-test protocol as data: what is drunk, when samples are due, how to prepare.
// Every number in it comes from a file in assets/protocols and carries its rule's id and its
// source; nothing clinical is written in code.
#pragma once

#include "core/base/result.hpp"
#include "core/protocol/bounds.hpp"
#include "core/protocol/sample_number.hpp"
#include "core/time/civil.hpp"
#include "core/time/instant.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline protocols {

// One way the sugar comes in the kit, with how much of it makes the dose: what must be printed on
// the packet.
struct sugar_form {
  rule_ref why;
  std::string form;    // "powder" or "syrup"
  int amount{0};       // in `unit`
  std::string unit;    // "g" or "ml"
  bool measure{false}; // the amount is measured out; what is left in the bottle is never drunk.
                       // Version 1: no
};

// The sugar to drink.
struct substrate {
  rule_ref why;
  std::string name;                      // as the packet names it: "lactulose"
  std::vector<std::string> packet_names; // other names that may stand on the packet
  int dose_g{0};
  std::vector<sugar_form> forms;
  rule_ref water_why;
  int water_ml{0}; // water the dose is taken in
};

// Something that can be told about a window: "meal", "cigarette".
struct slip_subject {
  std::string id;
  std::string text; // as the person would say it: "I smoked"
};

// A span before the start in which something holds, in elapsed time. `from` and `until` count back
// from the start (until = 0: up to the start); its length is what is asked. Shorter than that is
// told to the laboratory; shorter than `least` is started only where the laboratory agrees.
struct preparation_window {
  rule_ref why;
  std::chrono::minutes from{0};
  std::chrono::minutes until{0};
  std::chrono::minutes least{0}; // 0..asked
  std::string least_source;
  std::string name; // a few words: "Water only"
  std::string text;
  // What fits the test while it holds, short; an empty list is "nothing", none is "says nothing".
  std::optional<std::vector<std::string>> eat;
  std::optional<std::vector<std::string>> drink;
  std::vector<slip_subject> subjects;

  [[nodiscard]] std::chrono::minutes asked() const { return from - until; }
};

// Who may say that something may be done although a rule stands against it.
enum class releaser {
  doctor, // one who knows the person: a doctor, nurse or midwife of their own
  laboratory,
  pharmacist,
  person, // the person alone: what nobody prescribed is theirs to pause
};

// What kind of thing a washout is about.
enum class washout_kind {
  medicine,  // may be paused only if the prescriber agrees
  course,    // is finished as prescribed; the test waits
  happening, // happened on a day: a colonoscopy, an earlier breath test
};

// Something that is to lie whole calendar days before the start. Fewer than `days` is told to the
// laboratory; fewer than `least` is started only where the laboratory agrees.
struct washout {
  rule_ref why;
  washout_kind kind{washout_kind::medicine};
  std::chrono::days days{0};
  std::chrono::days least{0}; // 0..days
  std::string least_source;
  std::string name;     // a few words: "Antibiotics"
  std::string question; // "Have you taken antibiotics?"
  std::string which;    // what counts as one, for who does not know the word
  std::string text;     // what it means for this test, and whom to ask
  // On whose word a medicine is paused for the test, or the test goes on in spite of it; of going
  // on, never the person's own. None: was not asked (version 1).
  std::optional<std::vector<releaser>> may_agree{};
  std::string agree_source;
};

// Something that holds from the first sample to the last.
struct holding_rule {
  rule_ref why;
  std::string text;
};

// No scale of symptoms goes higher: that is what the two rows of score buttons can show.
inline constexpr int most_score = 10;

// One symptom that is scored with every sample.
struct symptom {
  std::string id;
  std::string text;
};

// Where an answer "yes" or "not sure" leads.
enum class leads_to {
  ask_first,     // the plan waits until somebody answered, and who and what is recorded
  not_this_test, // this test is not for this person; the laboratory finds another way
};

// A state in which somebody must be asked before the test: a plain question for the patient.
// Nothing is diagnosed by it.
struct caution {
  rule_ref why;
  leads_to leads{leads_to::ask_first}; // where "yes" leads
  leads_to unsure_leads{
      leads_to::ask_first}; // where "not sure" leads. Version 1: somebody is asked
  std::string name;         // a few words for lists and the record: "Diabetes"
  std::string question;     // "Do you have diabetes?"
  std::string text;         // why it matters here
  std::string whom;         // whom to ask: "your diabetes team"
  std::string ask;          // what to ask them
  // For whom was never told a name for it. Version 1: both are empty.
  std::vector<std::string> recognise; // how to recognise it, a short plain sentence each
  std::string is_not;                 // what it is not; may be empty
  // Empty: nobody may, and what would change that needs a new kit. Version 1: either.
  std::vector<releaser> may_release{releaser::doctor, releaser::laboratory};
};

// One sign that something may be wrong, as it is asked during the test.
struct warning_sign {
  rule_ref why;
  std::string id; // "pain": what the record keeps
  std::string text;
  bool is_final{false}; // going on is not offered
};

// When the warning signs are asked in words, and which. A score alone raises no alarm.
// Version 1: the six it was asked about then, none of them final; no source stands with them.
struct warning_rules {
  rule_ref why;
  std::optional<int> rise;  // a score this much above the first; none: what the profile says
  std::optional<int> level; // a score as high as this, wherever it began; none: no level asks
  std::vector<warning_sign> signs;
};

// When symptoms are scored beside with each tube. Version 1: never.
struct symptom_times {
  rule_ref why;
  std::optional<std::chrono::minutes> after_last; // once more, this long after the last tube is due
  std::optional<std::chrono::minutes> later;      // and once this long after the drink's beginning
};

// Where it leads that a breath went wrong.
enum class spoil_leads_to {
  repeat, // the tube is blown again, where there is time for it; told to the laboratory too
  tell,   // it is told to the laboratory
};

// One way in which a breath can go wrong, told with one press.
struct breath_spoil {
  rule_ref why;
  std::string id;   // "room-air": what the record keeps
  std::string text; // as the person would say it: "I breathed in room air"
  spoil_leads_to leads{spoil_leads_to::tell};
};

// One short thing that is said to the patient, in the order of its list.
struct advice {
  rule_ref why;
  std::string text;
};

// A citation, "common practice", or "this laboratory's choice"; `basis` says how it is known.
struct source {
  std::string id;
  std::string citation;
  std::string basis; // "read", "memory", "common-practice", "inferred" or "laboratory"
};

// A figure that is not usual for this sugar, and who stands for it (core/protocol/figures.hpp).
struct confirmed_figure {
  std::string rule;
  std::string by;
};

// The whole protocol as it was read; lists keep the file's order.
struct protocol {
  // From this version on the packet is read out and the morning's answers grow old: what an older
  // one froze was asked by the window alone.
  static constexpr int with_safety = 2;
  int version{with_safety}; // of the file it was read from
  std::string id;
  std::string title;
  std::string kit_letters; // two characters that name this protocol in kit codes
  rule_ref kit_why;
  int tubes_in_kit{0}; // at least as many as samples; those after the last sample stay empty
  rule_ref age_why;
  int age_from_years{0};
  std::optional<int> age_to_years; // that age included; none: no upper limit
  substrate sugar;
  rule_ref grid_why;
  std::vector<std::chrono::minutes> offsets; // due times after sample 1; the first is 0
  std::vector<preparation_window> windows;
  std::vector<washout> washouts;
  std::vector<holding_rule> during_test;
  rule_ref posting_why;
  std::chrono::days post_within{0};
  rule_ref scale_why;
  int score_least{0};
  int score_most{0};
  std::vector<symptom> symptoms;
  qb::symptom_times symptom_times;
  warning_rules warnings;
  rule_ref breath_why;
  std::chrono::seconds breath_least{0};
  std::chrono::seconds breath_most{0};
  rule_ref hold_why;                   // empty where nothing is held
  std::chrono::seconds breath_hold{0}; // the breath is held so long before it is blown; 0: not
  // What can go wrong with a breath, the likely first. Version 1, and the first files of version 2:
  // the lid was open, too little was blown, the tube fell; each is blown again.
  std::vector<breath_spoil> spoils;
  // All of these are empty in version 1.
  std::vector<advice> breath_how;   // how to blow into the tube, step by step
  std::vector<advice> expected;     // told before the drink: what it may do for some hours
  std::vector<advice> not_expected; // and what it should not: then nothing goes on, and who to call
  std::vector<advice> afterwards;   // after the last tube: eating, drinking, the night, driving
  std::vector<advice> medicines;    // that are taken on the morning of the test; may be empty
  std::vector<caution> cautions;    // asked before the plan
  std::vector<caution> morning;     // asked briefly at the gate
  std::optional<sample_bounds> bounds; // in place of the profile's, where this grid needs its own
  rule_ref bounds_why;
  std::vector<confirmed_figure> confirmed;
  std::vector<source> sources;

  [[nodiscard]] std::size_t samples() const { return offsets.size(); }
  [[nodiscard]] std::chrono::minutes offset_of(sample_number n) const {
    return offsets.at(n.index());
  }

  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  protocol();
  protocol(const protocol&);
  protocol(protocol&&) noexcept;
  protocol& operator=(const protocol&);
  protocol& operator=(protocol&&) noexcept;
  ~protocol();
};

// Reads a protocol file's text, of version 1 or 2: what an older record has frozen is read for
// ever, and what it is silent about means what the program did then (core/protocol/version_1.hpp).
// Refuses with line and field: unknown or missing fields, numbers out of range, fewer tubes than
// samples, offsets not rising from 0, a least that is more than what is asked, own bounds in which
// two samples meet, a warning level that the scale has not, a text longer than the smallest window
// shows, a rule id used twice, a source id that is not listed.
[[nodiscard]] result<protocol> read_protocol(std::string_view text);

// Whether somebody born on `birth` is of the protocol's age on that day.
[[nodiscard]] bool age_fits(const protocol& p, civil_date birth, civil_date on);

// The window, washout or question (of either list) of that rule id, or nullptr.
[[nodiscard]] const preparation_window* find_window(const protocol& p, std::string_view rule);
[[nodiscard]] const washout* find_washout(const protocol& p, std::string_view rule);
[[nodiscard]] const caution* find_caution(const protocol& p, std::string_view rule);

// Whether two rule ids mean the same question. One question has one id in all protocols, so that
// what was answered for one sugar counts for the other; earlier protocols had several, and records
// keep them.
[[nodiscard]] bool is_same_question(std::string_view a, std::string_view b);
// The form of its sugar of that name ("powder"), or nullptr.
[[nodiscard]] const sugar_form* find_form(const protocol& p, std::string_view form);
[[nodiscard]] const breath_spoil* find_spoil(const protocol& p, std::string_view id);
[[nodiscard]] const source* find_source(const protocol& p, std::string_view id);

} // namespace qb::inline protocols
