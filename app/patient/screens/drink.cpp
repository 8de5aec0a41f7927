// The drink: all of it, at once. Its start and its end are recorded.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

maybe_wish not_started(kit& k, const view& v) {
  bool start = false;
  bool again = false;
  const auto content = [&] {
    headline(k, "title", v.t("drink.title"));
    if (v.now.drink_overdue) notice(k, "overdue", notice_kind::needs_you, v.t("drink.overdue"));
    picture(k, "picture", picture_of::drink, v.t("drink.picture"), true);
    paragraph(k, "how", v.t("drink.how", {{"sugar", v.s.test->sugar.name}}));
    quiet_text(k, "press", v.t("drink.press"));
  };
  const auto actions = [&] {
    if (v.now.drink_overdue) again = primary_button(k, "tube-1-again", v.t("drink.tube-1-again"));
    start = v.now.drink_overdue ? secondary_button(k, "drink-start", v.t("drink.start"))
                                : primary_button(k, "drink-start", v.t("drink.start"));
  };
  auto out = framed_page(k, v, "drink", content, actions, page_kind::timed);
  if (again) return wish{payload{repeat_wanted{sample_number(1), "the drink was delayed"}}};
  if (start) return wish{payload{drink_started{}}};
  return out;
}

maybe_wish started(kit& k, const view& v) {
  bool all = false;
  bool part = false;
  const auto content = [&] {
    headline(k, "title", v.t("drinking.title"));
    picture(k, "picture", picture_of::drink, v.t("drink.picture"), true);
    paragraph(k, "how", v.t("drinking.how"));
    big_figure(k, "since", v.t("drinking.since"), clock_of(v, v.s.drink_start->at.wall));
  };
  const auto actions = [&] {
    all = primary_button(k, "drink-end", v.t("drinking.all"));
    part = quiet_button(k, "drink-part", v.t("drinking.part"));
  };
  auto out = framed_page(k, v, "drinking", content, actions, page_kind::timed);
  if (all) return wish{payload{drink_ended{true}}};
  if (part) return wish{payload{drink_ended{false}}};
  return out;
}

} // namespace

maybe_wish draw_drink(kit& k, const view& v, ui_state&) {
  return v.now.what == step::drink ? not_started(k, v) : started(k, v);
}

} // namespace qb
