// `quarterbreath earliest`: the earliest start that keeps every rule, what binds it, and what
// another start breaks; so that scripts need no arithmetic on dates. Reads no clock: --now is told.
//
// With --format json, keys in this order; a RULE is {"rule", "name", "words", "source",
// "source_id", "basis"}, its source in full, with its id and basis in the protocol; these three are
// null for the rules of the person's own days ("now", "home", "awake-hours", "kit-expiry"); a START
// is
// {"start" (RFC 3339 with the zone's offset), "civil" (what the wall clock shows),
// "post_on_or_before" (a date)}:
//   protocol, zone, now   as they were understood
//   earliest              a START, or null where there is none
//   because               the RULE that binds it, or that leaves none
//   ask_first             RULEs of which somebody must be asked before there can be a date
//   against               RULEs of told answers, age or kit by which there may be no plan: then no
//                         earliest
//   not_answered          rule ids of the protocol's questions that were not told; the window asks
//                         them before it keeps a plan
//   not_counted           rule ids that were told and that the protocol does not have
//   asked_for             with --start: a START with "possible" and "breaks", a list of RULEs with
//                         "later_by_s": by how many seconds the start would have to be later for
//                         this rule, null where no later start helps or somebody must be asked
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/machine/files.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "core/base/json.hpp"
#include "core/plan/circumstances_reader.hpp"
#include "core/session/going_on.hpp"

#include <cstdio>
#include <fmt/core.h>

