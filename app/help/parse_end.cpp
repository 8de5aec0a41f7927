// CLI11's own words, caught before they are printed.
#include "app/help/parse_end.hpp"

#include "core/base/visible.hpp"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <fmt/core.h>
#include <sstream>

namespace qb::help {

int parse_end(const CLI::App& app, const CLI::ParseError& e) {
  constexpr int refused = 2;
  std::ostringstream out;
  std::ostringstream err;
  const int status = app.exit(e, out, err);
  fmt::print("{}", visible(out.str()));
  fmt::print(stderr, "{}", visible(err.str()));
  return status == 0 ? 0 : refused;
}

} // namespace qb::help
