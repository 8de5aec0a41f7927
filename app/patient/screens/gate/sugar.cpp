// Dissolve or open the sugar and set it aside: the drink must stand ready before tube 1.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/going_on.hpp"

namespace qb::inline screens {

namespace {

// One thing after another, each as the protocol has it.
void list(toolkit& k, const view& v, const std::string& name, const std::vector<advice>& all) {
  for (std::size_t i = 0; i < all.size(); ++i)
    paragraph(k, name + "-" + std::to_string(i + 1),
              v.t("screening.sign", {{"what", all[i].text}}));
}

// What is usual for some hours, and what is not: read before the drink, when it can still be left.
maybe_wish draw_expected(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("sugar.expect.title"));
    list(k, v, "expected", v.s.test->expected);
    heading(k, "not", v.t("sugar.expect.not"));
    notice(k, "emergency", notice_kind::needs_you,
           v.t("sugar.expect.call", {{"call", v.lab.emergency}}));
    list(k, v, "not-expected", v.s.test->not_expected);
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("sugar.expect.read"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "sugar-expect", content, actions);
  if (back) u.nav.page = sugar_page::prepare;
  if (on) return wish{payload{sugar_set_aside{}}};
  return out;
}

} // namespace

maybe_wish draw_sugar(toolkit& k, const view& v, ui_state& u) {
  if (u.nav.page_in<sugar_page>() == sugar_page::expect) return draw_expected(k, v, u);
  bool ready = false;
  bool later = false;
  bool drunk = false;
  const substrate& sugar = v.s.test->sugar;
  const reported_packet dose = right_packet(v.s);
  const bool syrup = v.s.planned->form == "syrup";
  const auto content = [&] {
    headline(k, "title", real_words(v, syrup ? "sugar.title.syrup" : "sugar.title.powder"));
    picture(k, "picture", syrup ? picture_of::syrup_glass : picture_of::sugar_glass,
            v.t("sugar.picture"), true);
    paragraph(k, "how",
              real_words(v, syrup ? "sugar.how.syrup" : "sugar.how.powder",
                         {{"sugar", sugar.name},
                          {"dose", std::to_string(dose.amount)},
                          {"unit", dose.unit},
                          {"ml", std::to_string(sugar.water_ml)}}));
    strong(k, "not-yet", v.t("sugar.not-yet"));
  };
  const auto actions = [&] {
    ready = primary_button(k, "sugar-ready", v.t("sugar.ready"));
    const int which =
        button_pair(k, "open-choose", v.t("sugar.later.short"), "drank-first", v.t("drink.first"));
    later = which == 1;
    drunk = which == 2;
  };
  auto out = framed_page(k, v, "sugar", content, actions);
  if (drunk) open_reported_drink(v, u);
  if (later) u.nav.open_side(side_page::choose); // before the drink, moving the start costs nothing
  if (!ready) return out;
  // Rules of before version 2 have nothing to say here.
  if (v.s.test->expected.empty()) return wish{payload{sugar_set_aside{}}};
  u.nav.page = sugar_page::expect;
  return out;
}

} // namespace qb::inline screens
