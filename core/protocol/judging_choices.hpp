// What a laboratory chooses for the judging of gases. All of it is its own: no source read says how
// little carbon dioxide is too little, when a vomited drink is lost, or which change of a reading
// is plausible. Each may be left out; then nothing is asked.
#pragma once

#include "core/protocol/bounds.hpp"

#include <chrono>
#include <optional>

namespace qb::inline protocols {

// Where carbon dioxide says that a tube holds no breath to judge.
struct co2_bounds {
  rule_ref why;
  int least_tenths{0};       // tenths of a per cent: a tube under it decides nothing
  int most_factor_tenths{0}; // tenths: a tube that a greater factor would correct stands as it was
                             // measured and decides nothing
};

// When a drink is lost, so that no answer can be given.
struct substrate_terms {
  rule_ref why;
  std::chrono::minutes vomited_within{0}; // less than this after the drink began
};

// Which changes are plausible: an answer that none of them turns is firm.
struct plausible_changes {
  rule_ref why;
  std::chrono::seconds clock{0}; // how far a sample's time may be off, either way
  int reading_ppm{0};            // how far one reading may be off, either way: the greater of this
  int reading_permille{0};       // and this share of it
  int outlier_ppm{0}; // a sample this far above both its neighbours, or below, is implausible
};

// All three.
struct judging_choices {
  std::optional<co2_bounds> co2;
  std::optional<substrate_terms> substrate;
  std::optional<plausible_changes> plausible;
};

} // namespace qb::inline protocols
