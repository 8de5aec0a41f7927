// The strict reader of laboratory profiles; the contract is assets/schema/profile.schema.json.
#include "core/protocol/profile.hpp"

#include "core/protocol/judging_reader.hpp"
#include "core/protocol/plausible.hpp"
#include "core/protocol/reached.hpp"
#include "core/protocol/rule_reader.hpp"
#include "core/seal/age_keys.hpp"

#include <algorithm>

namespace qb::inline protocols {

lab_profile::lab_profile() = default;
lab_profile::lab_profile(const lab_profile&) = default;
lab_profile::lab_profile(lab_profile&&) noexcept = default;
lab_profile& lab_profile::operator=(const lab_profile&) = default;
lab_profile& lab_profile::operator=(lab_profile&&) noexcept = default;
lab_profile::~lab_profile() = default;

namespace {

using json::fields;
using std::chrono::seconds;

constexpr std::int64_t most_seconds = 3600; // no bound around a sample is longer than an hour

seconds seconds_of(fields& f, const char* key, std::int64_t least = 0) {
  return seconds{f.integer(key, least, most_seconds)};
}

void read_bounds(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("sample_bounds"));
  out.bounds_why = rules.ref(f);
  out.bounds = read_sample_bounds(f);
  up.absorb(f.finish());
}

void read_drink(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("drink_bounds"));
  out.drink_why = rules.ref(f);
  out.drink.after_tube_1 = seconds_of(f, "after_tube_1_s", 1);
  out.drink.drink_within = seconds_of(f, "drink_within_s", 1);
  up.absorb(f.finish());
}

void read_rise(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  constexpr std::int64_t most_rise = 10; // of the widest scale of symptoms
  fields f(v, up.place("symptom_rise"));
  out.rise_why = rules.ref(f);
  out.rise = static_cast<int>(f.integer("points", 1, most_rise));
  up.absorb(f.finish());
}

void read_choices(fields& f, lab_profile& out, rule_reader& rules) {
  static const std::vector<std::string> zeros{"tube-1-closed", "drink-start", "drink-end"};
  static const std::vector<std::string> waters{"none", "sips", "free"};
  if (const json::value* v = f.child("time_zero")) {
    fields zero(*v, f.place("time_zero"));
    out.time_zero_why = rules.ref(zero);
    out.zero = static_cast<time_zero>(zero.choice("value", zeros));
    f.absorb(zero.finish());
  }
  if (const json::value* v = f.child("window_slack")) {
    fields slack(*v, f.place("window_slack"));
    out.slack_why = rules.ref(slack);
    out.window_slack = std::chrono::minutes{slack.integer("minutes", 0, most_slack)};
    f.absorb(slack.finish());
  }
  if (const json::value* v = f.child("water_during_test")) {
    fields water(*v, f.place("water_during_test"));
    out.water_why = rules.ref(water);
    out.water_during_test = waters[water.choice("value", waters)];
    f.absorb(water.finish());
  }
}

void read_analysis(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("analysis"));
  constexpr std::int64_t most_days = 60;
  constexpr std::int64_t days_in_week = 7;
  out.analysis_why = rules.ref(f);
  out.analysis_working_days = static_cast<int>(f.integer("working_days_to_result", 1, most_days));
  for (const std::int64_t day : f.integers("working_days", 1, days_in_week, 1, days_in_week)) {
    if (!out.working_days.insert(static_cast<int>(day)).second)
      f.refuse("working_days", "the same day twice", "each day once");
  }
  up.absorb(f.finish());
}

void read_closed_days(const json::value& v, receiving_terms& out, fields& up, rule_reader& rules) {
  constexpr std::size_t most_closed = 400; // some years ahead
  fields f(v, up.place("closed_days"));
  out.closed_why = rules.ref(f);
  for (const std::string& text : f.texts("dates", 1, most_closed)) {
    const auto date = parse_date(text);
    const auto& all = out.closed_days;
    if (!date) {
      f.refuse("dates", date.error().found, date.error().expected, date.error().kind);
    } else if (std::find(all.begin(), all.end(), *date) != all.end()) {
      f.refuse("dates", "the same day twice", "each day once");
    } else {
      out.closed_days.push_back(*date);
    }
  }
  up.absorb(f.finish());
}

// One optional object of a rule and a whole number; nothing where the file has none.
std::optional<std::int64_t> read_term(fields& up, const char* object, const char* number,
                                      std::int64_t most, rule_ref& why, rule_reader& rules) {
  const json::value* v = up.optional_child(object);
  if (v == nullptr) return std::nullopt;
  fields f(*v, up.place(object));
  why = rules.ref(f);
  const std::int64_t n = f.integer(number, 1, most);
  up.absorb(f.finish());
  return n;
}

