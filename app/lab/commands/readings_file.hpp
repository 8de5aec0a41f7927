// A file of readings as the commands about it open it: read by its description, held against
// nothing.
#pragma once

#include "app/lab/commands/day.hpp"
#include "core/receiving/readings.hpp"

#include <string>

namespace qb::lab {

// The table, and what is needed to tell of it.
struct readings_file {
  read_table table;
  std::string digest; // SHA-256 of the file
  exact low_co2;      // under this a share of carbon dioxide is pointed out
};

// No description, although one is set up: the table is a plain one.
inline constexpr const char* plain_layout = "plain";

// By --layout, else by the description that is set up. Refuses what cannot be read at all.
[[nodiscard]] result<readings_file> open_readings(const shared_options& shared,
                                                  const lab_context_options& at,
                                                  const readings_options& o);

// "H2 4, CH4 1 ppm at 2027-04-09T10:30, marked invalid".
[[nodiscard]] std::string gases_text(const gas_reading& r);

} // namespace qb::lab
