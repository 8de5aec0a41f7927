// The strict reader of rehearsal scripts.
#include "app/rehearsal/rehearsal_script.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/protocol/rule_reader.hpp"

#include <algorithm>

namespace qb::rehearsal {

namespace {

using json::fields;

constexpr std::int64_t most_seconds = 7200;
constexpr std::int64_t most_minutes = most_seconds / 60;
constexpr std::size_t most_items = 100;

civil_time read_civil(fields& f, const char* key) {
  const auto t = parse_civil(f.text(key));
  if (t) return *t;
  f.refuse(key, t.error().found, t.error().expected);
  return {};
}

reported_person read_person(const json::value& v, fields& up) {
  fields f(v, up.place("person"));
  reported_person p;
  p.name = composed(f.text("name"));
  const auto birth = parse_date(f.text("birth_date"));
  if (birth) p.birth_date = *birth;
  if (!birth) f.refuse("birth_date", "another form", "a date such as 1950-01-31");
  p.doctor = composed(f.text("doctor"));
  p.kit_number = kit_key(f.text("kit_number"));
  p.laboratory = f.text("laboratory");
  up.absorb(f.finish());
  return p;
}

void read_scores(const json::value& v, rehearsal_script& out, fields& up) {
  constexpr int after_tubes = 2; // the times of scores that belong to none
  fields f(v, up.place("scores"));
  for (const json::member& m : *v.members()) {
    for (const std::int64_t n :
         f.integers(m.first.c_str(), 1, sample_number::most + after_tubes, 0, most_score))
      out.scores[m.first].push_back(static_cast<int>(n));
  }
  up.absorb(f.finish());
}

// What whoever agreed is; may be left out.
std::optional<releaser> read_said_by(fields& f) {
  static const std::vector<std::string> releasers{"doctor", "laboratory", "pharmacist", "person"};
  if (!f.has("said_by")) return std::nullopt;
  return static_cast<releaser>(f.choice("said_by", releasers));
}

reported_caution read_answer(const json::value& v, fields& f, const std::string& rule) {
  static const std::vector<std::string> answers{"no", "yes", "unsure"};
  static const std::vector<std::string> outcomes{"not-asked", "go-on", "not-this-test"};
  reported_caution told{rule, static_cast<caution_answer>(f.choice("answer", answers)), {}, "", ""};
  if (v.find("outcome") != nullptr)
    told.outcome = static_cast<asked_outcome>(f.choice("outcome", outcomes));
  told.said_by = read_said_by(f);
  told.who = f.optional_text("who").value_or("");
  told.words = f.optional_text("words").value_or("");
  return told;
}

// What the packet says, in place of what this test's packet does.
reported_packet read_packet(fields& f) {
  constexpr std::int64_t most_amount = 100000;
  reported_packet told;
  told.name = f.optional_text("name").value_or("");
  told.amount = static_cast<int>(f.optional_integer("amount", 0, most_amount).value_or(0));
  told.unit = f.optional_text("unit").value_or("");
  told.words = f.optional_text("words").value_or("");
  return told;
}

reported_washout read_washout(const json::value& v, fields& f, const std::string& rule) {
  static const std::vector<std::string> answers{"never", "last-on", "until", "cannot-stop",
                                                "unknown"};
  reported_washout told;
  told.what.rule = rule;
  told.what.answer = static_cast<washout_answer>(f.choice("answer", answers));
  if (const auto on = f.optional_text("on")) {
    const auto day = parse_date(*on);
    if (day) told.what.on = *day;
    if (!day) f.refuse("on", "another form", "a date such as 2027-01-31");
  }
  if (v.find("agreed") != nullptr) told.what.agreed = f.boolean("agreed");
  told.who = f.optional_text("who").value_or("");
  told.said_by = read_said_by(f);
  return told;
}

// An object of objects by rule id, each read by `read(value, fields, rule)`; may be left out.
template <typename Told, typename Read>
void read_stated(fields& up, const char* key, std::map<std::string, Told>& out, Read read) {
  const json::value* v = up.optional_child(key);
  if (v == nullptr) return;
  fields f(*v, up.place(key));
  for (const json::member& m : *v->members()) {
    const json::value* one = f.child(m.first.c_str());
    if (one == nullptr) break;
    fields told(*one, f.place(m.first));
    out[m.first] = read(*one, told, m.first);
    f.absorb(told.finish());
  }
  up.absorb(f.finish());
}

scripted_sample& sample_at(rehearsal_script& out, fields& f, const char* key) {
  return out.samples[static_cast<int>(f.integer(key, 1, sample_number::most))];
}

std::chrono::seconds seconds_of(fields& f, const char* key, std::int64_t least) {
  return std::chrono::seconds{f.integer(key, least, most_seconds)};
}

// A deed with a time of its own, before the test.
bool read_dated(const std::string& deed, fields& f, rehearsal_script& out) {
  using kind = scripted_deed::kind;
  scripted_deed d;
  if (deed == "tell-slip") {
    d = {kind::slip,     read_civil(f, "told_at"), read_civil(f, "at"),
         f.text("rule"), f.text("words"),          f.optional_text("subject").value_or("")};
  } else if (deed == "move") {
    d = {kind::move, read_civil(f, "at"), read_civil(f, "start"), "", "", ""};
  } else if (deed == "call-off") {
    d = {kind::call_off, read_civil(f, "at"), {}, "", f.text("reason"), ""};
  } else if (deed == "confirm") {
    d = {kind::confirm, read_civil(f, "at"), {}, f.text("rule"), "", ""};
  } else {
    return false;
  }
  out.deeds.push_back(std::move(d));
  return true;
}

sample_number sample_of(fields& f, const char* key) {
  return sample_number(static_cast<int>(f.integer(key, 1, sample_number::most)));
}

std::chrono::minutes minutes_of(fields& f, const char* key, std::int64_t least) {
  return std::chrono::minutes{f.integer(key, least, most_minutes)};
}

scripted_telling read_trouble(fields& f) {
  static const std::vector<std::string> whats{"slow", "unfinished", "spilled", "vomited"};
  static const std::vector<std::string> parts{"all", "more-than-half", "less-than-half", "none"};
  scripted_telling t;
  t.mishap = static_cast<drink_mishap>(f.choice("what", whats));
  t.kept = static_cast<drink_part>(f.choice("kept", parts));
  t.minutes = minutes_of(f, "ago_min", 0);
  return t;
}

scripted_telling read_right_score(fields& f, const json::value& v) {
  scripted_telling t;
  t.what = scripted_telling::kind::score;
  t.sample = sample_of(f, "sample");
  t.score.id = f.text("symptom");
  const json::value* given = v.find("score");
  if (given != nullptr && given->is_null()) {
    f.null("score");
  } else {
    t.score.score = static_cast<int>(f.integer("score", 0, most_score));
  }
  t.words = f.text("reason");
  return t;
}

// What is told or put right once a sample is behind.
bool read_telling(const std::string& deed, fields& f, const json::value& v, rehearsal_script& out) {
  using kind = scripted_telling::kind;
  scripted_telling t;
  if (deed == "trouble") {
    t = read_trouble(f);
  } else if (deed == "correct-time") {
    t.what = kind::time;
    t.sample = sample_of(f, "sample");
    t.minutes = minutes_of(f, "by_min", -most_minutes);
    t.words = f.text("reason");
  } else if (deed == "correct-tube") {
    t.what = kind::tube;
    t.sample = sample_of(f, "sample");
    t.really = sample_of(f, "really");
    t.words = f.text("reason");
  } else if (deed == "correct-score") {
    t = read_right_score(f, v);
  } else if (deed == "scorer") {
    t.what = kind::scorer;
    t.self = f.boolean("self");
    t.words = f.optional_text("who").value_or("");
  } else {
    return false;
  }
  sample_at(out, f, "after_sample").tellings.push_back(std::move(t));
  return true;
}

void read_deed(fields& f, const json::value& v, rehearsal_script& out) {
  static const std::vector<std::string> deeds{
      "tell-slip",    "move",          "call-off",      "confirm",   "start",     "late",
      "miss",         "repeat",        "skip-symptoms", "comment",   "power-cut", "set-clock",
      "unwell",       "drink-first",   "drink-told",    "red-flags", "trouble",   "correct-time",
      "correct-tube", "correct-score", "scorer",        "spoil"};
  const std::string& deed = deeds[f.choice("do", deeds)];
  if (f.failed() || read_dated(deed, f, out) || read_telling(deed, f, v, out)) return;
  if (deed == "start") {
    out.gate_by = std::chrono::minutes{f.integer("by_min", -most_seconds, most_seconds)};
    out.agreed = f.optional_text("agreed").value_or("");
    out.said_by = read_said_by(f);
  } else if (deed == "late") {
    sample_at(out, f, "sample").late_by = seconds_of(f, "by_s", 1);
  } else if (deed == "miss") {
    sample_at(out, f, "sample").missed = true;
  } else if (deed == "repeat") {
    sample_at(out, f, "sample").repeat_reason = f.text("reason");
  } else if (deed == "spoil") {
    sample_at(out, f, "sample").spoil = f.text("what");
  } else if (deed == "skip-symptoms") {
    sample_at(out, f, "sample").skip_symptoms = true;
  } else if (deed == "comment") {
    sample_at(out, f, "sample").comment = f.text("words");
  } else if (deed == "power-cut") {
    sample_at(out, f, "after_sample").power_cut = seconds_of(f, "for_s", 1);
  } else if (deed == "drink-first") {
    out.drink_first = minutes_of(f, "ago_min", 0);
  } else if (deed == "drink-told") {
    out.reported_drink = minutes_of(f, "ago_min", 0);
  } else if (deed == "red-flags") {
    sample_at(out, f, "sample").red_flags = f.texts("present", 0, most_items);
  } else if (deed == "set-clock") {
    sample_at(out, f, "after_sample").set_clock = seconds_of(f, "by_s", -most_seconds);
  } else {
    scripted_sample& s = sample_at(out, f, "after_sample");
    s.unwell = true;
    s.ends = f.boolean("ends");
  }
}

} // namespace

result<rehearsal_script> read_script(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-rehearsal");
  constexpr std::int64_t most_reaction = 60;
  rehearsal_script out;
  out.title = f.text("title");
  out.protocol_id = f.text("protocol");
  out.profile_id = f.text("profile");
  out.form = f.text("form");
  out.zone_name = f.text("zone");
  out.start = read_civil(f, "start");
  out.begins = read_civil(f, "begins");
  out.reaction = std::chrono::seconds{f.integer("reaction_s", 1, most_reaction)};
  if (const json::value* v = f.child("person")) out.person = read_person(*v, f);
  if (const json::value* v = f.child("scores")) read_scores(*v, out, f);
  out.kit_code = f.optional_text("kit_code");
  read_stated(f, "answers", out.answers, read_answer);
  if (const json::value* v = f.optional_child("packet")) {
    fields told(*v, f.place("packet"));
    out.packet = read_packet(told);
    f.absorb(told.finish());
  }
  read_stated(f, "washouts", out.washouts, read_washout);
  const auto deeds = f.children("does", 0, most_items);
  for (std::size_t i = 0; i < deeds.size(); ++i) {
    fields deed(*deeds[i], f.place("does", i));
    read_deed(deed, *deeds[i], out);
    f.absorb(deed.finish());
  }
  if (const auto no = f.finish()) return tl::unexpected(*no);
  std::stable_sort(
      out.deeds.begin(), out.deeds.end(),
      [](const scripted_deed& a, const scripted_deed& b) { return a.done_at < b.done_at; });
  return out;
}

} // namespace qb::rehearsal
