// The command line's options for the laboratory's commands about itself.
#pragma once

#include "app/lab/own/own_commands.hpp"

#include <CLI/CLI.hpp>
#include <optional>

namespace qb::lab {

// The options as they were given.
struct own_options {
  lab_context_options at;
  set_up_options set_up;
  people_options people;
  std::string at_bench; // who signs in
  reader_key_options key;
  signed_options signed_;
  requests_options requests;
  which_options which;
  std::vector<std::string> columns; // files of `request-columns check`
};

// Adds the commands and their options; `w` must outlive `app`.
void describe_own(CLI::App& app, own_options& w);

// Whether one of them makes a store where there is none.
[[nodiscard]] bool own_makes_store(const CLI::App& app);

// Runs the one that was given; nothing where it was none of them.
[[nodiscard]] std::optional<int> run_own(const CLI::App& app, const own_options& w,
                                         const shared_options& shared, const console& to);

} // namespace qb::lab
