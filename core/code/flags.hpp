// The stable numbers of the findings a code carries, so that a finding takes one bit.
// What was found about the preparation is left out: it would tell what was asked and answered.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

namespace qb::code {

// The findings' rules by number: number n is the bit of value 2^n. Only ever added to at the end;
// assets/schema/code.md has the same list.
[[nodiscard]] const std::vector<std::string>& code_flags();

// The rules of a set of flags as a number, those without a number left out, and back. A bit beyond
// the list reads as "flag-N": a newer program knew it.
[[nodiscard]] std::uint64_t flags_number(const std::set<std::string>& rules);
[[nodiscard]] std::set<std::string> flags_of(std::uint64_t number);

} // namespace qb::code
