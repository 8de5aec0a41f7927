// The command line's options for the laboratory's day, apart from the program's other commands.
#pragma once

#include "app/lab/commands/day.hpp"

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

namespace qb::lab {

// The options as they were given.
struct day_options {
  lab_context_options at;
  receive_options receive;
  paper_options paper;
  readings_options readings;
  std::vector<std::string> layouts; // files of `readings-layout check`
  choice_options choice;
  bool all{false};
  std::string csv;
  std::string folder;
  bool only_new{false};
  assign_options assign;
  take_back_options back;
  forget_options forget;
};

// Adds the commands and their options; `w` must outlive `app`.
void describe_day(CLI::App& app, day_options& w);

// Whether one of them writes, so that a store is made where there is none.
[[nodiscard]] bool day_makes_store(const CLI::App& app);

// Runs the one that was given; nothing where it was none of them.
[[nodiscard]] std::optional<int> run_day(const CLI::App& app, const day_options& w,
                                         const shared_options& shared, const console& to);

} // namespace qb::lab
