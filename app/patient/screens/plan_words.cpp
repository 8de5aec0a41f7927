// The words of a plan, and small helpers of the preparation screens.
#include "app/patient/screens/plan_words.hpp"

#include <algorithm>

namespace qb {

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

moment_state by_now(const view& v, instant at) {
  return at <= v.at.wall ? moment_state::past : moment_state::next;
}

// A medicine that is still taken: only the prescriber can say that it may be paused.
dated_moment still_taken(const view& v, const std::string& name, civil_date pause) {
  const instant from = midnight_of(v, pause);
  if (from <= v.at.wall)
    return {
        from,
        {day_words(v, today(v)), v.t("timeline.still-today", {{"name", name}}), moment_state::now}};
  return {from,
          {v.t("timeline.before", {{"day", day_words(v, pause)}}),
           v.t("timeline.still", {{"name", name}, {"day", day_words(v, pause)}}),
           moment_state::next}};
}

// One row a medicine, from what was told of it: none taken is no row, and nobody is told to stop.
void add_washouts(const view& v, const ui_state& u, const protocol& p, const plan& what,
                  std::vector<dated_moment>& out) {
  for (const planned_washout& w : what.washouts) {
    const std::string told = draft_of(u, dose_key(w.rule));
    if (told == "none") continue;
    const std::string name = rule_words(v, p, w.rule);
    const auto dose = parse_date(told);
    const civil_date last = dose ? *dose : w.last_dose_on_or_before;
    const civil_date pause = plus_days(w.last_dose_on_or_before, std::chrono::days{1});
    const std::string own = "timeline.still." + w.rule;
    if (told == "still" && !v.t.has(own)) {
      out.push_back(still_taken(v, name, pause));
      continue;
    }
    const instant after = midnight_of(v, plus_days(last, std::chrono::days{1}));
    const std::string words = told == "still" ? v.t(own)
                              : dose          ? v.t("timeline.last-dose", {{"name", name}})
                                              : v.t("timeline.washout", {{"name", name}});
    // Without an answer, or while it is taken, nothing is done that could be ticked.
    const moment_state state = dose ? by_now(v, after) : moment_state::next;
    out.push_back({after, {day_words(v, told == "still" ? today(v) : last), words, state}});
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
  if (const preparation_window* w = find_window(p, rule)) return w->text;
  if (const washout* w = find_washout(p, rule)) return w->text;
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

std::string start_words(const view& v, instant t) {
  const std::string shown = when(v, t);
  const civil_meaning meaning = v.z.meaning_of(v.z.civil_at(t));
  const auto* twice = std::get_if<twofold_time>(&meaning);
  if (twice == nullptr) return shown;
  return v.t(t < twice->second ? "prepare.before-back" : "prepare.after-back", {{"at", shown}});
}

std::vector<moment> plan_moments(const view& v, const ui_state& u, const protocol& p,
                                 const plan& what) {
  std::vector<dated_moment> all;
  add_washouts(v, u, p, what, all);
  add_windows(v, p, what, all);
  const std::string last = std::to_string(what.samples.size());
  all.push_back(
      {what.start, {start_words(v, what.start), v.t("timeline.start"), by_now(v, what.start)}});
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

void laboratory_facts(kit& k, const view& v) {
  big_figure(k, "laboratory", v.lab.name, v.lab.telephone);
  quiet_text(k, "laboratory-hours", v.lab.telephone_hours);
}

const offered_test* find_test(const view& v, const std::string& id) {
  for (const offered_test& t : v.tests) {
    if (t.id == id) return &t;
  }
  return nullptr;
}

std::string draft_of(const ui_state& u, const std::string& key) {
  const auto found = u.text.find(key);
  return found == u.text.end() ? std::string{} : found->second;
}

bool is_ticked(const ui_state& u, const std::string& id) {
  return std::find(u.ticked.begin(), u.ticked.end(), id) != u.ticked.end();
}

void turn_tick(ui_state& u, const std::string& id) {
  const auto at = std::find(u.ticked.begin(), u.ticked.end(), id);
  if (at == u.ticked.end()) {
    u.ticked.push_back(id);
  } else {
    u.ticked.erase(at);
  }
}

void open_side(ui_state& u, const std::string& name) {
  u.open = name;
  u.page = 0;
}

} // namespace qb
