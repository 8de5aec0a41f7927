// How a program ends whose words after its name were not understood, or asked for help: what was
// typed is repeated, so it is shown as a terminal may have it (core/base/visible.hpp).
#pragma once

namespace CLI {
class App;
class ParseError;
} // namespace CLI

namespace qb::help {

// Prints help on standard output, or what was not understood on standard error; answers the exit
// status.
[[nodiscard]] int parse_end(const CLI::App& app, const CLI::ParseError& e);

} // namespace qb::help
