// The code on a tube's label: a DataMatrix (ISO/IEC 16022, ECC 200) as modules.
// The only file that talks to libzint.
#pragma once

#include "core/base/result.hpp"
#include "core/code/symbol.hpp"

#include <string>

namespace qb::page {

// Light modules that must stand around it, and the least side of a module on paper in millimetres:
// what hand scanners read on flat labels and around a tube.
inline constexpr std::size_t matrix_quiet_modules = 1;
inline constexpr double least_matrix_module_mm = 0.38;

// The smallest square symbol that holds the text of printable ASCII. Refuses an empty text, other
// characters, and a text that no symbol holds.
[[nodiscard]] result<code::symbol> data_matrix(const std::string& text);

} // namespace qb::page
