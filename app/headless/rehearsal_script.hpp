// A rehearsal's script: a person who follows the program, and where they do not.
//
// A JSON file with these fields:
//   format    "quarterbreath-rehearsal"; version 1; title: what the script shows
//   protocol, profile: ids in the assets; form: "powder" or "syrup"
//   zone, start: the planned start, as for `plan`; begins: when the program is first opened
//   person    name, birth_date, doctor, kit_number, laboratory (all invented)
//   reaction_s: how many seconds the person takes for each step
//   scores    for each symptom id a list with one score a sample
//   does      what differs from following the program, each an object with "do":
//     tell-slip   rule, at (civil time it happened), told_at, words
//     start       by_min: the gate is passed so many minutes after (before, if negative) the plan
//     late        sample, by_s: the breath is begun so long after its due time
//     miss        sample
//     repeat      sample, reason: the tube is blown again
//     skip-symptoms  sample
//     comment     sample, words
//     power-cut   after_sample, for_s: the machine is off for so long and starts anew
//     set-clock   after_sample, by_s: the wall clock jumps
//     unwell      after_sample, ends (true or false)
#pragma once

#include "core/base/result.hpp"
#include "core/session/event.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb {

struct scripted_slip {
  std::string rule;
  civil_time at;
  civil_time told_at;
  std::string words;
};

// What happens at one sample, where it differs from following the program.
struct scripted_sample {
  std::chrono::seconds late_by{0};
  bool missed{false};
  std::optional<std::string> repeat_reason;
  bool skip_symptoms{false};
  std::string comment;
  std::optional<std::chrono::seconds> power_cut;
  std::optional<std::chrono::seconds> set_clock;
  bool unwell{false};
  bool ends{false};
};

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
  person_told person;
  std::map<std::string, std::vector<int>> scores;
  std::vector<scripted_slip> slips;
  std::map<int, scripted_sample> samples; // by sample number
};

// Reads a script's text; refuses with line and field.
[[nodiscard]] result<rehearsal_script> read_script(std::string_view text);

} // namespace qb
