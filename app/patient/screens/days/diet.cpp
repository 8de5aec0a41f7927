// Reading the plan for what holds now.
#include "app/patient/screens/days/diet.hpp"

#include "core/session/readiness.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// A list as running words; none is "nothing", a long one has a page of its own.
std::string list_words(const view& v, const std::vector<std::string>& all) {
  constexpr std::size_t few = 1; // more do not fit a row
  if (all.empty()) return v.t("living.now.nothing");
  if (all.size() > few) return v.t("living.now.fits");
  return all.front();
}

// Of two windows that both speak of food, the one that began later holds.
const preparation_window* food_now(const view& v) {
  const preparation_window* out = nullptr;
  for (const planned_window& w : v.now.holding) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    if (rule != nullptr && (rule->eat || rule->drink)) out = rule;
  }
  return out;
}

} // namespace

bool evening_list_done(const view& v) {
  return std::any_of(v.s.checklists.begin(), v.s.checklists.end(),
                     [](const noted_list& c) { return c.what.name == "evening"; });
}

instant morning_begins(const view& v) {
  instant out = instant::min();
  for (const planned_window& w : v.s.planned->what.windows)
    out = std::max(out, w.from);
  return (out == instant::min() ? v.s.planned->what.start : out) - confirms_from;
}

bool morning_list_done(const view& v) {
  return std::any_of(v.s.checklists.begin(), v.s.checklists.end(), [&](const noted_list& c) {
    return c.what.name == "morning" && c.at.wall >= morning_begins(v);
  });
}

std::optional<std::string> confirmable_now(const view& v) {
  const plan& what = v.s.planned->what;
  std::optional<std::string> out;
  for (const planned_window& w : what.windows) {
    const duration half = (w.until - w.from) / 2; // later than that a press proves little
    const bool around = w.from - confirms_from <= v.at.wall && v.at.wall < w.from + half;
    const bool has_words = v.t.has("living.confirm." + w.rule);
    if (w.until != what.start || !around || !has_words) continue;
    if (confirmation_of(v.s, w.rule) == nullptr) out = w.rule; // the latest to begin
  }
  return out;
}

std::vector<fact> rows_of_now(const view& v) {
  const preparation_window* food = food_now(v);
  const std::string usual = v.t("living.now.usual");
  std::vector<fact> rows;
  rows.push_back(
      {v.t("living.now.eat"), food != nullptr && food->eat ? list_words(v, *food->eat) : usual});
  rows.push_back({v.t("living.now.drink"),
                  food != nullptr && food->drink ? list_words(v, *food->drink) : usual});
  rows.push_back({v.t("living.now.medicines"), v.t("living.now.prescribed")});
  for (const planned_window& w : v.now.holding) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    if (rule == nullptr || rule->eat || rule->drink) continue;
    rows.push_back({v.t("living.now.do"), rule_words(v, *v.s.test, w.rule)});
  }
  return rows;
}

bool has_foods(const view& v) {
  const auto& all = v.s.planned->what.windows;
  return std::any_of(all.begin(), all.end(), [&](const planned_window& w) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    return rule != nullptr && rule->eat && !rule->eat->empty() && v.at.wall < w.until;
  });
}

} // namespace qb::inline screens
