// The program was off and is back: for whom, for how long, and what passed meanwhile.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

std::string off_words(const view& v) {
  return v.off < std::chrono::minutes{1} ? v.t("return.moment") : length_in_words(v.off);
}

} // namespace

maybe_wish draw_return(kit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("return.title"));
    picture(k, "picture", picture_of::clock, v.t("return.picture"), true);
    if (v.s.person)
      facts(k, "who",
            {{v.t("return.name"), v.s.person->name}, {v.t("return.kit"), v.s.person->kit_number}});
    paragraph(k, "kept", v.t("return.kept", {{"off", off_words(v)}}));
    if (v.due_while_off)
      notice(k, "due", notice_kind::needs_you,
             v.t("return.missed", {{"n", number_text(*v.due_while_off)},
                                   {"due", when(v, due_on_wall(v.s, *v.due_while_off, v.at))}}));
    quiet_text(k, "other", v.t("return.other", {{"tel", v.lab.telephone}}));
  };
  const auto actions = [&] { on = primary_button(k, "go-on", v.t("return.go-on")); };
  auto out = framed_page(k, v, "return", content, actions, page_kind::timed);
  if (on) u.open.clear();
  return out;
}

} // namespace qb
