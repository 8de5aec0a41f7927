// The options of the commands that look after the store.
#pragma once

#include "app/lab/care/care.hpp"

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

namespace qb::lab {

// The options as they were given.
struct care_options {
  lab_context_options at;
  std::string backup;
  which_log_options which;
};

// Adds the commands and their options; `w` must outlive `app`.
void describe_care(CLI::App& app, care_options& w);

// Runs the one that was given; nothing where it was none of them.
[[nodiscard]] std::optional<int> run_care(const CLI::App& app, const care_options& w,
                                          const shared_options& shared, const console& to);

} // namespace qb::lab
