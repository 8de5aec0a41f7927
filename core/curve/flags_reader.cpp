// The strict reader of the flags' figures. The contract is assets/schema/flags.schema.json.
#include "core/curve/flags.hpp"
#include "core/protocol/rule_reader.hpp"

namespace qb::inline curves {

namespace {

using json::fields;

// Ranges that no plausible figure leaves: they catch a slip of the hand in the file.
constexpr std::int64_t most_ppm = 1'000'000; // all of the air
constexpr std::int64_t most_minutes = 1440;
constexpr std::int64_t most_pct = 100;

// One object of the file with its rule and source, read by `read(fields&)`.
template <typename Read>
void child(fields& up, const char* key, rule_reader& rules, Read read) {
  const json::value* v = up.child(key);
  if (v == nullptr) return;
  fields f(*v, up.place(key));
  static_cast<void>(rules.ref(f)); // held unique and listed; flags carry the ids in their names
  read(f);
  up.absorb(f.finish());
}

void read_limits(fields& f, rule_reader& rules, curve_limits& out) {
  child(f, "limits", rules, [&](fields& l) {
    out.minute_least = exact(l.integer("minute_least", -most_minutes, 0));
    out.minute_most = exact(l.integer("minute_most", 1, most_minutes));
    out.gas_most = exact(l.integer("gas_most_ppm", 1, most_ppm));
    out.co2_most = exact(l.integer("co2_most_pct", 1, most_pct));
  });
}

} // namespace

result<flag_rules> read_flag_rules(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-flags");
  flag_rules out;
  rule_reader rules(f, out.sources);
  const auto ppm = [](fields& from, const char* key) {
    return exact(from.integer(key, 0, most_ppm));
  };
  read_limits(f, rules, out.limits);
  child(f, "high_baseline", rules,
        [&](fields& b) { out.high_baseline_h2 = ppm(b, "h2_over_ppm"); });
  child(f, "early_spike", rules, [&](fields& s) {
    out.spike_until = exact(s.integer("until_min", 1, most_minutes));
    out.spike_rise = exact(s.integer("h2_rise_ppm", 1, most_ppm));
  });
  child(f, "flat", rules, [&](fields& l) {
    out.flat_h2 = ppm(l, "h2_most_ppm");
    out.flat_ch4 = ppm(l, "ch4_most_ppm");
  });
  child(f, "falling_methane", rules,
        [&](fields& m) { out.methane_fall = exact(m.integer("fall_ppm", 1, most_ppm)); });
  child(f, "low_co2", rules,
        [&](fields& c) { out.low_co2 = exact(c.integer("under_pct", 0, most_pct)); });
  if (auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

} // namespace qb::inline curves
