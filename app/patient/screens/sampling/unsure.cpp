// A breath was begun and nobody saw the tube closed (the program was off, or the person away):
// it is asked, not assumed.
#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

maybe_wish draw_unsure(toolkit& k, const view& v, ui_state& u) {
  bool yes = false;
  bool no = false;
  const duration began = between(v.s.breath->began, v.at).length;
  const auto content = [&] {
    headline(k, "title", v.t("unsure.title", {{"n", number_text(*v.now.sample)}}));
    picture(k, "picture", picture_of::close_lid, v.t("unsure.picture"), true);
    paragraph(k, "why",
              v.t("unsure.why", {{"n", number_text(*v.now.sample)},
                                 {"ago", length_in_words(began)},
                                 {"at", when(v, v.at.wall - began)}}));
  };
  const auto actions = [&] {
    yes = primary_button(k, "unsure-yes", v.t("unsure.yes"));
    no = secondary_button(k, "unsure-no", v.t("unsure.no"));
  };
  auto out = framed_page(k, v, "unsure", content, actions, page_kind::timed);
  if (yes) open_tell(v, u, *v.now.sample, std::chrono::duration_cast<std::chrono::minutes>(began));
  if (no) return wish{payload{breath_abandoned{*v.now.sample, "not taken"}}};
  return out;
}

} // namespace qb::inline screens
