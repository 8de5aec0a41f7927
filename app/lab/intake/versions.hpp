// All versions of one test out of the store, and what follows from them.
#pragma once

#include "app/store/lab_store.hpp"
#include "core/report/provenance.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// The versions of one test, those of the table of logs first.
struct test_versions {
  std::vector<kept_version> all;
  std::size_t counted{0}; // how many of them are in that table
  std::vector<version_choice> choices;
};

// Refuses (as `machine`) a text that cannot be read any more. `known` is the log that counts where
// it was read already; it spares reading a test's only version again.
[[nodiscard]] result<test_versions> load_versions(const lab_store& store,
                                                  const std::string& test_id,
                                                  const read_log_result* known = nullptr);

// What follows from the versions of a test, one at least of which is here.
[[nodiscard]] result<provenance> provenance_in(const lab_store& store, const std::string& test_id,
                                               const read_log_result* known = nullptr);

// The row of a log that was read from that text, and of what its events add up to. It points into
// the log's events.
[[nodiscard]] log_row log_row_of(std::string text, const read_log_result& log, const state& folded);

// Moves a test's versions so that the table of logs holds the one that counts and those it grew
// from, and nothing else.
[[nodiscard]] result<void> settle_versions(lab_store& store, const std::string& test_id);

// The keys by which a version of that test is rightly signed.
[[nodiscard]] result<std::vector<seal::named_key>> keys_of_test(const lab_store& store,
                                                                const std::string& test_id);

} // namespace qb::lab
