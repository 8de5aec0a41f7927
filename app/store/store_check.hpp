// Is a laboratory's store whole, by SQLite's own check and by what its tables say of each other?
// What the texts in it mean is asked where they can be read (app/lab/care/check_store.cpp).
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline store {

// Every table that a version of ours makes in a store; a test holds it against all that make one.
inline constexpr std::string_view tables_of_ours[] = {"meta",
                                                      "log",
                                                      "code",
                                                      "signature",
                                                      "log_signature",
                                                      "log_aside",
                                                      "log_choice",
                                                      "log_packed",
                                                      "frozen_rules",
                                                      "frozen_rules_again",
                                                      "forgotten_test",
                                                      "bench_arrival",
                                                      "bench_tube",
                                                      "bench_scan",
                                                      "bench_paper",
                                                      "bench_reading",
                                                      "bench_choice",
                                                      "bench_override",
                                                      "bench_conclusion",
                                                      "bench_ruling",
                                                      "bench_issued",
                                                      "bench_signature",
                                                      "bench_forgotten",
                                                      "own_setting",
                                                      "own_person",
                                                      "own_issued",
                                                      "own_requested",
                                                      "own_handed",
                                                      "sqlite_sequence",
                                                      "sqlite_stat1"};

// A row that hangs on a test or a kit that is in no table.
struct orphan_rows {
  std::string table;
  std::string of; // the kit's number or the test's id
  std::int64_t rows{0};
};

// What was found; of a store that is well all are empty.
struct store_state {
  std::vector<std::string> damage; // SQLite's lines, and what of packed texts is damaged
  std::vector<std::string>
      foreign; // "trigger t", "view v", "table x": none that a version of ours makes
  std::vector<orphan_rows> orphans;
};

// Only reads. Refuses a file that is no store, or of a newer version.
[[nodiscard]] result<store_state> state_of_store(const std::string& path);

} // namespace qb::inline store
