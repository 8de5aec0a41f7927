// A code for a scanner, as large as the page has room for.
// In whole pixels a module, black on white whatever the look: a scanner has no taste.
#pragma once

#include "app/patient/ui/toolkit.hpp"
#include "core/code/symbol.hpp"

namespace qb::inline ui {

// The code with its quiet zone, centred. `name` is what a voice would say of it; the outline's
// value is the pixels a module takes.
void code_picture(toolkit& k, const std::string& key, const std::string& name,
                  const code::symbol& code);

} // namespace qb::inline ui
