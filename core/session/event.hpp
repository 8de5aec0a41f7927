// The facts of one test, in the order they became known. Never edited: what was wrong is put right
// by a later event, and both stay.
#pragma once

#include "core/base/shared_text.hpp"
#include "core/clock/clock_reading.hpp"
#include "core/plan/earliest.hpp"
#include "core/plan/plan.hpp"
#include "core/protocol/frozen.hpp"
#include "core/protocol/sample_number.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace qb::inline sessions {

// How a time is known.
enum class how_known {
  observed,  // pressed as it happened
  told,      // entered afterwards, read off a clock
  estimated, // entered afterwards, from memory
};

// As files and scripts have it ("observed", "told", "estimated"), and in a reader's words
// ("pressed", "told", "from memory").
[[nodiscard]] const char* key_of(how_known how);
[[nodiscard]] const char* words_of(how_known how);

// The test is opened: what it is for the record, and the laboratory's choices frozen as they are.
struct opened {
  std::string test_id;           // a random name of this record, not of the person
  std::string program;           // name and version of the program that writes
  bool rehearsal{false};         // practice, never to be judged
  shared_text profile_text;      // the laboratory's profile, canonical JSON
  frozen<lab_profile> profile{}; // the same as it was read; none where nobody read it yet
};

// Who the person is, as far as a label needs it. Told again to correct it.
struct reported_person {
  std::string name;
  civil_date birth_date{};
  std::string doctor;     // who asked for the test; may be empty
  std::string kit_number; // from the kit; the pseudonym in codes and file names
  std::string laboratory; // as the person wrote or chose it
};

// The laboratory's kit code was typed or scanned, and what it says.
struct reported_kit {
  std::string code;        // as the laboratory printed it, with its groups
  std::string kit_number;  // the kit's own part of it
  std::string protocol_id; // the test this kit is for
  civil_date expires{};    // the last day it may be used
};

// How a question about a caution was answered.
enum class caution_answer { no, yes, unsure };
// What whoever was asked said: nothing yet, the test may go on, or it may not.
enum class asked_outcome { not_asked, go_on, not_this_test };

// As files have them: "no", "yes", "unsure"; "not-asked", "go-on", "not-this-test".
[[nodiscard]] const char* key_of(caution_answer a);
[[nodiscard]] const char* key_of(asked_outcome o);

// Who gave an answer.
enum class answerer { person, parent, carer };
// As files have them: "person", "parent", "carer"; "doctor", "laboratory", "pharmacist", "person".
[[nodiscard]] const char* key_of(answerer who);
[[nodiscard]] const char* key_of(releaser who);

// One question of a protocol's cautions, or of its morning, was answered. Told again to change it;
// the latest of a rule counts. Answers that must be asked about stand until an outcome is told.
// Records before version 3 have no `by`, no `said_by`, no `asked_again` and no `for_test`.
struct reported_caution {
  std::string rule;
  caution_answer answer{caution_answer::no};
  asked_outcome outcome{asked_outcome::not_asked};
  std::string who;   // who was asked: "my diabetes nurse"; empty while nobody was
  std::string words; // what they said, as the person puts it; may be empty
  std::optional<answerer> by{};
  std::optional<releaser> said_by{}; // what `who` is, where they said to go on
  // An answer that forbids is taken back only where the whole question was shown once more and it
  // was asked once more what was meant.
  bool asked_again{false};
  std::string for_test{}; // the protocol of which they said to go on, or not; empty: not kept then
};

// What stands on the packet of sugar, as it was read out at the gate.
struct reported_packet {
  std::string name;    // of the sugar; empty where it says something else
  int amount{0};       // of one dose, as printed, in `unit`
  std::string unit;    // "g" or "ml"; empty where it says something else
  std::string words{}; // what else it says, as the person reads it; may be empty
  // Another packet is taken back only where this one was read out once more, with both on the page.
  bool asked_again{false};
};

// What was told of one washout, as `circumstances` has it. Told again to change it.
struct reported_washout {
  answered_washout what;
  std::string who; // who agreed: to go on in spite of it, or that it is paused; empty: nobody
  std::optional<releaser> said_by{}; // what they are. Records before version 3 do not say
  // An answer that weighs less than the last is told only where the whole question was shown once
  // more and it was asked once more what was meant. Not in records before version 3.
  bool asked_again{false};

