// One reader a part of the file; every refusal names line and field.
#include "core/plan/circumstances_reader.hpp"

#include "core/base/json_fields.hpp"
#include "core/protocol/rule_reader.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline plans {

namespace {

using json::fields;
using std::chrono::minutes;

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int number_in(std::string_view two) {
  return (two[0] - '0') * 10 + (two[1] - '0');
}

// "06:00" as minutes since midnight; nothing where it is no time of day. 24:00 only if `may_be_24`.
std::optional<minutes> clock_minutes(std::string_view text, bool may_be_24) {
  constexpr std::size_t length = 5; // "06:00"
  if (text.size() != length || text[2] != ':') return std::nullopt;
  const auto hours = text.substr(0, 2);
  const auto rest = text.substr(3);
  if (!all_digits(hours) || !all_digits(rest)) return std::nullopt;
  const minutes at = std::chrono::hours{number_in(hours)} + minutes{number_in(rest)};
  const bool fits = at < std::chrono::days{1} || (may_be_24 && at == std::chrono::days{1});
  return fits && minutes{number_in(rest)} < std::chrono::hours{1} ? std::optional(at)
                                                                  : std::nullopt;
}

// The "+01:00" at the end of an RFC 3339 text; nothing where it ends otherwise.
std::optional<minutes> offset_of(std::string_view sign_and_clock) {
  const auto size = clock_minutes(sign_and_clock.substr(1), false);
  if (!size || (sign_and_clock[0] != '+' && sign_and_clock[0] != '-')) return std::nullopt;
  return sign_and_clock[0] == '-' ? -*size : *size;
}

std::optional<instant> as_rfc3339(std::string_view text) {
  if (const auto utc = parse_rfc3339_utc(text)) return *utc;
  constexpr std::size_t offset_length = 6; // "+01:00"
  if (text.size() <= offset_length) return std::nullopt;
  const auto offset = offset_of(text.substr(text.size() - offset_length));
  if (!offset) return std::nullopt;
  const auto local =
      parse_rfc3339_utc(std::string(text.substr(0, text.size() - offset_length)) + "Z");
  if (!local) return std::nullopt;
  return *local - *offset;
}

refusal no_moment(std::string_view text) {
  return {refusal_kind::malformed, "", "", json::shown(std::string(text)),
          "a time such as \"2027-04-05 19:30\" or \"2027-04-05T19:30:00+01:00\""};
}

bool is_rule_id(const std::string& text) {
  constexpr std::size_t most = 40;
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !text.empty() && text.size() <= most && text.front() >= 'a' && text.front() <= 'z' &&
         text.back() != '-' && std::all_of(text.begin(), text.end(), fits);
}

// One date under `key`, if the field is there.
std::optional<civil_date> optional_date(fields& f, const char* key) {
  const auto text = f.optional_text(key);
  if (!text) return std::nullopt;
  const auto date = parse_date(*text);
  if (date) return *date;
  f.refuse(key, date.error().found, date.error().expected, date.error().kind);
  return std::nullopt;
}

minutes clock_field(fields& f, const char* key, bool may_be_24) {
  const std::string text = f.text(key);
  const auto at = clock_minutes(text, may_be_24);
  if (!f.failed() && !at)
    f.refuse(key, "\"" + text + "\"",
             may_be_24 ? "a time from \"00:00\" to \"24:00\""
                       : "a time from \"00:00\" to \"23:59\"");
  return at.value_or(minutes{0});
}

day_hours read_hours(fields& f) {
  day_hours out;
  out.from = clock_field(f, "from", false);
  out.to = clock_field(f, "to", true);
  if (!f.failed() && out.from == out.to)
    f.refuse("to", "the same time as \"from\"", "another time", refusal_kind::out_of_range);
  return out;
}

answered_washout read_washout(const json::value& v, const std::string& rule, fields& up) {
  static const std::vector<std::string> answers{"never", "last-on", "until", "cannot-stop",
                                                "unknown"};
  fields f(v, up.place(rule));
  answered_washout out;
  out.rule = rule;
  out.answer = static_cast<washout_answer>(f.choice("answer", answers));
  const bool dated = out.answer == washout_answer::last_on || out.answer == washout_answer::until;
  out.on = optional_date(f, "on");
  if (!f.failed() && out.on.has_value() != dated)
    f.refuse("on", dated ? "no day" : "a day",
             dated ? "the day of \"" + std::string(washout_key(out.answer)) + "\""
                   : "a day only with \"last-on\" and \"until\"",
             dated ? refusal_kind::missing : refusal_kind::malformed);
  const auto* members = v.members();
  if (members != nullptr && v.find("agreed") != nullptr) out.agreed = f.boolean("agreed");
  up.absorb(f.finish());
  return out;
}

// The members of an object whose keys are rule ids, read by `read(key, value, fields)`.
template <typename Read>
void each_rule(fields& f, const char* key, Read read) {
  const json::value* v = f.optional_child(key);
  if (v == nullptr) return;
  constexpr std::size_t most_rules = 60;
  fields inner(*v, f.place(key));
  if (v->members()->size() > most_rules)
    f.refuse(key, fmt::format("{} rules", v->members()->size()),
             fmt::format("at most {} rules", most_rules), refusal_kind::out_of_range);
  for (const json::member& m : *v->members()) {
    if (!is_rule_id(m.first))
      f.refuse(key, "a key that is no rule id", "the rule ids of a protocol as keys");
    read(m.first, m.second, inner);
  }
  f.absorb(inner.finish());
}

void read_home(fields& f, circumstances& out) {
  constexpr std::size_t most_entries = 50;
  constexpr std::int64_t days_in_week = 7;
  const auto items = f.children("home", 1, most_entries);
  for (std::size_t i = 0; i < items.size(); ++i) {
    fields item(*items[i], f.place("home", i));
    home_hours h;
    for (const std::int64_t day : item.integers("weekdays", 1, days_in_week, 1, days_in_week)) {
      if (!h.weekdays.insert(static_cast<int>(day)).second)
        item.refuse("weekdays", "the same day twice", "each day once");
    }
    h.hours = read_hours(item);
    f.absorb(item.finish());
    out.home.push_back(std::move(h));
  }
}

void read_away(fields& f, circumstances& out) {
  constexpr auto most_dates = static_cast<std::size_t>(search_horizon.count());
  for (const std::string& text :
       f.optional_texts("away", 0, most_dates).value_or(std::vector<std::string>{})) {
    const auto date = parse_date(text);
    if (date)
      out.away.push_back(*date);
    else
      f.refuse("away", date.error().found, date.error().expected, date.error().kind);
  }
}

} // namespace

