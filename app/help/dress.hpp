// Gives every command of a program its own help.
#pragma once

#include "app/help/manual.hpp"

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace qb::help {

// Commands without a page and pages without a command, as they are typed, and options of which
// nothing says what stands for their value.
[[nodiscard]] std::vector<std::string> untold(const CLI::App& app, const manual& m);

// To be called once all commands and options are there. Anything untold is a mistake of ours and
// stops the program.
void dress(CLI::App& app, const manual& m);

} // namespace qb::help
