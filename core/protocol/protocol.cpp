// The strict reader of protocol files. The published contract is
// assets/schema/protocol.schema.json; the tests hold the two against each other in both directions.
#include "core/protocol/protocol.hpp"

#include "core/protocol/grid.hpp"
#include "core/protocol/plausible.hpp"
#include "core/protocol/preparation_reader.hpp"
#include "core/protocol/safety_reader.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::inline protocols {

protocol::protocol() = default;
protocol::protocol(const protocol&) = default;
protocol::protocol(protocol&&) noexcept = default;
protocol& protocol::operator=(const protocol&) = default;
protocol& protocol::operator=(protocol&&) noexcept = default;
protocol::~protocol() = default;

namespace {

using json::fields;

// Ranges that no plausible protocol leaves: they catch a slip of the hand in a file.
constexpr std::int64_t most_minutes_after = 1440; // one day
constexpr std::int64_t most_amount = 1000;

sugar_form read_form(fields& f, rule_reader& rules) {
  static const std::vector<std::string> forms{"powder", "syrup"};
  static const std::vector<std::string> units{"g", "ml"};
  sugar_form out;
  out.why = rules.ref(f);
  out.form = forms[f.choice("form", forms)];
  out.amount = static_cast<int>(f.integer("amount", 1, most_amount));
  out.unit = units[f.choice("unit", units)];
  if (rules.version() > 1) out.measure = f.boolean("measure");
  return out;
}

void read_sugar(const json::value& v, substrate& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("sugar"));
  out.why = rules.ref(f);
  out.name = f.text("name");
  out.packet_names = f.texts("packet_names", 1, most_rules);
  out.dose_g = static_cast<int>(f.integer("dose_g", 1, most_amount));
  rules.each(f, "forms", 1, 2, [&](fields& form) { out.forms.push_back(read_form(form, rules)); });
  if (const json::value* w = f.child("water")) {
    fields water(*w, f.place("water"));
    out.water_why = rules.ref(water);
    out.water_ml = static_cast<int>(water.integer("ml", 1, most_amount));
    f.absorb(water.finish());
  }
  up.absorb(f.finish());
}

void read_grid(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("grid"));
  out.grid_why = rules.ref(f);
  const auto offsets = f.integers("offsets_min", 2, sample_number::most, 0, most_minutes_after);
  for (const std::int64_t offset : offsets) {
    const bool rises = out.offsets.empty() ? offset == 0 : offset > out.offsets.back().count();
    if (!rises)
      f.refuse("offsets_min", fmt::format("{}", offset), "minutes that rise from 0",
               refusal_kind::out_of_range);
    out.offsets.emplace_back(offset);
  }
  up.absorb(f.finish());
}

void read_scale(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("symptoms"));
  out.scale_why = rules.ref(f);
  out.score_least = static_cast<int>(f.integer("least", 0, 0));
  out.score_most = static_cast<int>(f.integer("most", 1, most_score));
  std::vector<std::string> ids;
  rules.each(f, "asked", 1, most_rules, [&](fields& s) {
    symptom one{rules.id_text(s, "id"), s.text("text")};
    for (const symptom& other : out.symptoms) {
      if (other.id == one.id) s.refuse("id", "\"" + one.id + "\" twice", "each symptom once");
    }
    out.symptoms.push_back(std::move(one));
  });
  up.absorb(f.finish());
}

void read_breath(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("breath"));
  constexpr std::int64_t most_seconds = 60;
  out.breath_why = rules.ref(f);
  out.breath_least = std::chrono::seconds{f.integer("least_s", 1, most_seconds)};
  out.breath_most = std::chrono::seconds{f.integer("most_s", 1, most_seconds)};
  if (!f.failed() && out.breath_most < out.breath_least)
    f.refuse("most_s", fmt::format("{}", out.breath_most.count()), "at least least_s",
             refusal_kind::out_of_range);
  if (const json::value* held = f.optional_child("hold")) {
    fields hold(*held, f.place("hold"));
    out.hold_why = rules.ref(hold);
    out.breath_hold = std::chrono::seconds{hold.integer("seconds", 1, most_seconds)};
    f.absorb(hold.finish());
  }
  up.absorb(f.finish());
}

void read_age_and_posting(fields& f, protocol& out, rule_reader& rules) {
  constexpr std::int64_t most_age = 120;
  if (const json::value* v = f.child("age")) {
    fields age(*v, f.place("age"));
    out.age_why = rules.ref(age);
    out.age_from_years = static_cast<int>(age.integer("from_years", 0, most_age));
    if (const auto to = age.optional_integer("to_years", 0, most_age))
      out.age_to_years = static_cast<int>(*to);
    if (!age.failed() && out.age_to_years && *out.age_to_years < out.age_from_years)
      age.refuse("to_years", fmt::format("{}", *out.age_to_years), "at least from_years",
                 refusal_kind::out_of_range);
    f.absorb(age.finish());
  }
  if (const json::value* v = f.child("posting")) {
    fields posting(*v, f.place("posting"));
    out.posting_why = rules.ref(posting);
    out.post_within = std::chrono::days{posting.integer("days", 1, most_rule_days)};
    f.absorb(posting.finish());
  }
}