  friend bool operator==(const reported_washout& a, const reported_washout& b) = default;
};

// A start was chosen, or moved; the protocol is frozen with it and all instants are resolved.
struct plan_made {
  shared_text protocol_text; // canonical JSON
  std::string form;          // "powder" or "syrup", as it is in the kit
  plan what;
  frozen<protocol> rules{}; // the protocol as it was read; none where nobody read it yet
};

// The plan was called off; another may be made. Everything told before stays.
struct plan_called_off {
  std::string reason; // may be empty
};

// Something of the preparation was not kept, and the person said so.
struct reported_slip {
  std::string rule; // the preparation rule's id
  instant when;     // when it happened, as far as the person knows
  how_known how{how_known::told};
  std::string words;     // the person's own; may be empty
  std::string subject{}; // what of it, one of the rule's subjects; may be empty
};

// A list was gone through ("evening", "morning"), or one rule's beginning was confirmed as it
// happened (the rule's id as the name); the items ticked.
struct reported_checklist {
  std::string name;
  std::vector<std::string> items;
};

// The gate before the drink was passed: what the person confirmed.
struct reported_ready {
  std::vector<std::string> checks;
  std::vector<std::string> not_kept{}; // rules shown as not kept, and started in spite of it
  std::string agreed{};                // who agreed to that; may be empty
  std::optional<releaser> said_by{};   // what they are. Records before version 3 do not say
};

// The sugar stands dissolved, or opened, beside the person.
struct sugar_set_aside {};

// One symptom's score; nothing means it was skipped, which is not 0.
struct symptom_score {
  std::string id;
  std::optional<int> score;
};

// How the person felt at a sample. Told again to correct it; the latest counts.
struct reported_symptoms {
  sample_number sample{1};
  std::vector<symptom_score> scores;
  std::string comment; // may be empty
};

// Scores that belong to no tube: one more after the last tube, one later the same day.
enum class score_time { after_last, later };

// As files have them: "after-last", "later"; and in a reader's words, within a sentence.
[[nodiscard]] const char* key_of(score_time t);
[[nodiscard]] const char* words_of(score_time t);
// Their row on paper, where tubes have numbers: "A", "B".
[[nodiscard]] const char* paper_row_of(score_time t);

// How the person felt then. Told again to correct it; the latest counts. No score at all says that
// it was asked and put off.
struct reported_symptoms_after {
  score_time when{score_time::after_last};
  std::vector<symptom_score> scores;
  std::string comment; // may be empty
};

// The one press that leads in and guides the breath.
struct breath_begun {
  sample_number sample{1};
};

// The guided breath was broken off before the tube was closed.
struct breath_abandoned {
  sample_number sample{1};
  std::string reason;
};

// The tube was closed, observed as it happened: the event's reading is the sample's time.
struct tube_closed {
  sample_number sample{1};
};

// A breath was really taken, and told afterwards.
struct reported_breath {
  sample_number sample{1};
  instant closed; // when, by the clock the person read
  how_known how{how_known::told};
};

// A tube that was closed is to be blown again (spoiled, lid open, ...).
struct repeat_wanted {
  sample_number sample{1};
  std::string reason;
};

// What went wrong with the breath that a tube was closed on last. Told again to change it: the
// latest of that closing counts.
struct reported_spoil {
  sample_number sample{1};
  std::string what;  // id of one of the protocol's; empty: nothing did, what was told is taken back
  std::string words; // the person's own; may be empty
};

// The label of that tube was written and stuck on.
struct label_written {
  sample_number sample{1};
};

// The first sip: the event's reading is the start of the drink.
struct drink_started {};

// The cup is empty, or the person has had what they can.
struct drink_ended {
  bool all_of_it{true};
};

// The drink was begun and nobody pressed: at the time that was told. Before tube 1 it is the grid's
// anchor, and there is no baseline any more.
struct reported_drink {
  instant started;
  how_known how{how_known::told};
};

// What became of the drink, and how much of it stayed in the person.
enum class drink_mishap { slow, unfinished, spilled, vomited };
enum class drink_part { all, more_than_half, less_than_half, none };

