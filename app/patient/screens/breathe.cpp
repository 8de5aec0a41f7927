// A tube is due, late, or to be blown again: which tube, and the one press that begins.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

std::string headline_of(const view& v) {
  const word_args n{{"n", number_text(*v.now.sample)}};
  if (v.now.repeating) return v.t("breathe.title.again", n);
  if (*v.now.sample == sample_number(1)) return v.t("breathe.title.first", n);
  return v.t("breathe.title.now", n);
}

} // namespace

maybe_wish draw_breathe(kit& k, const view& v, ui_state& u) {
  bool begin = false;
  bool already = false;
  bool jump = false;
  const bool late =
      v.now.to_due && !v.now.repeating && -*v.now.to_due > v.s.profile->bounds.on_time;
  const auto content = [&] {
    headline(k, "title", headline_of(v));
    if (late)
      notice(k, "late", notice_kind::needs_you,
             v.t("breathe.late", {{"n", number_text(*v.now.sample)},
                                  {"due", clock_of(v, v.at.wall + *v.now.to_due)},
                                  {"by", length_in_words(*v.now.to_due)},
                                  {"until", clock_of(v, v.at.wall + *v.now.to_last_call)}}));
    if (!late && v.due_while_off == v.now.sample)
      notice(k, "due-while-off", notice_kind::needs_you,
             v.t("breathe.while-off", {{"n", number_text(*v.now.sample)},
                                       {"due", clock_of(v, v.at.wall + *v.now.to_due)}}));
    picture(k, "picture", picture_of::straw_and_blow, v.t("breathe.picture"), true);
    paragraph(k, "how", v.t("breathe.how"));
  };
  const auto actions = [&] {
    begin = primary_button(k, "begin-breath",
                           v.t("breathe.begin", {{"n", number_text(*v.now.sample)}}));
    const bool could_be_told = v.s.grid && !v.now.repeating;
    if (v.practice && could_be_told) {
      const int pressed = button_pair(k, "jump", v.t("practice.jump.short"), "already-blown",
                                      v.t("breathe.already.short"));
      jump = pressed == 1;
      already = pressed == 2;
    } else if (could_be_told) {
      already = quiet_button(k, "already-blown", v.t("breathe.already"));
    }
  };
  auto out =
      framed_page(k, v, late ? "breathe-late" : "breathe", content, actions, page_kind::timed);
  if (already) {
    u.open = "tell";
    u.chosen = v.now.sample;
    u.minutes_ago = 1;
  }
  if (jump) return wish{jump_ahead{}};
  if (begin) return wish{payload{breath_begun{*v.now.sample}}};
  return out;
}

} // namespace qb
