// By the profile alone.
#include "core/receiving/correction.hpp"

#include "core/receiving/readings.hpp"

namespace qb::inline receiving {

namespace {

// A share that was measured, and is not merely below or above a figure.
bool has_share(const gas_reading& r) {
  return r.co2_pct && *r.co2_pct > exact() && r.co2_is == reading_range::within;
}

// reference / measured is greater than the most.
bool is_too_great(const gas_reading& r, const lab_profile& profile) {
  const auto reference = profile.receiving.co2_reference_tenths;
  if (!reference || !profile.judging.co2 || !r.co2_pct) return false;
  return exact(*reference) > r.co2_pct->times(profile.judging.co2->most_factor_tenths);
}

} // namespace

judged_gases judged_gases_of(const gas_reading& r, const lab_profile& profile) {
  const auto reference = profile.receiving.co2_reference_tenths;
  if (!reference || !has_share(r) || is_too_great(r, profile)) return {r.h2_ppm, r.ch4_ppm, false};
  return {co2_corrected(r.h2_ppm, r.co2_pct, *reference),
          co2_corrected(r.ch4_ppm, r.co2_pct, *reference), true};
}

std::optional<undeciding> undeciding_of(const gas_reading& r, const lab_profile& profile) {
  if (r.co2_pct && r.co2_is != reading_range::above && profile.judging.co2) {
    const exact least = exact(profile.judging.co2->least_tenths).tenth();
    const bool low = r.co2_is == reading_range::below ? *r.co2_pct <= least : *r.co2_pct < least;
    if (low) return undeciding::low_co2;
    if (is_too_great(r, profile)) return undeciding::great_factor;
  }
  return r.invalid ? std::optional(undeciding::marked_invalid) : std::nullopt;
}

} // namespace qb::inline receiving
