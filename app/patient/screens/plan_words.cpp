// The words of a plan, and small helpers of the preparation screens.
#include "app/patient/screens/plan_words.hpp"

#include "app/patient/screens/reach.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

struct dated_moment {
  instant at;
  moment shown;
};

instant midnight_of(const view& v, civil_date date) {
  const civil_meaning meaning = v.z.meaning_of(at(date, 0, 0));
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
  return std::get<missing_time>(meaning).jump;
}

// In the night the clocks go back, which of the two times it is.
std::string here_words(const view& v, instant t) {
  const std::string shown = when(v, t);
  const civil_meaning meaning = v.z.meaning_of(v.z.civil_at(t));
  const auto* twice = std::get_if<twofold_time>(&meaning);
  if (twice == nullptr) return shown;
  return v.t(t < twice->second ? "prepare.before-back" : "prepare.after-back", {{"at", shown}});
}

moment_state by_now(const view& v, instant at) {
  return at <= v.at.wall ? moment_state::past : moment_state::next;
}

// What was told of one washout as a row; nothing where there is nothing to say.
std::optional<dated_moment> reported_moment_of(const view& v, const washout& w,
                                               const reported_washout& told) {
  const word_args name{{"name", w.name}, {"who", told.who}};
  switch (told.what.answer) {
  case washout_answer::never: return std::nullopt;
  case washout_answer::last_on:
  case washout_answer::until: {
    if (!told.what.on) return std::nullopt;
    const instant after = midnight_of(v, plus_days(*told.what.on, std::chrono::days{1}));
    const bool happened = w.kind == washout_kind::happening;
    return dated_moment{
        after,
        {day_words(v, *told.what.on),
         v.t(happened ? "screening.moment.happened" : "screening.moment.last-dose", name),
         by_now(v, after)}};
  }
  case washout_answer::cannot_stop:
  case washout_answer::unknown: break;
  }
  // It goes on, or nobody knows: somebody said to go on, or is still to be asked.
  const bool goes_on = told.what.answer == washout_answer::cannot_stop;
  const std::string words = !told.what.agreed ? "screening.moment.ask"
                            : goes_on         ? "screening.moment.goes-on"
                                              : "screening.moment.agreed";
  return dated_moment{v.at.wall, {day_words(v, today(v)), v.t(words, name), moment_state::now}};
}

// One row a washout, from what was told of it: none taken is no row, and nobody is told to stop.
void add_washouts(const view& v, const protocol& p, const plan& what,
                  std::vector<dated_moment>& out) {
  for (const planned_washout& planned : what.washouts) {
    const washout* w = find_washout(p, planned.rule);
    if (w == nullptr) continue;
    const noted_washout* told = find_noted_washout(v.s, planned.rule);
    if (told != nullptr) {
      if (auto row = reported_moment_of(v, *w, told->what)) out.push_back(std::move(*row));
      continue;
    }
    // Without an answer nothing is done that could be ticked.
    const civil_date last = planned.last_dose_on_or_before;
    out.push_back({midnight_of(v, plus_days(last, std::chrono::days{1})),
                   {day_words(v, last),
                    v.t("screening.moment.untold", {{"name", w->name}, {"text", w->text}}),
                    moment_state::next}});
  }
}

// Windows that begin together are one moment.
void add_windows(const view& v, const protocol& p, const plan& what,
                 std::vector<dated_moment>& out) {
  const std::size_t first = out.size();
  for (const planned_window& w : what.windows) {
    const bool holds = w.from <= v.at.wall && v.at.wall < w.until;
    const moment_state state = holds ? moment_state::now : by_now(v, w.from);
    const std::string words = rule_words(v, p, w.rule);
    const auto same = std::find_if(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                                   [&](const dated_moment& m) { return m.at == w.from; });
    if (same == out.end()) {
      out.push_back({w.from, {when(v, w.from), words, state}});
    } else {
      same->shown.words += ". " + words;
    }
  }
}

} // namespace

std::string rule_words(const view& v, const protocol& p, const std::string& rule) {
  const std::string key = "prepare.rule." + rule;
  if (v.t.has(key)) return v.t(key);
  if (const preparation_window* w = find_window(p, rule)) return w->name;
  if (const washout* w = find_washout(p, rule)) return w->name;
  if (const caution* c = find_caution(p, rule)) return c->name;
  const std::string own = "screening.rule." + rule;
  if (v.t.has(own)) return v.t(own);
  return rule;
}

