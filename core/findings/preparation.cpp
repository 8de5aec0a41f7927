// From the rules' standing at the start and from what was told to findings, each with its events.
#include "core/findings/preparation.hpp"
#include "core/session/readiness.hpp"
#include "core/session/slip_meaning.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline findings {

namespace {

using list = std::vector<finding>;

// In the unit of the rule: whole days, else whole seconds.
std::int64_t figure_of(duration d, bool in_days) {
  return in_days ? std::chrono::floor<std::chrono::days>(d).count()
                 : std::chrono::duration_cast<std::chrono::seconds>(d).count();
}

void noted_slips(const state& s, instant start, const zone& z, list& out) {
  for (const noted_slip& slip : s.slips) {
    const slip_meaning m = meaning_at(s, slip.what, start, z);
    std::string words = fmt::format("{}, told for {}", slip_in_words(*s.test, slip.what),
                                    day_and_time(slip.what.when, start, z));
    if (!slip.what.words.empty()) words += " (" + slip.what.words + ")";
    // Food, sleep or smoke between the first tube and the last is no rule's of the time before.
    const bool in_the_test = s.grid && slip.what.when >= start;
    const consequence weight = in_the_test ? consequence::review : consequence::note;
    finding f{slip.what.rule, m.weight.value_or(weight), {}, {slip.seq}, {}, ""};
    if (!m.rule.empty()) {
      f.rule = m.rule;
      f.figures = {figure_of(*m.kept, m.in_days), figure_of(m.asked, m.in_days)};
      const preparation_window* w = find_window(*s.test, m.rule);
      words += fmt::format(": {} of {}", span_in_words(*m.kept, m.in_days),
                           span_in_words(m.asked, m.in_days));
      words += w == nullptr ? std::string(" kept") : fmt::format(" of '{}' kept", w->name);
    } else if (in_the_test) {
      words += ": during the test";
    } else if (!m.weight) {
      words += ": not in the time of a rule it could touch";
    }
    f.words = std::move(words);
    out.push_back(std::move(f));
  }
}

// Questions nobody answered, as one line: a long list of them would hide the rest.
void unanswered(const std::vector<rule_check>& checks, list& out) {
  constexpr std::int64_t named = 3; // more names than that read badly on one line
  std::int64_t count = 0;
  std::string names;
  for (const rule_check& c : checks) {
    if (!c.unanswered) continue;
    ++count;
    if (count <= named) names += (names.empty() ? "" : ", ") + c.name;
  }
  if (count == 0) return;
  std::string words = fmt::format("{} question{} of the preparation not answered: {}", count,
                                  count == 1 ? "" : "s", names);
  if (count > named) words += " and others";
  out.push_back({"not-answered", consequence::note, {}, {}, {count}, std::move(words)});
}

// Without a kit code what another sugar must never meet is asked as well; of a question this
// protocol does not have, the record knows the id only.
void other_questions(const state& s, list& out) {
  for (const noted_caution& told : s.cautions) {
    const reported_caution& what = told.what;
    const bool own = find_caution(*s.test, what.rule) != nullptr;
    if (own || what.answer == caution_answer::no) continue;
    const bool go_on = what.outcome == asked_outcome::go_on;
    std::string words = fmt::format("asked for another sugar ({}): {}", what.rule,
                                    what.answer == caution_answer::yes ? "yes" : "not sure");
    words += go_on ? "; may go on, said " + what.who : "; nobody said to go on";
    out.push_back({what.rule,
                   go_on ? consequence::note : consequence::review,
                   {},
                   told.seqs,
                   {},
                   std::move(words)});
  }
}

void moves(const state& s, instant start, const zone& z, list& out) {
  finding moved{"start-moved", consequence::note, {}, {}, {}, ""};
  finding off{"called-off", consequence::note, {}, {}, {}, ""};
  for (const earlier_plan& p : s.earlier_plans) {
    finding& f = p.called_off ? off : moved;
    if (f.events.empty())
      f.words = "first planned for " + day_and_time(p.what.what.start, start, z);
    if (!p.reason.empty()) f.words += "; " + p.reason;
    f.events.push_back(p.seq);
  }
  for (finding* f : {&moved, &off}) {
    const auto times = static_cast<std::int64_t>(f->events.size());
    if (times == 0) continue;
    f->figures = {times};
    f->words = fmt::format("{} {}: {}", f == &moved ? "start moved" : "test called off",
                           times == 1 ? "once" : fmt::format("{} times", times), f->words);
    out.push_back(std::move(*f));
  }
}

// What the gate showed as not kept and really was not: who opened it early and then waited has kept
// the rest, and nothing is said of it.
void started_in_spite(const state& s, const std::vector<rule_check>& checks, list& out) {
  if (!s.ready) return;
  std::vector<std::string> short_of;
  for (const std::string& rule : s.ready_not_kept) {
    const auto kept = [&](const rule_check& c) { return c.rule == rule && !is_not_kept(c); };
    if (std::none_of(checks.begin(), checks.end(), kept)) short_of.push_back(rule);
  }
  if (short_of.empty()) return;
  std::string names;
  for (const std::string& rule : short_of)
    names += (names.empty() ? "" : ", ") + name_of_rule(*s.test, rule);
  std::string words = "started with this shown as not kept: " + names;
  // Only what is below the least, or open, wants somebody's word: the rest is the person's choice.
  const bool wanted = std::any_of(checks.begin(), checks.end(), [&](const rule_check& c) {
    return needs_agreement(c) &&
           std::find(short_of.begin(), short_of.end(), c.rule) != short_of.end();
  });
  if (!s.ready_agreed.empty())
    words += fmt::format("; agreed by {} ({})", s.ready_agreed, words_of(s.ready_said_by));
  else if (wanted)
    words += "; nobody named who agreed";
  out.push_back({"started-not-kept",
                 consequence::note,
                 {},
                 {s.ready->seq},
                 {static_cast<std::int64_t>(short_of.size())},
                 std::move(words)});
}

} // namespace

std::vector<finding> preparation_found(const state& s, const clock_reading& now, instant start,
                                       const zone& z) {
  list out;
  if (!s.planned || !s.test) {
    moves(s, start, z, out); // a test that was called off for good
    return out;
  }
  const std::vector<rule_check> checks = readiness(s, now, start, z);
  for (const rule_check& c : checks) {
    if (!c.tell) continue;
    std::vector<std::int64_t> figures;
    if (c.kept) figures = {figure_of(*c.kept, c.in_days), figure_of(c.asked, c.in_days)};
    out.push_back({c.rule, *c.tell, {}, c.events, std::move(figures), c.words});
  }
  noted_slips(s, start, z, out);
  other_questions(s, out);
  unanswered(checks, out);
  moves(s, start, z, out);
  started_in_spite(s, checks, out);
  return out;
}

} // namespace qb::inline findings
