// The list, and sets of flags as bits.
#include "core/code/flags.hpp"

#include <fmt/core.h>
#include <limits>

namespace qb::code {

namespace {

// What a flag of a later list is called here.
std::string later_flag(std::size_t n) {
  return fmt::format("flag-{}", n);
}

} // namespace

const std::vector<std::string>& code_flags() {
  static const std::vector<std::string> all{
      "drink-missing",  "drink-late",          "drink-end-missing",
      "drink-slow",     "drink-partial",       "drink-first",
      "drink-told",     "drink-unfinished",    "drink-spilled",
      "drink-vomited",  "sample-missed",       "sample-late",
      "sample-early",   "sample-told",         "sample-repeated",
      "sample-close",   "symptoms-missing",    "scored-for",
      "corrected",      "tube-mixed-up",       "warning-signs",
      "unwell-told",    "test-ended",          "comment",
      "clock-stepped",  "clock-rebooted",      "zone-changed",
      "clocks-changed", "clock-measured-anew", "clock-unsynchronised",
      "slip-told",      "started-not-kept",    "sample-out-of-order",
      "breath-short",   "answer-taken-back",   "packet-differs",
      "drunk-against",  "for-trying",          "scores-after-missing",
      "breath-spoiled", "record-unusual",      "record-salvaged"};
  return all;
}

std::uint64_t flags_number(const std::set<std::string>& rules) {
  std::uint64_t out = 0;
  for (std::size_t n = 0; n < code_flags().size(); ++n) {
    if (rules.count(code_flags()[n]) != 0) out |= std::uint64_t{1} << n;
  }
  for (std::size_t n = code_flags().size(); n < std::numeric_limits<std::uint64_t>::digits; ++n) {
    if (rules.count(later_flag(n)) != 0) out |= std::uint64_t{1} << n;
  }
  return out;
}

std::set<std::string> flags_of(std::uint64_t number) {
  std::set<std::string> out;
  for (std::size_t n = 0; number != 0; ++n, number >>= 1U) {
    if (number % 2 == 0) continue;
    out.insert(n < code_flags().size() ? code_flags()[n] : later_flag(n));
  }
  return out;
}

} // namespace qb::code
