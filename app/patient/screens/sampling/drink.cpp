// The drink: all of it, at once. Its start and its end are recorded.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/reach.hpp"

namespace qb::inline screens {

namespace {

maybe_wish not_started(toolkit& k, const view& v, ui_state& u) {
  bool start = false;
  bool already = false;
  bool again = false;
  const auto content = [&] {
    headline(k, "title",
             real_words(v, v.now.drink_overdue ? "drink.title.overdue" : "drink.title"));
    if (v.now.drink_overdue) notice(k, "overdue", notice_kind::needs_you, v.t("drink.overdue"));
    if (v.now.drink_overdue) return; // nothing here says to drink now
    picture(k, "picture", picture_of::drink, v.t("drink.picture"), true);
    paragraph(k, "how", real_words(v, "drink.how", {{"sugar", v.s.test->sugar.name}}));
    quiet_text(k, "press", v.t("drink.press"));
  };
  const auto actions = [&] {
    if (v.now.drink_overdue) again = primary_button(k, "tube-1-again", v.t("drink.tube-1-again"));
    start = v.now.drink_overdue ? secondary_button(k, "drink-start", v.t("drink.start"))
                                : primary_button(k, "drink-start", v.t("drink.start"));
    already = quiet_button(k, "drank-already", v.t("drink.already"));
  };
  auto out = framed_page(k, v, "drink", content, actions, page_kind::timed);
  if (already) open_reported_drink(v, u);
  if (again) return wish{payload{repeat_wanted{sample_number(1), "the drink was delayed"}}};
  if (start) return wish{payload{drink_started{}}};
  return out;
}

maybe_wish started(toolkit& k, const view& v, ui_state& u) {
  bool all = false;
  bool part = false;
  const auto content = [&] {
    headline(k, "title", real_words(v, "drinking.title"));
    picture(k, "picture", picture_of::drink, v.t("drink.picture"), true);
    paragraph(k, "how", real_words(v, "drinking.how"));
    quiet_text(k, "since", v.t("drinking.since", {{"at", when(v, v.s.drink_start->at.wall)}}));
  };
  const auto actions = [&] {
    all = primary_button(k, "drink-end", v.t("drinking.all"));
    part = secondary_button(k, "drink-part", v.t("drinking.part"));
  };
  auto out = framed_page(k, v, "drinking", content, actions, page_kind::timed);
  if (all) u.nav.close_side();
  if (part) open_drink_trouble(v, u, drink_mishap::unfinished);
  if (all) return wish{payload{drink_ended{true}}};
  if (part) return wish{payload{drink_ended{false}}};
  return out;
}

} // namespace

maybe_wish draw_drink(toolkit& k, const view& v, ui_state& u) {
  return v.now.what == step::drink ? not_started(k, v, u) : started(k, v, u);
}

maybe_wish draw_drink_again(toolkit& k, const view& v, ui_state& u) {
  if (v.s.drink_start) return started(k, v, u);
  u.nav.close_side();
  return std::nullopt;
}

maybe_wish draw_drink_part(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("drink-part.title"));
    picture(k, "picture", picture_of::phone, v.t("drink-part.picture"), true);
    calling_paragraph(k, v, "what", "drink-part.what");
  };
  const auto actions = [&] { on = primary_button(k, "go-on", v.t("drink-part.go-on")); };
  auto out = framed_page(k, v, "drink-part", content, actions, page_kind::timed);
  if (on) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