namespace qb::patient {

namespace {

using json::array;
using json::object;

// A rule as it is told: in the protocol's words where it is the protocol's.
struct rule_words {
  std::string name;
  std::string text;
  const source* from{nullptr};
};

rule_words words_of(const protocol& p, const std::string& rule) {
  if (const preparation_window* w = find_window(p, rule))
    return {w->name, w->text, find_source(p, w->why.source)};
  if (const washout* w = find_washout(p, rule))
    return {w->name, w->text, find_source(p, w->why.source)};
  if (const caution* c = find_caution(p, rule))
    return {c->name, c->text, find_source(p, c->why.source)};
  if (rule == p.age_why.rule)
    return {"Age", "This test is for another age group.", find_source(p, p.age_why.source)};
  if (rule == rule_home) return {"At home", "The whole test must fit into hours at home.", nullptr};
  if (rule == rule_awake_hours)
    return {"Awake", "You must be awake before the start and during the whole test.", nullptr};
  if (rule == rule_kit_expiry)
    return {"Kit date", "The test must end on or before the last day of the kit.", nullptr};
  if (rule == rule_now)
    return {"Now", "The preparation told is complete: a start can be now, not before.", nullptr};
  return {"Another sugar", "An answer about another sugar is still open.", nullptr};
}

object as_json(const protocol& p, const std::string& rule) {
  const rule_words w = words_of(p, rule);
  const source from = w.from == nullptr ? source{} : *w.from;
  return {{"rule", rule},
          {"name", w.name},
          {"words", w.text},
          {"source", json::text_or_null(from.citation)},
          {"source_id", json::text_or_null(from.id)},
          {"basis", json::text_or_null(from.basis)}};
}

// What is asked, with everything read.
struct question {
  const protocol& test;
  const circumstances& told;
  const zone& z;
  instant now;
  std::optional<instant> start;
};

struct answer {
  earliest_start first;
  std::vector<broken_rule> broken;             // of the start asked for
  std::optional<civil_date> post_on_or_before; // of the start asked for
  std::vector<std::string> against;            // by which there may be no plan at all
  std::vector<std::string> not_answered;       // questions of the protocol
  std::vector<std::string> not_counted;
};

// A state in which just that was told; the judgement that the window asks is asked of it too.
state told_state(const question& q) {
  state s;
  std::int64_t seq = 0;
  const auto tell = [&](payload what) {
    s = apply(std::move(s), event{++seq, {}, std::move(what)});
  };
  if (q.told.birth_date) tell(reported_person{"", *q.told.birth_date, "", "", ""});
  for (const auto& [rule, told] : q.told.answers) {
    const caution_answer said = told == "no"    ? caution_answer::no
                                : told == "yes" ? caution_answer::yes
                                                : caution_answer::unsure;
    tell(reported_caution{rule, said, asked_outcome::not_asked, "", ""});
  }
  return s;
}

void judge_answers(const question& q, answer& a) {
  const instant start = a.first.at.value_or(q.start.value_or(q.now));
  for (const hindrance& h : against_plan(told_state(q), q.test, date_of(q.z.civil_at(start))))
    a.against.push_back(h.rule);
  if (!a.against.empty()) a.first.at.reset();
  for (const caution& c : q.test.cautions) {
    if (q.told.answers.count(c.why.rule) == 0) a.not_answered.push_back(c.why.rule);
  }
  for (const auto& [rule, told] : q.told.answers) {
    if (find_caution(q.test, rule) == nullptr) a.not_counted.push_back(rule);
  }
}

result<answer> answer_to(const question& q) {
  answer out;
  out.first = find_earliest(q.test, q.told, q.now, q.z);
  for (const answered_washout& t : q.told.washouts) {
    if (find_washout(q.test, t.rule) == nullptr) out.not_counted.push_back(t.rule);
  }
  for (const reported_moment& m : q.told.moments) {
    if (find_window(q.test, m.rule) == nullptr) out.not_counted.push_back(m.rule);
  }
  judge_answers(q, out);
  if (q.start) {
    const auto p = make_plan(q.test, *q.start, q.z);
    if (!p) return tl::unexpected(p.error());
    out.post_on_or_before = p->post_on_or_before;
    out.broken = rules_broken(q.test, q.told, *q.start, q.now, q.z);
  }
  return out;
}

result<object> start_json(instant t, civil_date post, const zone& z) {
  const auto full = rfc3339(t, z);
  if (!full) return tl::unexpected(full.error());
  return object{{"start", *full},
                {"civil", civil_text(z.civil_at(t))},
                {"post_on_or_before", date_text(post)}};
}

result<json::value> as_json(const question& q, const answer& a) {
  const auto now = rfc3339(q.now, q.z);
  if (!now) return tl::unexpected(now.error());
  json::value earliest;
  if (a.first.at) {
    auto start = start_json(*a.first.at, *a.first.post_on_or_before, q.z);
    if (!start) return tl::unexpected(start.error());
    earliest = std::move(*start);
  }
  array ask;
  for (const std::string& rule : a.first.ask)
    ask.emplace_back(as_json(q.test, rule));
  array against;
  for (const std::string& rule : a.against)
    against.emplace_back(as_json(q.test, rule));
  object out{{"protocol", q.test.id},
             {"zone", q.z.name()},
             {"now", *now},
             {"earliest", std::move(earliest)},
             {"because", as_json(q.test, a.first.binding_rule)},
             {"ask_first", std::move(ask)},
             {"against", std::move(against)},
             {"not_answered", json::list_of(a.not_answered)},
             {"not_counted", json::list_of(a.not_counted)}};
  if (!q.start) return json::value(std::move(out));
  auto asked = start_json(*q.start, *a.post_on_or_before, q.z);
  if (!asked) return tl::unexpected(asked.error());
  array breaks;
  for (const broken_rule& b : a.broken) {
    object one = as_json(q.test, b.rule);
    json::value later;
    if (b.later_by) later = std::chrono::ceil<std::chrono::seconds>(*b.later_by).count();
    one.emplace_back("later_by_s", std::move(later));
    breaks.emplace_back(std::move(one));
  }
  asked->emplace_back("possible", a.broken.empty() && a.against.empty());
  asked->emplace_back("breaks", std::move(breaks));
  out.emplace_back("asked_for", std::move(*asked));
  return json::value(std::move(out));
}

// "2 days 3 h 20 min" of elapsed time.
std::string length_text(duration d) {
  const auto all = std::chrono::ceil<std::chrono::minutes>(d);
  const auto days = std::chrono::floor<std::chrono::days>(all);
  const auto hours = std::chrono::floor<std::chrono::hours>(all - days);
  const auto rest = all - days - hours;
  std::string out;
  if (days.count() > 0)
    out += fmt::format("{} {} ", days.count(), days.count() == 1 ? "day" : "days");
  if (hours.count() > 0) out += fmt::format("{} h ", hours.count());
  if (rest.count() > 0) out += fmt::format("{} min ", rest.count());
  return out.substr(0, out.size() - 1);
}

std::string moment_text(instant t, const zone& z) {
  return fmt::format("{}  ({}, {})", civil_text(z.civil_at(t)), z.name(),
                     rfc3339(t, z).value_or(rfc3339_utc(t)));
}

std::string rule_text(const protocol& p, const std::string& rule) {
  const rule_words w = words_of(p, rule);
  std::string out = fmt::format("  {}  {}\n      {}\n", rule, w.name, w.text);
  if (w.from != nullptr) out += fmt::format("      Source: {}\n", w.from->citation);
  return out;
}

std::string as_text(const question& q, const answer& a) {
  std::string out = q.test.title + "\n";
  if (!a.against.empty()) {
    out += "No plan for this test until you have asked the laboratory about\n";
    for (const std::string& rule : a.against)
      out += rule_text(q.test, rule);
  } else if (a.first.at) {
    out += fmt::format("Earliest start  {}\nPost on or before {}\nBecause of\n",
                       moment_text(*a.first.at, q.z), date_text(*a.first.post_on_or_before));
    out += rule_text(q.test, a.first.binding_rule);
  } else if (!a.first.ask.empty()) {
    out += "No date until you have asked the laboratory or your prescriber about\n";
    for (const std::string& rule : a.first.ask)
      out += rule_text(q.test, rule);
  } else {
    out += "No start fits. Because of\n" + rule_text(q.test, a.first.binding_rule);
  }
  if (!a.not_answered.empty())
    out +=
        fmt::format("{} questions of safety were not answered. Until they are, this is no plan.\n",
                    a.not_answered.size());
  for (const std::string& rule : a.not_counted)
    out += fmt::format("This test has no rule \"{}\": it was not counted.\n", rule);
  if (q.start) {
    out += fmt::format("\nA start at     {}\nPost on or before {}\n", moment_text(*q.start, q.z),
                       date_text(*a.post_on_or_before));
    out += a.broken.empty() ? "It keeps every rule.\n" : "It breaks\n";
    for (const broken_rule& b : a.broken) {
      out += rule_text(q.test, b.rule);
      out += b.later_by
                 ? "      Later by " + length_text(*b.later_by) + " it would keep this rule.\n"
                 : "      A later start alone does not help.\n";
    }
  }
  return out + "Never stop a prescribed medicine for the test: ask your prescriber.\n";
}

result<instant> option_moment(const char* option, const std::string& text, const zone& z) {
  auto t = read_moment(text, z);
  if (!t) t.error().where = option;
  return t;
}

result<circumstances> load_circumstances(const std::string& file, const zone& z) {
  if (file.empty()) return circumstances{};
  const auto text = read_file(file);
  if (!text) return tl::unexpected(text.error());
  auto told = read_circumstances(*text, z);
  if (!told) return tl::unexpected(in_file(told.error(), file));
  return told;
}

} // namespace

int earliest_command(const shared_options& shared, const earliest_options& o) {
  const auto test = load_offered_protocol(shared.assets, o.protocol);
  if (!test) return say_no(test.error());
  const auto z = load_zone(o.zone);
  if (!z) return say_no(z.error());
  const auto now = option_moment("--now", o.now, *z);
  if (!now) return say_no(now.error());
  const auto told = load_circumstances(o.told, *z);
  if (!told) return say_no(told.error());
  question q{test->value, *told, *z, *now, std::nullopt};
  // The dates of an answer stay within the years that can be written.
  if (const auto writable = make_plan(q.test, q.now, *z); !writable)
    return say_no(writable.error());
  if (!o.start.empty()) {
    const auto start = option_moment("--start", o.start, *z);
    if (!start) return say_no(start.error());
    q.start = *start;
  }
  const auto a = answer_to(q);
  if (!a) return say_no(a.error());
  if (shared.format == "text") {
    tell("{}", as_text(q, *a));
    return 0;
  }
  const auto out = as_json(q, *a);
  if (!out) return say_no(out.error());
  tell("{}", json::pretty(*out));
  return 0;
}

} // namespace qb::patient
