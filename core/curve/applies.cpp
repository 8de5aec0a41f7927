// By sugar, dose and grid, never by a test's name.
#include "core/curve/applies.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline curves {

namespace {

bool weighs(const criterion& c, bool hydrogen) {
  return (hydrogen ? c.h2_weight : c.ch4_weight) != 0;
}

// The doses that a criterion is for, of that sugar.
std::string doses_of(const criterion& c, const substrate& sugar) {
  std::string out;
  for (const applied_to& a : c.applies_to) {
    criterion one;
    one.applies_to = {a};
    if (a.dose_g && is_for_sugar(one, sugar))
      out += fmt::format("{}{} g", out.empty() ? "" : " and ", *a.dose_g);
  }
  return out;
}

unjudged_gas unjudged(const std::vector<criterion>& all, const protocol& test, bool hydrogen) {
  unjudged_gas out{hydrogen ? "hydrogen" : "methane", ""};
  out.why = fmt::format("no criterion here is for {} g of {}", test.sugar.dose_g, test.sugar.name);
  for (const criterion& c : all) {
    if (!weighs(c, hydrogen) || !is_for_sugar(c, test.sugar)) continue;
    if (!is_for(c, test.sugar))
      out.why += fmt::format("; {} is for {}", c.id, doses_of(c, test.sugar));
    else
      out.why = fmt::format("{} asks until minute {}, and the last sample of this test is due at "
                            "minute {}",
                            c.id, c.until->text(), test.offsets.back().count());
  }
  return out;
}

} // namespace

bool grid_reaches(const criterion& c, const std::vector<std::chrono::minutes>& offsets) {
  if (!c.until || offsets.size() < 2) return true;
  const auto last = offsets.back();
  const auto next = last + (last - offsets[offsets.size() - 2]);
  return exact(next.count()) > *c.until;
}

bool judges(const criterion& c, const protocol& test) {
  return is_for(c, test.sugar) && grid_reaches(c, test.offsets);
}

std::vector<unjudged_gas> unjudged_gases(const std::vector<criterion>& all, const protocol& test) {
  std::vector<unjudged_gas> out;
  for (const bool hydrogen : {true, false}) {
    const bool judged = std::any_of(all.begin(), all.end(), [&](const criterion& c) {
      return weighs(c, hydrogen) && judges(c, test);
    });
    if (!judged) out.push_back(unjudged(all, test, hydrogen));
  }
  return out;
}

std::string unjudged_words(const unjudged_gas& u) {
  return fmt::format("Not judged: {}, {}", u.gas, u.why);
}

} // namespace qb::inline curves
