// What fits the test to eat and drink, as short lists; and where to turn when nothing on them will
// do. Offered as what fits, never as what somebody must eat.
#include "app/patient/screens/days/diet.hpp"

namespace qb::inline screens {

namespace {

std::string lines_of(const std::vector<std::string>& all) {
  std::string out;
  for (const std::string& one : all)
    out += (out.empty() ? "" : "\n") + one;
  return out;
}

void show_list(toolkit& k, const view& v, const std::string& key, const std::string& title,
               const std::vector<std::string>& all) {
  heading(k, key + "-title", title);
  paragraph(k, key, all.empty() ? v.t("living.now.nothing") : lines_of(all));
}

maybe_wish draw_lists(toolkit& k, const view& v, ui_state& u) {
  bool done = false;
  bool nothing = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.foods"));
    notice(k, "allergic", notice_kind::note, v.t("living.foods.not-if"));
    for (const planned_window& w : v.s.planned->what.windows) {
      const preparation_window* rule = find_window(*v.s.test, w.rule);
      if (rule == nullptr || v.at.wall >= w.until || (!rule->eat && !rule->drink)) continue;
      heading(k, "window-" + w.rule,
              v.t("living.foods.window",
                  {{"name", rule->name}, {"from", when(v, w.from)}, {"until", when(v, w.until)}}));
      if (rule->eat) show_list(k, v, "eat-" + w.rule, v.t("living.now.eat"), *rule->eat);
      if (rule->drink) show_list(k, v, "drink-" + w.rule, v.t("living.now.drink"), *rule->drink);
    }
  };
  const auto actions = [&] {
    done = primary_button(k, "close", v.t("common.close"));
    nothing = secondary_button(k, "nothing-for-me", v.t("living.foods.nothing"));
  };
  auto out = framed_page(k, v, "foods", content, actions);
  if (done) u.nav.close_side();
  if (nothing) u.nav.page = foods_page::nothing;
  return out;
}

maybe_wish draw_nothing(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.nothing"));
    picture(k, "picture", picture_of::phone, v.t("choose.ask.picture"), true);
    paragraph(k, "why", v.t("living.nothing.why"));
    laboratory_facts(k, v);
    paragraph(k, "until", v.t("living.nothing.until"));
  };
  const auto actions = [&] { back = primary_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "foods-nothing", content, actions);
  if (back) u.nav.page = foods_page::lists;
  return out;
}

} // namespace

maybe_wish draw_foods(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  return u.nav.page_in<foods_page>() == foods_page::nothing ? draw_nothing(k, v, u)
                                                            : draw_lists(k, v, u);
}

// A low blood sugar is treated at once: the test never stands against it.
maybe_wish draw_low_sugar(toolkit& k, const view& v, ui_state& u) {
  bool tell = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.low"));
    strong(k, "now", v.t("living.low.now"));
    notice(k, "emergency", notice_kind::needs_you,
           v.t("living.low.emergency", {{"call", v.lab.emergency}}));
    paragraph(k, "then", v.t("living.low.then"));
  };
  const auto actions = [&] {
    tell = secondary_button(k, "open-slip", v.t("living.low.tell"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "low-sugar", content, actions);
  if (tell) u.nav.open_side(side_page::slip);
  if (back) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