void read_receiving(fields& f, receiving_terms& out, rule_reader& rules) {
  constexpr std::int64_t most_minutes = 60;
  constexpr std::int64_t most_tenths = 100; // 10 per cent of CO2, more than any breath has
  if (const auto n = read_term(f, "label_match", "minutes", most_minutes, out.label_why, rules))
    out.label_within = std::chrono::minutes{*n};
  if (const auto n = read_term(f, "transit", "days", most_receiving_days, out.transit_why, rules))
    out.transit_within = std::chrono::days{*n};
  if (const auto n = read_term(f, "tube_age", "days", most_receiving_days, out.age_why, rules))
    out.tube_age_within = std::chrono::days{*n};
  if (const auto n =
          read_term(f, "co2_correction", "reference_tenths_pct", most_tenths, out.co2_why, rules))
    out.co2_reference_tenths = static_cast<int>(*n);
  if (const json::value* v = f.optional_child("closed_days")) read_closed_days(*v, out, f, rules);
}

void read_retention(fields& f, lab_profile& out, rule_reader& rules) {
  constexpr std::int64_t most_years = 100; // longer than anybody asks for
  const auto n =
      read_term(f, "retention", "years_after_conclusion", most_years, out.retention_why, rules);
  if (n) out.retention = std::chrono::years{*n};
}

void read_label_sheet(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("label_sheet"));
  out.label_sheet_why = rules.ref(f);
  out.label_sheet = read_id(f, "sheet");
  up.absorb(f.finish());
}

void read_kiosk(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  constexpr std::int64_t most_notice = 24 * 60; // a day, in minutes
  fields f(v, up.place("kiosk"));
  out.kiosk_why = rules.ref(f);
  kiosk_terms terms;
  terms.erase_after_handover = f.boolean("erase_after_handover");
  terms.unhanded_after =
      std::chrono::hours{f.integer("erase_unhanded_after_hours", 1, most_kept_hours)};
  terms.notice = std::chrono::minutes{f.integer("notice_minutes", 1, most_notice)};
  out.kiosk = terms;
  up.absorb(f.finish());
}

consequence consequence_in(fields& f, const std::string& text, const char* key) {
  const auto read = read_consequence(text);
  if (!read) f.refuse(key, "another text", "note, review or cannot-be-used");
  return read.value_or(consequence::note);
}

void read_consequences(const json::value& v, lab_profile& out, fields& up, rule_reader& rules) {
  constexpr std::size_t most = 100; // more than there are kinds of findings
  fields f(v, up.place("consequences"));
  out.consequences_why = rules.ref(f);
  rules.each(f, "of", 1, most, [&](fields& one) {
    own_consequence own;
    own.finding = read_id(one, "finding");
    own.weight = consequence_in(one, one.text("consequence"), "consequence");
    if (const auto lesser = one.optional_text("lesser"))
      own.lesser = consequence_in(one, *lesser, "lesser");
    const bool twice =
        std::any_of(out.consequences.begin(), out.consequences.end(),
                    [&](const own_consequence& o) { return o.finding == own.finding; });
    if (twice) one.refuse("finding", "a finding twice", "each once");
    out.consequences.push_back(std::move(own));
  });
  up.absorb(f.finish());
}

// A slip in the key would seal every record to nobody.
std::string read_seal_to(fields& f) {
  const auto text = f.optional_text("seal_to");
  if (!text) return {};
  if (const auto key = seal::read_recipient(*text); !key)
    f.refuse("seal_to", key.error().found, "an age recipient copied whole (age1…)");
  return *text;
}

} // namespace

result<lab_profile> read_profile(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  constexpr int newest = 2;
  const int version = check_format(f, "quarterbreath-profile", newest);
  lab_profile out;
  rule_reader rules(f, out.sources, version);
  out.id = rules.id_text(f, "id");
  out.name = f.text("name");
  out.telephone = f.text("telephone");
  constexpr std::size_t most_lines = 8;
  out.address = f.texts("address", 1, most_lines);
  out.kit_letters = rules.kit_letters(f, "kit_letters");
  read_reached(f, out, version);
  out.seal_to = read_seal_to(f);
  read_choices(f, out, rules);
  if (const json::value* v = f.child("sample_bounds")) read_bounds(*v, out, f, rules);
  if (const json::value* v = f.child("drink_bounds")) read_drink(*v, out, f, rules);
  if (const json::value* v = f.optional_child("symptom_rise")) read_rise(*v, out, f, rules);
  if (const json::value* v = f.child("analysis")) read_analysis(*v, out, f, rules);
  if (const json::value* v = f.optional_child("label_sheet")) read_label_sheet(*v, out, f, rules);
  if (const json::value* v = f.optional_child("kiosk")) read_kiosk(*v, out, f, rules);
  if (const json::value* v = f.optional_child("consequences")) read_consequences(*v, out, f, rules);
  read_receiving(f, out.receiving, rules);
  if (version > 1) out.judging = read_judging_choices(f, rules);
  if (version > 1) read_retention(f, out, rules);
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

const char* time_zero_text(time_zero z) {
  switch (z) {
  case time_zero::tube_1_closed: return "tube 1 closed";
  case time_zero::drink_start: return "start of the drink";
  case time_zero::drink_end: return "end of the drink";
  }
  QB_BELIEVE(false);
  return "";
}

} // namespace qb::inline protocols