void read_kit(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("kit"));
  out.kit_why = rules.ref(f);
  out.kit_letters = rules.kit_letters(f, "letters");
  out.tubes_in_kit = static_cast<int>(f.integer("tubes", 2, sample_number::most));
  if (!f.failed() && static_cast<std::size_t>(out.tubes_in_kit) < out.offsets.size())
    f.refuse("tubes", fmt::format("{}", out.tubes_in_kit), "at least one tube a sample",
             refusal_kind::out_of_range);
  up.absorb(f.finish());
}

void read_own_bounds(fields& f, protocol& out, rule_reader& rules) {
  const json::value* v = f.optional_child("sample_bounds");
  if (v == nullptr) return;
  fields b(*v, f.place("sample_bounds"));
  out.bounds_why = rules.ref(b);
  out.bounds = read_sample_bounds(b);
  const std::chrono::seconds gap =
      shortest_gap(out.offsets).value_or(std::chrono::minutes{most_minutes_after});
  // Else one breath could be two samples.
  if (!b.failed() && !f.failed() && out.bounds->last_call + out.bounds->early >= gap)
    b.refuse("last_call_s", fmt::format("{}", out.bounds->last_call.count()),
             fmt::format("with early_s less than the shortest gap, {} s", gap.count()),
             refusal_kind::out_of_range);
  f.absorb(b.finish());
}

} // namespace

result<protocol> read_protocol(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  constexpr int newest = 2;
  const int version = check_format(f, "quarterbreath-protocol", newest);
  protocol out;
  out.version = version;
  rule_reader rules(f, out.sources, version);
  out.id = rules.id_text(f, "id");
  out.title = f.text("title");
  read_age_and_posting(f, out, rules);
  if (const json::value* v = f.child("sugar")) read_sugar(*v, out.sugar, f, rules);
  if (const json::value* v = f.child("grid")) read_grid(*v, out, f, rules);
  if (const json::value* v = f.child("kit")) read_kit(*v, out, f, rules);
  if (const json::value* v = f.child("preparation")) read_preparation(*v, out, f, rules);
  rules.each(f, "during_test", 1, most_rules, [&](fields& d) {
    const rule_ref why = rules.ref(d);
    out.during_test.push_back({why, d.text("text", long_text)});
  });
  if (const json::value* v = f.child("symptoms")) read_scale(*v, out, f, rules);
  if (const json::value* v = f.child("breath")) read_breath(*v, out, f, rules);
  read_own_bounds(f, out, rules);
  if (version > 1 && f.has("confirmed"))
    rules.each(f, "confirmed", 1, most_rules, [&](fields& one) {
      confirmed_figure said{rules.id_text(one, "rule"), one.text("by")};
      out.confirmed.push_back(std::move(said));
    });
  read_questions(f, out, rules);
  read_safety(f, out, rules);
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

bool age_fits(const protocol& p, civil_date birth, civil_date on) {
  int age = static_cast<int>(on.year()) - static_cast<int>(birth.year());
  const bool birthday_to_come =
      on.month() < birth.month() || (on.month() == birth.month() && on.day() < birth.day());
  if (birthday_to_come) --age;
  return age >= p.age_from_years && (!p.age_to_years || age <= *p.age_to_years);
}

const preparation_window* find_window(const protocol& p, std::string_view rule) {
  for (const preparation_window& w : p.windows) {
    if (w.why.rule == rule) return &w;
  }
  return nullptr;
}

const washout* find_washout(const protocol& p, std::string_view rule) {
  for (const washout& w : p.washouts) {
    if (w.why.rule == rule) return &w;
  }
  return nullptr;
}

const sugar_form* find_form(const protocol& p, std::string_view form) {
  const auto& forms = p.sugar.forms;
  const auto found =
      std::find_if(forms.begin(), forms.end(), [&](const sugar_form& f) { return f.form == form; });
  return found == forms.end() ? nullptr : &*found;
}

const caution* find_caution(const protocol& p, std::string_view rule) {
  for (const auto* list : {&p.cautions, &p.morning}) {
    for (const caution& c : *list) {
      if (is_same_question(c.why.rule, rule)) return &c;
    }
  }
  return nullptr;
}

namespace {

// The id of today for an id of earlier protocols.
std::string_view id_of_today(std::string_view rule) {
  constexpr std::string_view began = "no-"; // each of them, and few others
  if (rule.substr(0, began.size()) != began) return rule;
  constexpr std::array<std::pair<std::string_view, std::string_view>, 3> earlier{
      {{"no-fructose-intolerance", "ask-fructose-intolerance"},
       {"no-lactose-galactosaemia", "ask-galactosaemia"},
       {"no-lactulose-galactosaemia", "ask-galactosaemia"}}};
  for (const auto& [was, is] : earlier) {
    if (rule == was) return is;
  }
  return rule;
}

} // namespace

bool is_same_question(std::string_view a, std::string_view b) {
  return a == b || id_of_today(a) == id_of_today(b);
}

const breath_spoil* find_spoil(const protocol& p, std::string_view id) {
  for (const breath_spoil& x : p.spoils) {
    if (x.id == id) return &x;
  }
  return nullptr;
}

const source* find_source(const protocol& p, std::string_view id) {
  for (const source& s : p.sources) {
    if (s.id == id) return &s;
  }
  return nullptr;
}

} // namespace qb::inline protocols
