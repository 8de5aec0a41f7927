// The morning before the start: what is kept already, ticked off as it is.
// What is ticked is in the record, with the moment it was ticked.
#include "app/patient/screens/days/diet.hpp"

namespace qb::inline screens {

namespace {

// The windows up to the start that are not about food, by their ids, then what is allowed or is to
// be known.
std::vector<std::string> items_of(const view& v) {
  std::vector<std::string> out;
  for (const planned_window& w : v.s.planned->what.windows) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    const bool to_start = w.until == v.s.planned->what.start && rule != nullptr && !rule->eat;
    if (to_start) out.push_back(w.rule);
  }
  for (const char* id : {"medicines", "teeth", "mouth-rinse"})
    out.emplace_back(id);
  return out;
}

std::string words_of(const view& v, const std::string& id) {
  const std::string key = "living.morning." + id;
  return v.t.has(key) ? v.t(key) : rule_words(v, *v.s.test, id);
}

// From when a window holds, or what else there is to say.
std::string detail_of(const view& v, const std::string& id) {
  const std::string key = "living.morning.detail." + id;
  if (v.t.has(key)) return v.t(key);
  for (const planned_window& w : v.s.planned->what.windows) {
    if (w.rule == id) return v.t("living.morning.from", {{"at", when(v, w.from)}});
  }
  return "";
}

} // namespace

maybe_wish draw_morning(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  std::string turned;
  bool done = false;
  bool slip = false;
  bool back = false;
  std::vector<std::string> ticked;
  for (const std::string& id : items_of(v)) {
    if (is_ticked(u, id)) ticked.push_back(id);
  }
  const auto content = [&] {
    headline(k, "title", v.t("living.morning"));
    for (const std::string& id : items_of(v)) {
      if (check_row(k, "morning-" + id, words_of(v, id), is_ticked(u, id), detail_of(v, id)))
        turned = id;
    }
  };
  const auto actions = [&] {
    if (ticked.empty()) {
      waiting_button(k, "done", v.t("living.morning.tick"));
    } else {
      done = primary_button(k, "done", v.t("living.morning.done"));
    }
    const int pair = button_pair(k, "back", v.t("common.back"), "open-slip", v.t("living.slip"));
    back = pair == 1;
    slip = pair == 2;
  };
  auto out = framed_page(k, v, "morning", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (slip) u.nav.open_side(side_page::slip);
  if (back) u.nav.close_side();
  if (!done) return out;
  u.drafts.ticked.clear();
  u.nav.close_side();
  return wish{payload{reported_checklist{"morning", ticked}}};
}

} // namespace qb::inline screens
