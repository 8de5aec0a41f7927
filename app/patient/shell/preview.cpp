// Draft to plan: dates in, a plan or the reasons against it out.
#include "app/patient/shell/preview.hpp"

#include "app/patient/screens/plan/choose_pages.hpp"

#include <algorithm>

namespace qb::inline shells {

namespace {

constexpr int morning_hour = 7; // the start that is offered first: half past seven, after a night
constexpr int morning_minute = 30;
constexpr std::chrono::minutes stride{15}; // steppers go by quarters of an hour

const offered_test* chosen_test(const plan_draft& draft, const state& s,
                                const std::vector<offered_test>& tests) {
  const std::string id = s.kit                 ? s.kit->protocol_id
                         : !draft.test.empty() ? draft.test
                         : s.planned           ? s.planned->what.protocol_id
                                               : "";
  for (const offered_test& t : tests) {
    if (t.id == id) return &t;
  }
  return tests.empty() || s.kit ? nullptr : &tests.front();
}

// The windows of a plan that has not started: each began when it was planned to, or again when
// something was told that was not kept.
void add_moments(const state& s, instant now, circumstances& out) {
  if (!s.planned || s.grid || now >= s.planned->what.start) return;
  for (const planned_window& w : s.planned->what.windows) {
    if (w.from > now) continue;
    instant last = w.from;
    for (const noted_slip& slip : s.slips) {
      if (slip.what.rule == w.rule) last = std::max(last, slip.what.when);
    }
    out.moments.push_back({w.rule, last});
  }
}

void put(plan_draft& draft, civil_time t) {
  const auto midnight = std::chrono::floor<std::chrono::days>(t);
  draft.date = date_of(t);
  draft.minute = static_cast<int>((t - midnight).count());
}

civil_time rounded_up(civil_time t) {
  const auto past = t.time_since_epoch() % stride;
  return past.count() == 0 ? t : t + (stride - past);
}

// The first half past seven at or after `t`.
civil_time next_morning(civil_time t) {
  const civil_time same_day = at(date_of(t), morning_hour, morning_minute);
  return same_day >= t
             ? same_day
             : at(plus_days(date_of(t), std::chrono::days{1}), morning_hour, morning_minute);
}

// A start in the small hours works, but nobody should be sent there: the same day's morning.
civil_time by_day(civil_time t) {
  constexpr std::chrono::hours first_light{6}; // of the clock: earlier is night to most people
  const auto since_midnight = t - std::chrono::floor<std::chrono::days>(t);
  return since_midnight < first_light ? next_morning(t) : t;
}

std::optional<civil_time> drafted_start(const plan_draft& draft) {
  constexpr int minutes_in_day = 24 * 60;
  if (!draft.date || !draft.minute || *draft.minute >= minutes_in_day) return std::nullopt;
  return at(*draft.date, 0, 0) + std::chrono::minutes{*draft.minute};
}

// What the offer on the page stands for: for a time that clocks jump over the next one there is,
// else the earliest start that works.
civil_time taken_instead(const std::optional<civil_time>& drafted, civil_time earliest,
                         const zone& z) {
  if (!drafted) return earliest;
  const civil_meaning meaning = z.meaning_of(*drafted);
  const auto* missing = std::get_if<missing_time>(&meaning);
  return missing != nullptr ? missing->after : earliest;
}

// The start to offer: full quarters of an hour, by day, where that works too.
civil_time offered(const protocol& p, const circumstances& c, instant first, instant now,
                   const zone& z) {
  const auto cut = std::chrono::floor<std::chrono::minutes>(first);
  const civil_time exact = z.civil_at(first) + std::chrono::minutes{cut < first ? 1 : 0};
  const auto works = [&](civil_time t) {
    const auto at = resolve_start(t, z, fold::first);
    return at && *at >= first && rules_broken(p, c, *at, now, z).empty();
  };
  const civil_time round = rounded_up(exact);
  if (works(by_day(round))) return by_day(round);
  return works(round) ? round : exact;
}

// Age and the kit's test are checked with the plan as well: what would be refused is not offered.
bool is_old_enough(const state& s, const protocol& p, const plan& what, const zone& z) {
  return !s.person || age_fits(p, s.person->birth_date, date_of(z.civil_at(what.ends)));
}

// What the drafted start comes to: a plan, or all that stands against it.
void judge(plan_preview& out, const state& s, const protocol& p, const circumstances& c,
           instant start, instant now, const zone& z) {
  out.broken = rules_broken(p, c, start, now, z);
  auto made = make_plan(p, start, z);
  if (!made) return;
  if (!is_old_enough(s, p, *made, z)) out.broken.push_back({p.age_why.rule, std::nullopt});
  if (out.broken.empty()) out.possible = std::move(*made);
}

} // namespace

circumstances circumstances_of(const state& s, const home_draft& home, instant now) {
  circumstances out;
  for (const noted_washout& told : s.washouts)
    out.washouts.push_back(told.what.what);
  add_moments(s, now, out);
  add_hours(home, out);
  if (s.kit) out.kit_expires = s.kit->expires;
  return out;
}

plan_preview preview_plan(plan_draft& draft, const state& s, const std::vector<offered_test>& tests,
                          instant now, const zone& z) {
  plan_preview out;
  const offered_test* test = chosen_test(draft, s, tests);
  if (test == nullptr) return out;
  const protocol& p = test->test;
  const circumstances told = circumstances_of(s, draft.home, now);
  // With a minute in hand, so that what is offered still works once it was read.
  const earliest_start first = find_earliest(p, told, now + std::chrono::minutes{1}, z);
  out.earliest_rule = first.binding_rule;
  const civil_time soonest = rounded_up(z.civil_at(now));
  const civil_time earliest = first.at ? offered(p, told, *first.at, now, z) : soonest;
  if (draft.use_earliest) {
    draft.use_earliest = false;
    put(draft, taken_instead(drafted_start(draft), earliest, z));
  }
  const auto works = [&](civil_time t) {
    const auto at = resolve_start(t, z, fold::first);
    return at && rules_broken(p, told, *at, now, z).empty();
  };
  // A day that has gone by since it was drafted is nobody's wish any more.
  const auto drafted = drafted_start(draft);
  if (!drafted || date_of(*drafted) < date_of(z.civil_at(now)))
    put(draft, works(next_morning(earliest)) ? next_morning(earliest) : earliest);
  const civil_time start = *drafted_start(draft);

  const auto earliest_at = resolve_start(earliest, z, fold::first);
  if (first.at) out.earliest_text = day_and_time(earliest_at.value_or(*first.at), now, z);
  out.twofold = std::holds_alternative<twofold_time>(z.meaning_of(start));
  const auto resolved = resolve_start(start, z, draft.which);
  if (!resolved) {
    out.start_text = civil_text(start);
    if (!out.twofold) out.problem = sentence(resolved.error());
    const civil_meaning meaning = z.meaning_of(start);
    if (const auto* jumped = std::get_if<missing_time>(&meaning))
      out.next_that_exists = jumped->after;
    return out;
  }
  out.start_text = day_and_time(*resolved, now, z);
  out.too_soon = first.at && *resolved < *first.at;
  judge(out, s, p, told, *resolved, now, z);
  return out;
}

} // namespace qb::inline shells
