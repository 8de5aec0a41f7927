// The evening before: what to lay out, ticked off as it lies there.
#include "app/patient/screens/plan_words.hpp"

#include <array>

namespace qb {

namespace {

constexpr std::array<const char*, 7> things{"tubes", "labels", "sugar", "glass",
                                            "pen",   "power",  "alarm"};

std::string words_of(const view& v, const std::string& id) {
  const protocol& p = *v.s.test;
  return v.t("evening.item." + id, {{"n", std::to_string(p.samples())},
                                    {"ml", std::to_string(p.sugar.water_ml)},
                                    {"sugar", p.sugar.name},
                                    {"start", when(v, v.s.planned->what.start)}});
}

std::string detail_of(const view& v, const std::string& id) {
  const std::string key = "evening.detail." + id;
  return v.t.has(key) ? v.t(key) : "";
}

std::vector<std::string> ticked_things(const ui_state& u) {
  std::vector<std::string> out;
  for (const char* id : things) {
    if (is_ticked(u, id)) out.emplace_back(id);
  }
  return out;
}

} // namespace

maybe_wish draw_evening(kit& k, const view& v, ui_state& u) {
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
  if (pair == 1) open_side(u, "");
  if (pair == 2) open_side(u, "labels");
  if (done) {
    u.ticked.clear();
    open_side(u, "");
    return wish{payload{checklist_told{"evening", items}}};
  }
  return out;
}

} // namespace qb
