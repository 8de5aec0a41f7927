// The evening before: what to lay out, ticked off as it lies there.
#include "app/patient/screens/days/diet.hpp"

#include <algorithm>
#include <array>

namespace qb::inline screens {

namespace {

constexpr std::array<const char*, 7> things{"tubes", "labels", "sugar", "glass",
                                            "pen",   "power",  "alarm"};

// When the ordinary alarm clock has to ring: when the first of the morning's windows begins. What
// holds since the evening, as not to smoke, is no reason to get up.
std::string alarm_time(const view& v) {
  const plan& what = v.s.planned->what;
  instant out = what.start;
  for (const planned_window& w : what.windows) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    const bool of_morning = w.until == what.start && w.from >= morning_begins(v);
    if (of_morning && rule != nullptr && !rule->eat) out = std::min(out, w.from);
  }
  return clock_of(v, out);
}

word_args args_of(const view& v) {
  const protocol& p = *v.s.test;
  return {{"n", std::to_string(p.samples())},
          {"first", std::to_string(p.samples() + 1)},
          {"last", std::to_string(p.tubes_in_kit)},
          {"ml", std::to_string(p.sugar.water_ml)},
          {"sugar", p.sugar.name},
          {"alarm", alarm_time(v)},
          {"start", when(v, v.s.planned->what.start)}};
}

std::string words_of(const view& v, const std::string& id) {
  return v.t("evening.item." + id, args_of(v));
}

// A kit may hold more tubes than this test fills; which stay empty is said by number.
std::string detail_of(const view& v, const std::string& id) {
  const protocol& p = *v.s.test;
  const auto filled = static_cast<int>(p.samples());
  if (id == "tubes" && p.tubes_in_kit > filled)
    return v.t(p.tubes_in_kit == filled + 1 ? "living.tubes.one-empty" : "living.tubes.empty",
               args_of(v));
  const std::string key = "evening.detail." + id;
  return v.t.has(key) ? v.t(key, args_of(v)) : "";
}

std::vector<std::string> ticked_things(const ui_state& u) {
  std::vector<std::string> out;
  for (const char* id : things) {
    if (is_ticked(u, id)) out.emplace_back(id);
  }
  return out;
}

} // namespace

maybe_wish draw_evening(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  std::string turned;
  bool done = false;
  int pair = 0;
  const auto items = ticked_things(u);
  const auto content = [&] {
    headline(k, "title", v.t("evening.title"));
    for (const char* id : things) {
      const std::string key = std::string("evening-") + id;
      if (check_row(k, key, words_of(v, id), is_ticked(u, id), detail_of(v, id))) turned = id;
    }
  };
  const auto actions = [&] {
    if (items.empty()) {
      waiting_button(k, "done", v.t("evening.tick"));
    } else {
      done = primary_button(k, "done", v.t("evening.done"));
    }
    pair = button_pair(k, "back", v.t("common.back"), "open-labels", v.t("evening.labels"));
  };
  auto out = framed_page(k, v, "evening", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (pair == 1) u.nav.close_side();
  if (pair == 2) u.nav.open_side(side_page::labels);
  if (done) {
    u.drafts.ticked.clear();
    u.nav.close_side();
    return wish{payload{reported_checklist{"evening", items}}};
  }
  return out;
}

} // namespace qb::inline screens
