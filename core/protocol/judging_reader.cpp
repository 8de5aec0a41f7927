// Reading what a laboratory chooses for judging; the contract is assets/schema/profile.schema.json.
#include "core/protocol/judging_reader.hpp"

#include "core/protocol/plausible.hpp"

namespace qb::inline protocols {

namespace {

using json::fields;

// Ranges that no plausible choice leaves: they catch a slip of the hand in the file.
constexpr std::int64_t most_tenths = 100;  // 10 per cent of CO2, more than any breath has
constexpr std::int64_t least_factor = 10;  // 1: corrects nothing
constexpr std::int64_t most_factor = 1000; // 100
constexpr std::int64_t most_minutes = 1440;
constexpr std::int64_t most_ppm = 1000;
constexpr std::int64_t most_permille = 1000;

// One object with its rule, read by `read(fields&, T&)`; nothing where the file has none.
template <typename T, typename Read>
std::optional<T> choice(fields& up, const char* key, rule_reader& rules, Read read) {
  const json::value* v = up.optional_child(key);
  if (v == nullptr) return std::nullopt;
  fields f(*v, up.place(key));
  T out;
  out.why = rules.ref(f);
  read(f, out);
  up.absorb(f.finish());
  return out;
}

} // namespace

judging_choices read_judging_choices(fields& f, rule_reader& rules) {
  const auto whole = [](fields& from, const char* key, std::int64_t least, std::int64_t most) {
    return static_cast<int>(from.integer(key, least, most));
  };
  judging_choices out;
  out.co2 = choice<co2_bounds>(f, "co2_bounds", rules, [&](fields& c, co2_bounds& b) {
    b.least_tenths = whole(c, "least_tenths_pct", 1, most_tenths);
    b.most_factor_tenths = whole(c, "most_factor_tenths", least_factor, most_factor);
  });
  out.substrate =
      choice<substrate_terms>(f, "substrate_lost", rules, [](fields& c, substrate_terms& s) {
        s.vomited_within = std::chrono::minutes{c.integer("vomited_within_min", 1, most_minutes)};
      });
  out.plausible = choice<plausible_changes>(f, "plausible_changes", rules, [&](fields& c, auto& p) {
    p.clock = std::chrono::seconds{c.integer("clock_s", 0, most_clock_s)};
    p.reading_ppm = whole(c, "reading_ppm", 0, most_ppm);
    p.reading_permille = whole(c, "reading_permille", 0, most_permille);
    p.outlier_ppm = whole(c, "outlier_ppm", 1, most_ppm);
  });
  return out;
}

} // namespace qb::inline protocols
