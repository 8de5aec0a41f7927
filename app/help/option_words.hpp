// One option as help and man page both tell it, read from CLI11.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace qb::help {

// An option's three columns.
struct option_words {
  std::string name;  // "-h, --help", "KIT"
  std::string value; // "FILE", "FILE ..."; empty of a flag
  std::string what;
};

// Of an option or an argument; which others it needs or excludes stands at the end of `what`.
[[nodiscard]] option_words words_of(const CLI::Option& o);

// Options under one heading.
struct option_group {
  std::string title;
  std::vector<const CLI::Option*> options;
};

// The arguments without a dash first, then CLI11's groups in their order.
[[nodiscard]] std::vector<option_group> groups_of(const CLI::App& app);

// What must be given and what may be, behind the program's name and the command's.
[[nodiscard]] std::string synopsis_of(const CLI::App& app);

// The names of the options that the program takes with every command, "--assets, --format"; without
// those that this command has for itself.
[[nodiscard]] std::string shared_options_of(const CLI::App& command);

// The heading of those options.
inline constexpr const char* of_every_command = "Options of every command";

} // namespace qb::help