std::string day_words(const view& v, civil_date date) {
  const unsigned weekday = weekday_of(date).iso_encoding();
  const unsigned month{date.month()};
  return v.t("prepare.day", {{"weekday", v.t("prepare.weekday." + std::to_string(weekday))},
                             {"day", std::to_string(static_cast<unsigned>(date.day()))},
                             {"month", v.t("prepare.month." + std::to_string(month))}});
}

civil_date today(const view& v) {
  return date_of(v.z.civil_at(v.at.wall));
}

std::string span_words(const view& v, duration d) {
  const auto days = std::chrono::floor<std::chrono::days>(d).count();
  if (days >= 2) return v.t("prepare.days", {{"n", std::to_string(days)}});
  return length_in_words(std::chrono::floor<std::chrono::minutes>(d));
}

std::string span_up_words(const view& v, duration d) {
  const auto days = std::chrono::ceil<std::chrono::days>(d);
  if (days.count() > 2) return span_words(v, days);
  return span_words(v, std::chrono::ceil<std::chrono::minutes>(d));
}

std::string zone_words(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string start_words(const view& v, instant t) {
  const std::string here = here_words(v, t);
  if (v.plan_zone == nullptr || v.plan_zone->name() == v.z.name()) return here;
  const civil_time there = v.plan_zone->civil_at(t);
  const civil_time now_here = v.z.civil_at(t);
  if (there == now_here) return here;
  const bool same_day = date_of(there) == date_of(now_here);
  return v.t("screening.both-zones",
             {{"here", here},
              {"there", same_day ? clock_text(there) : day_and_time(t, v.at.wall, *v.plan_zone)},
              {"zone", zone_words(v.plan_zone->name())}});
}

std::vector<moment> plan_moments(const view& v, const protocol& p, const plan& what) {
  std::vector<dated_moment> all;
  add_washouts(v, p, what, all);
  add_windows(v, p, what, all);
  const std::string last = std::to_string(what.samples.size());
  const bool stands = what.zone_name != v.z.name();
  all.push_back({what.start,
                 {stands ? start_words(v, what.start) : here_words(v, what.start),
                  v.t("timeline.start"), by_now(v, what.start)}});
  all.push_back(
      {what.ends, {when(v, what.ends), v.t("timeline.end", {{"n", last}}), by_now(v, what.ends)}});
  const instant post = midnight_of(v, plus_days(what.post_on_or_before, std::chrono::days{1}));
  all.push_back(
      {post, {day_words(v, what.post_on_or_before), v.t("timeline.post"), by_now(v, post)}});
  std::stable_sort(all.begin(), all.end(),
                   [](const dated_moment& a, const dated_moment& b) { return a.at < b.at; });
  std::vector<moment> out;
  for (const dated_moment& m : all)
    out.push_back(m.shown);
  return out;
}

void laboratory_facts(toolkit& k, const view& v) {
  whom_to_call(k, "laboratory", {v.lab.name, v.lab.telephone, v.lab.telephone_hours});
  outside_line(k, v);
}

std::vector<choice> releaser_choices(const view& v, const std::vector<releaser>& may) {
  std::vector<choice> out;
  out.reserve(may.size());
  for (const releaser r : may)
    out.push_back({key_of(r), v.t(std::string("screening.releaser.") + key_of(r)), ""});
  return out;
}

const offered_test* find_test(const view& v, const std::string& id) {
  for (const offered_test& t : v.tests) {
    if (t.id == id) return &t;
  }
  return nullptr;
}

std::string& line_of(std::optional<std::string>& draft) {
  return draft ? *draft : draft.emplace();
}

bool is_ticked(const ui_state& u, const std::string& id) {
  return std::find(u.drafts.ticked.begin(), u.drafts.ticked.end(), id) != u.drafts.ticked.end();
}

void turn_tick(ui_state& u, const std::string& id) {
  const auto at = std::find(u.drafts.ticked.begin(), u.drafts.ticked.end(), id);
  if (at == u.drafts.ticked.end()) {
    u.drafts.ticked.push_back(id);
  } else {
    u.drafts.ticked.erase(at);
  }
}

} // namespace qb::inline screens
