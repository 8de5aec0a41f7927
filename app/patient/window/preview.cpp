// Draft to plan: dates in, a plan or the reasons against it out.
#include "app/patient/window/preview.hpp"

#include <charconv>

namespace qb {

namespace {

using drafts_map = std::map<std::string, std::string>;

constexpr int morning_hour = 7; // the start that is offered first: half past seven, after a night
constexpr int morning_minute = 30;
constexpr std::chrono::minutes stride{15}; // steppers go by quarters of an hour

const offered_test* chosen_test(drafts_map& drafts, const std::vector<offered_test>& tests) {
  for (const offered_test& t : tests) {
    if (t.id == drafts[draft::test]) return &t;
  }
  return tests.empty() ? nullptr : &tests.front();
}

std::vector<last_dose> told_doses(const drafts_map& drafts, const protocol& p) {
  std::vector<last_dose> out;
  for (const washout& w : p.washouts) {
    const auto told = drafts.find(dose_key(w.why.rule));
    if (told == drafts.end()) continue;
    if (const auto date = parse_date(told->second)) out.push_back({w.why.rule, *date});
  }
  return out;
}

void put(drafts_map& drafts, civil_time t) {
  const auto midnight = std::chrono::floor<std::chrono::days>(t);
  drafts[draft::date] = date_text(date_of(t));
  drafts[draft::minute] = std::to_string((t - midnight).count());
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
  constexpr std::chrono::hours first_light{6};
  const auto since_midnight = t - std::chrono::floor<std::chrono::days>(t);
  return since_midnight < first_light ? next_morning(t) : t;
}

std::optional<civil_time> drafted_start(const drafts_map& drafts) {
  const auto date = drafts.find(draft::date);
  const auto minute = drafts.find(draft::minute);
  if (date == drafts.end() || minute == drafts.end()) return std::nullopt;
  const auto day = parse_date(date->second);
  int minutes = -1;
  const std::string& text = minute->second;
  std::from_chars(text.data(), text.data() + text.size(), minutes);
  constexpr int minutes_in_day = 24 * 60;
  if (!day || minutes < 0 || minutes >= minutes_in_day) return std::nullopt;
  return at(*day, 0, 0) + std::chrono::minutes{minutes};
}

fold told_fold(drafts_map& drafts) {
  const std::string& text = drafts[draft::fold];
  if (text == "first") return fold::first;
  return text == "second" ? fold::second : fold::unasked;
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

} // namespace

plan_preview preview_plan(drafts_map& drafts, const std::vector<offered_test>& tests, instant now,
                          const zone& z) {
  plan_preview out;
  const offered_test* test = chosen_test(drafts, tests);
  if (test == nullptr) return out;
  const auto doses = told_doses(drafts, test->test);
  const earliest_start first = find_earliest(test->test, doses, now, z);
  const civil_time earliest = by_day(rounded_up(z.civil_at(first.at) + std::chrono::minutes{1}));
  if (drafts["plan.use_earliest"] == "yes") {
    drafts["plan.use_earliest"].clear();
    put(drafts, taken_instead(drafted_start(drafts), earliest, z));
  }
  if (!drafted_start(drafts)) put(drafts, next_morning(earliest));
  const civil_time start = *drafted_start(drafts);

  const auto earliest_at = resolve_start(earliest, z, fold::first);
  out.earliest_text = day_and_time(earliest_at.value_or(first.at), now, z);
  out.earliest_rule = first.binding_rule;
  out.twofold = std::holds_alternative<twofold_time>(z.meaning_of(start));
  const auto resolved = resolve_start(start, z, told_fold(drafts));
  if (!resolved) {
    out.start_text = civil_text(start);
    if (!out.twofold) out.problem = sentence(resolved.error());
    const civil_meaning meaning = z.meaning_of(start);
    if (const auto* jumped = std::get_if<missing_time>(&meaning))
      out.next_that_exists = jumped->after;
    return out;
  }
  out.start_text = day_and_time(*resolved, now, z);
  out.broken = rules_broken(test->test, doses, *resolved, now, z);
  if (out.broken.empty()) {
    if (auto p = make_plan(test->test, *resolved, z)) out.possible = std::move(*p);
  }
  return out;
}

} // namespace qb
