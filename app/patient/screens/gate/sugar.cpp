// Dissolve or open the sugar and set it aside: the drink must stand ready before tube 1.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

namespace qb {

maybe_wish draw_sugar(toolkit& k, const view& v, ui_state& u) {
  bool ready = false;
  bool later = false;
  bool drunk = false;
  const substrate& sugar = v.s.test->sugar;
  const bool syrup = v.s.planned->form == "syrup";
  const auto content = [&] {
    headline(k, "title", real_words(v, syrup ? "sugar.title.syrup" : "sugar.title.powder"));
    picture(k, "picture", syrup ? picture_of::syrup_glass : picture_of::sugar_glass,
            v.t("sugar.picture"), true);
    paragraph(k, "how",
              v.t(syrup ? "sugar.how.syrup" : "sugar.how.powder",
                  {{"sugar", sugar.name}, {"ml", std::to_string(sugar.water_ml)}}));
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
  if (ready) return wish{payload{sugar_set_aside{}}};
  return out;
}

} // namespace qb
