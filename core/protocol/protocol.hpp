// A breath-test protocol as data: what is drunk, when samples are due, how to prepare.
// Every number in it comes from a file in assets/protocols and carries its rule's id and its
// source; nothing clinical is written in code.
#pragma once

#include "core/base/result.hpp"
#include "core/protocol/sample_number.hpp"
#include "core/time/instant.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb {

// Why a number stands: the rule's id (a stable key that checks, findings and texts refer to) and
// the id of its source in the same file's list of sources.
struct rule_ref {
  std::string rule;
  std::string source;
};

// One way the sugar comes in the kit, with how much of it makes the dose.
struct sugar_form {
  rule_ref why;
  std::string form; // "powder" or "syrup"
  int amount{0};    // in `unit`
  std::string unit; // "g" or "ml"
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

// A span before the start in which something holds, in elapsed time. `from` and `until` count back
// from the start (until = 0: up to the start). `least` is the shortest that is still accepted,
// where a published lower bound exists; nothing means that what is asked is the least.
struct preparation_window {
  rule_ref why;
  std::chrono::minutes from{0};
  std::chrono::minutes until{0};
  std::optional<std::chrono::minutes> least;
  std::string least_source;
  std::string text;
};

// A medicine that is to be away for whole calendar days before the start, where the prescriber
// agrees.
struct washout {
  rule_ref why;
  std::chrono::days days{0};
  std::string text;
};

// Something that holds from the first sample to the last.
struct holding_rule {
  rule_ref why;
  std::string text;
};

// One symptom that is scored with every sample.
struct symptom {
  std::string id;
  std::string text;
};

// A state in which somebody must be asked before the test; worded for the patient.
struct caution {
  rule_ref why;
  std::string text;
};

// A citation, "common practice", or "this laboratory's choice"; `basis` says how it is known.
struct source {
  std::string id;
  std::string citation;
  std::string basis; // "read", "memory", "common-practice" or "laboratory"
};

// The whole protocol as it was read; lists keep the file's order.
struct protocol {
  std::string id;
  std::string title;
  rule_ref age_why;
  int age_from_years{0};
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
  rule_ref breath_why;
  std::chrono::seconds breath_least{0};
  std::chrono::seconds breath_most{0};
  std::vector<caution> cautions;
  std::vector<source> sources;

  [[nodiscard]] std::size_t samples() const { return offsets.size(); }
  [[nodiscard]] std::chrono::minutes offset_of(sample_number n) const {
    return offsets.at(n.index());
  }
};

// Reads a protocol file's text. Refuses with line and field: unknown or missing fields, numbers
// out of range, offsets not rising from 0, a rule id used twice, a source id that is not listed.
[[nodiscard]] result<protocol> read_protocol(std::string_view text);

// The window or washout of that rule id, or nullptr.
[[nodiscard]] const preparation_window* find_window(const protocol& p, std::string_view rule);
[[nodiscard]] const washout* find_washout(const protocol& p, std::string_view rule);
[[nodiscard]] const source* find_source(const protocol& p, std::string_view id);

} // namespace qb
