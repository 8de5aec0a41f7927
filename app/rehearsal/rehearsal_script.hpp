// A rehearsal's script: a person who follows the program, and where they do not.
//
// A JSON file with these fields:
//   format    "quarterbreath-rehearsal"; version 1; title: what the script shows
//   protocol, profile: ids in the assets; form: "powder" or "syrup"
//   zone, start: the planned start, as for `plan`; begins: when the program is first opened
//   person    name, birth_date, doctor, kit_number, laboratory (all invented)
//   reaction_s: how many seconds the person takes for each step
//   scores    for each symptom id a list with one score a sample; it may go on with that after
//             the last tube and that of later the same day, where the protocol asks for them:
//             without, the first is put off, and the person does not come back for the second
//   kit_code  the laboratory's code, typed before the plan (may be left out)
//   answers   for rule ids of cautions and morning questions {answer, outcome, said_by, who,
//   words},
//             of which only answer must be there; all others are answered "no" (may be left out)
//   packet    {name, amount, unit, words} that the packet of sugar says; left out, the right ones
//   washouts  for rule ids of washouts {answer, on, agreed, who, said_by}; all others "never" (the
//             same)
//   does      what differs from following the program, each an object with "do":
//     tell-slip   rule, at (civil time it happened), reported_at, words, subject (may be left out)
//     move        at (civil time it is done), start: another start; also after a call-off
//     call-off    at, reason: the plan is called off, and without a later move that is the end
//     confirm     rule, at: the beginning of a rule is confirmed as it happens
//     start       by_min: the gate is passed so many minutes after (before, if negative) the plan;
//                 agreed, said_by: who agreed to start with less than asked, and what they are
//                 (may be left out)
//     late        sample, by_s: the breath is begun so long after its due time
//     miss        sample
//     repeat      sample, reason: the tube is blown again
//     spoil       sample, what: the breath went wrong in that way of the protocol's, told at once
//     skip-symptoms  sample
//     comment     sample, words
//     power-cut   after_sample, for_s: the machine is off for so long and starts anew
//     set-clock   after_sample, by_s: the wall clock jumps
//     unwell      after_sample, ends (true or false)
//     drink-first ago_min: tube 1 is not blown; the drink was begun so many minutes before its turn
//     drink-told  ago_min: the drink is begun after tube 1, and told so many minutes later
//     red-flags   sample, present: the warning signs that are there, where they are asked
//   and, told once tube and marks of after_sample are behind (after tube 1: the drink):
//     trouble     after_sample, what ("slow", "unfinished", "spilled", "vomited"), ago_min,
//                 kept ("all", "more-than-half", "less-than-half", "none")
//     correct-time   after_sample, sample, by_min, reason: the closing was so much later (earlier,
//                    if negative)
//     correct-tube   after_sample, sample, really, reason: the breath went into tube `really`
//     correct-score  after_sample, sample, symptom, score (or null), reason
//     scorer      after_sample, self (true or false), who (may be left out)
#pragma once

#include "core/base/result.hpp"
#include "core/session/event.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::rehearsal {

// Something done at a time of its own, before the test.
struct scripted_deed {
  enum class kind { slip, move, call_off, confirm };
  kind what{kind::slip};
  civil_time done_at;
  civil_time when; // of a slip: when it happened; of a move: the new start
  std::string rule;
  std::string words;   // of a slip, or why the plan is called off
  std::string subject; // of a slip; may be empty
};

// Something told or put right once a sample is behind.
struct scripted_telling {
  enum class kind { trouble, time, tube, score, scorer };
  kind what{kind::trouble};
  sample_number sample{1};                 // time, tube, score: which tube it is about
  drink_mishap mishap{drink_mishap::slow}; // trouble
  drink_part kept{drink_part::all};        // trouble
  std::chrono::minutes minutes{0};         // trouble: how long ago; time: by how much
  sample_number really{1};                 // tube
  symptom_score score{};                   // score
  bool self{true};                         // scorer
  std::string words;                       // the reason; of a scorer who it is
};

// What happens at one sample, where it differs from following the program.
struct scripted_sample {
  std::chrono::seconds late_by{0};
  bool missed{false};
  std::optional<std::string> repeat_reason;
  std::optional<std::string> spoil; // what went wrong with the first breath
  bool skip_symptoms{false};
  std::string comment;
  std::optional<std::chrono::seconds> power_cut;
  std::optional<std::chrono::seconds> set_clock;
  bool unwell{false};
  bool ends{false};
  std::vector<std::string> red_flags;
  std::vector<scripted_telling> tellings; // in the order of the file
};

// The whole script; every id is as the assets have it.
struct rehearsal_script {
  std::string title;
  std::string protocol_id;
  std::string profile_id;
  std::string form;
  std::string zone_name;
  civil_time start;
  civil_time begins;
  std::chrono::seconds reaction{0};
  std::chrono::minutes gate_by{0};
  std::string agreed;              // who agreed to start in spite of what was not kept
  std::optional<releaser> said_by; // what they are
  std::optional<std::chrono::minutes> drink_first;    // how long before tube 1's turn
  std::optional<std::chrono::minutes> reported_drink; // how long after it was begun
  reported_person person;
  std::optional<std::string> kit_code;
  std::map<std::string, reported_caution> answers; // by rule
  std::optional<reported_packet> packet;           // what it says, where not what it should
  std::map<std::string, reported_washout> washouts;
  std::map<std::string, std::vector<int>> scores;
  std::vector<scripted_deed> deeds;       // in the order of the times they are done at
  std::map<int, scripted_sample> samples; // by sample number
};

// Reads a script's text; refuses with line and field.
[[nodiscard]] result<rehearsal_script> read_script(std::string_view text);

} // namespace qb::rehearsal
