// The man page of a program, made from the words of its helps.
#pragma once

#include "app/help/manual.hpp"

#include <CLI/CLI.hpp>
#include <string>

namespace qb::help {

// As man reads it; the program must have been dressed.
[[nodiscard]] std::string man_page(const CLI::App& app, const manual& m);

// Prints it on standard output; answers the exit status.
[[nodiscard]] int print_man_page(const CLI::App& app, const manual& m);

} // namespace qb::help
