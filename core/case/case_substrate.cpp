// One function a kind of record.
#include "core/case/case_substrate.hpp"

#include <fmt/core.h>

namespace qb::inline cases {

namespace {

constexpr const char* not_recorded = "no drink was recorded";
constexpr const char* none_kept = "none of the drink was kept";

} // namespace

std::optional<std::string> lost_substrate(const state& s, const lab_profile& profile) {
  if (!profile.judging.substrate) return std::nullopt;
  if (!s.drink_start) return not_recorded;
  const auto within = profile.judging.substrate->vomited_within;
  for (const noted_drink_trouble& t : s.drink_troubles) {
    if (t.what.kept == drink_part::none) return none_kept;
    const bool vomited = t.what.what == drink_mishap::vomited && t.what.kept != drink_part::all;
    const duration after = t.what.when - s.drink_start->at.wall;
    if (vomited && after < duration{within})
      return fmt::format("vomited {} min after the drink began, sooner than {} min",
                         std::chrono::floor<std::chrono::minutes>(after).count(), within.count());
  }
  return std::nullopt;
}

std::optional<std::string> lost_substrate(const code::packed_result& r,
                                          const lab_profile& profile) {
  if (!profile.judging.substrate) return std::nullopt;
  if (!r.drink.start) return not_recorded;
  if (r.drink.kept == drink_part::none) return none_kept;
  if (r.flags.count("drink-vomited") != 0)
    return "some of the drink was vomited, and a code does not say when";
  return std::nullopt;
}

std::optional<std::string> lost_substrate(const paper_record& sheet, const received_kit& received,
                                          const lab_profile& profile) {
  if (!profile.judging.substrate) return std::nullopt;
  if (!sheet.drink.start) return "no start of the drink stands on the sheet";
  if (!received.arrivals.empty() && received.arrivals.back().stopped == stated::yes)
    return "stopped or vomited, by the sheet, which does not say when";
  return std::nullopt;
}

} // namespace qb::inline cases