result<instant> read_moment(std::string_view text, const zone& z) {
  using std::chrono::ceil;
  if (const auto t = as_rfc3339(text)) return instant{ceil<minutes>(*t)};
  const auto civil = parse_civil(text);
  if (!civil) return tl::unexpected(no_moment(text));
  auto t = resolve_start(*civil, z, fold::unasked);
  if (t) return *t;
  refusal no = t.error();
  no.where.clear();
  const civil_meaning meaning = z.meaning_of(*civil);
  if (const auto* two = std::get_if<twofold_time>(&meaning))
    no.expected = fmt::format("one of {} and {}", rfc3339(two->first, z).value_or(""),
                              rfc3339(two->second, z).value_or(""));
  return tl::unexpected(no);
}

result<circumstances> read_circumstances(std::string_view text, const zone& z) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-told");
  circumstances out;
  each_rule(f, "washouts", [&](const std::string& rule, const json::value& v, fields& up) {
    out.washouts.push_back(read_washout(v, rule, up));
    up.optional_child(rule.c_str());
  });
  each_rule(f, "moments", [&](const std::string& rule, const json::value&, fields& up) {
    const auto moment = read_moment(up.text(rule.c_str()), z);
    if (moment)
      out.moments.push_back({rule, *moment});
    else
      up.refuse(rule.c_str(), moment.error().found, moment.error().expected, moment.error().kind);
  });
  if (parsed->find("home") != nullptr) read_home(f, out);
  read_away(f, out);
  if (const json::value* v = f.optional_child("awake")) {
    fields hours(*v, f.place("awake"));
    out.awake = read_hours(hours);
    f.absorb(hours.finish());
  }
  out.kit_expires = optional_date(f, "kit_expires");
  each_rule(f, "answers", [&](const std::string& rule, const json::value&, fields& up) {
    static const std::vector<std::string> answers{"no", "yes", "unsure"};
    out.answers[rule] = answers[up.choice(rule.c_str(), answers)];
  });
  out.birth_date = optional_date(f, "birth_date");
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

} // namespace qb::inline plans
