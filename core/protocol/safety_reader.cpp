// Strict reading of warning signs, times of scoring and advice.
#include "core/protocol/safety_reader.hpp"

#include "core/protocol/preparation_reader.hpp"
#include "core/protocol/version_1.hpp"

#include <fmt/core.h>

namespace qb::inline protocols {

namespace {

using json::fields;

constexpr std::int64_t most_points = 10; // number: of the widest scale of symptoms
// What the smallest window shows of each without cutting it, in characters.
constexpr std::size_t sign_size = 90; // number: two lines beside a box to tick
constexpr std::size_t advice_size = 160;
constexpr std::size_t spoil_size = 60; // number: a row to press, of two lines

// A number of points that this protocol's scale can reach.
std::optional<int> points(fields& f, const char* key, const protocol& p) {
  const auto given = f.optional_integer(key, 1, most_points);
  if (!given) return std::nullopt;
  if (!f.failed() && *given > p.score_most)
    f.refuse(key, fmt::format("{}", *given), fmt::format("no more than {}", p.score_most),
             refusal_kind::out_of_range);
  return static_cast<int>(*given);
}

warning_sign read_sign(fields& f, const std::vector<warning_sign>& before, rule_reader& rules) {
  warning_sign out;
  out.why = rules.ref(f);
  out.id = rules.id_text(f, "id");
  out.text = f.text("text", sign_size);
  out.is_final = f.boolean("final");
  for (const warning_sign& other : before) {
    if (other.id == out.id) f.refuse("id", "\"" + out.id + "\" twice", "each sign once");
  }
  return out;
}

void read_warnings(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("warnings"));
  warning_rules& w = out.warnings;
  w.why = rules.ref(f);
  w.rise = points(f, "rise", out);
  w.level = points(f, "level", out);
  rules.each(f, "signs", 1, most_rules,
             [&](fields& s) { w.signs.push_back(read_sign(s, w.signs, rules)); });
  up.absorb(f.finish());
}

void read_symptom_times(const json::value& v, symptom_times& out, fields& up, rule_reader& rules) {
  constexpr std::int64_t most_wait = 4 * 60;   // before the hand-over, bound of a typing slip
  constexpr std::int64_t most_later = 24 * 60; // the same day, likewise
  fields f(v, up.place("symptom_times"));
  out.why = rules.ref(f);
  if (const auto wait = f.optional_integer("after_last_min", 0, most_wait))
    out.after_last = std::chrono::minutes{*wait};
  if (const auto later = f.optional_integer("later_min", 1, most_later))
    out.later = std::chrono::minutes{*later};
  up.absorb(f.finish());
}

std::vector<advice> read_advice(fields& f, const char* key, rule_reader& rules) {
  std::vector<advice> out;
  rules.each(f, key, 1, most_rules, [&](fields& one) {
    const rule_ref why = rules.ref(one);
    out.push_back({why, one.text("text", advice_size)});
  });
  return out;
}

void read_spoils(fields& f, protocol& out, rule_reader& rules) {
  static const std::vector<std::string> leads{"repeat", "tell"};
  rules.each(f, "breath_spoils", 1, most_rules, [&](fields& one) {
    breath_spoil x;
    x.why = rules.ref(one);
    x.id = rules.id_text(one, "id");
    x.text = one.text("text", spoil_size);
    x.leads = static_cast<spoil_leads_to>(one.choice("leads_to", leads));
    if (find_spoil(out, x.id) != nullptr)
      one.refuse("id", "\"" + x.id + "\" twice", "each of them once");
    out.spoils.push_back(std::move(x));
  });
}

} // namespace

void read_safety(fields& f, protocol& out, rule_reader& rules) {
  if (rules.version() == 1) {
    out.warnings = warnings_of_version_1();
    out.spoils = spoils_of_version_1();
    return;
  }
  if (const json::value* v = f.child("warnings")) read_warnings(*v, out, f, rules);
  if (const json::value* v = f.child("symptom_times"))
    read_symptom_times(*v, out.symptom_times, f, rules);
  read_spoils(f, out, rules);
  out.breath_how = read_advice(f, "breath_how", rules);
  out.expected = read_advice(f, "expected", rules);
  out.not_expected = read_advice(f, "not_expected", rules);
  out.afterwards = read_advice(f, "afterwards", rules);
  out.medicines = read_advice(f, "medicines", rules);
}

} // namespace qb::inline protocols