// As files have them: "slow", "unfinished", "spilled", "vomited"; "all", "more-than-half",
// "less-than-half", "none".
[[nodiscard]] const char* key_of(drink_mishap m);
[[nodiscard]] const char* key_of(drink_part p);

// One such happening, with how much of the whole drink was kept in the end.
struct reported_drink_trouble {
  drink_mishap what{drink_mishap::unfinished};
  drink_part kept{drink_part::all};
  instant when; // when it happened
  how_known how{how_known::told};
  std::string words; // may be empty
};

// A time that was wrong: of a tube's closing, or of the drink's start or end.
struct right_time {
  instant time;
  how_known how{how_known::told};
};
// The tube that a breath really went into. Where both tubes were blown they were swapped.
struct right_tube {
  sample_number really{1};
};
// A symptom's score that was wrong.
struct right_score {
  std::string symptom;
  std::optional<int> score; // nothing: it was not to be scored
};

// An earlier event was wrong in one thing. Both stay in the record, sheets show the corrected
// value, and the running grid is never moved by it.
struct corrected {
  std::int64_t seq{0}; // of the event that was wrong
  std::variant<right_time, right_tube, right_score> to;
  std::string reason;
};

// Who gives the scores from now on: the person, or somebody for them.
struct reported_scorer {
  bool self{true};
  std::string who; // who does it for them; may be empty
};

// After a marked rise of a score the warning signs were asked in words: those that are there.
// ids of the protocol's warnings; none is a good answer. Told at any time, also where no score
// rose. After scores that belong to no tube `after` names these, and `sample` is the last tube.
struct reported_red_flags {
  sample_number sample{1};
  std::vector<std::string> present;
  std::optional<score_time> after{};
};

// Free words at any time.
struct reported_comment {
  std::string words;
};

// The person pressed 'I feel unwell'; and, later, that they go on. `passed`: warning signs had been
// told, and they were asked whether these have passed.
struct reported_unwell {};
struct unwell_over {
  bool passed{false};
};

// The test is over before its last sample, or was called off.
struct test_ended {
  std::string reason; // "unwell", "stopped" or the person's words
};

// The program was started again on this test.
struct resumed {};

// The clocks did something: the event's reading is the first look after it.
struct clock_changed {
  clock_change what;
};

// The record was handed over (written, synced and read back).
struct exported {};

// An entry of a damaged record that could not be read any more. It keeps its place, so that all
// others keep theirs; its reading is that of the entry before it, since its own is not known.
struct entry_lost {};

// The record was damaged, and was read again as far as it could be. Entries may be missing at its
// end as well, unless all of it is known to be there.
struct record_salvaged {
  int lost{0};                          // entries that were there and could not be read
  bool complete{false};                 // nothing is lost, at the end neither
  std::vector<std::string> ask_again{}; // questions of any sugar's test that may have been answered
};

using any_fact =
    std::variant<opened, reported_person, plan_made, reported_slip, reported_checklist,
                 reported_ready, sugar_set_aside, reported_symptoms, breath_begun, breath_abandoned,
                 tube_closed, reported_breath, repeat_wanted, label_written, drink_started,
                 drink_ended, reported_comment, reported_unwell, unwell_over, test_ended, resumed,
                 clock_changed, exported, reported_kit, reported_caution, reported_washout,
                 plan_called_off, reported_drink, reported_drink_trouble, corrected,
                 reported_scorer, reported_red_flags, reported_packet, reported_symptoms_after,
                 reported_spoil, entry_lost, record_salvaged>;

// Any one of those facts: asked by std::get_if, std::visit and the like as the variant it is. A
// type of its own so that copying it is compiled once (event.cpp) and not in every file.
struct payload : any_fact {
  using any_fact::any_fact;
  payload();
  payload(const payload&);
  payload(payload&&) noexcept;
  payload& operator=(const payload&);
  payload& operator=(payload&&) noexcept;
  ~payload();
};

// One fact with its place in the record and the clocks' evidence for its time.
struct event {
  std::int64_t seq{0}; // from 1, without gaps
  clock_reading at;
  payload what;
};

} // namespace qb::inline sessions
