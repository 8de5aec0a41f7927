// Where the commands without a window say something: the one door to the terminal, through which
// nothing passes that moves it or cannot be seen (core/base/visible.hpp).
#pragma once

#include "core/base/result.hpp"
#include "core/base/visible.hpp"

#include <cstdio>
#include <fmt/core.h>
#include <utility>

namespace qb::patient {

// On standard output, as `fmt::format` makes it.
template <typename... Values>
void tell(fmt::format_string<Values...> format, Values&&... values) {
  fmt::print("{}", visible(fmt::format(format, std::forward<Values>(values)...)));
}

// A line of the program's own on standard error, without its name before it.
template <typename... Values>
void note(fmt::format_string<Values...> format, Values&&... values) {
  fmt::print(stderr, "{}", visible(fmt::format(format, std::forward<Values>(values)...)));
}

// Prints the refusal's sentence on standard error; answers the exit status.
[[nodiscard]] int say_no(const refusal& no);

} // namespace qb::patient
