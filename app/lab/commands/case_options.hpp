// The command line's options for one kit's case, apart from the program's other commands.
#pragma once

#include "app/lab/commands/case_commands.hpp"

#include <CLI/CLI.hpp>
#include <optional>

namespace qb::lab {

// The options as they were given.
struct case_options {
  lab_context_options at;
  std::string judged; // `judge KIT`: empty where a bare curve is judged
  report_options report;
  override_options override_;
  int tube{0}; // of the override; 0: none
  conclude_options conclude;
  letters_options letters;
};

// Adds the commands and, to `judge`, what it needs to take a kit; `w` must outlive `app`.
void describe_case(CLI::App& app, CLI::App& judge, case_options& w);

// Runs the one that was given; nothing where it was none of them.
[[nodiscard]] std::optional<int> run_case(const CLI::App& app, const case_options& w,
                                          const shared_options& shared, const console& to);

} // namespace qb::lab
