// A tube is due, late, or to be blown again: which tube, and the one press that begins.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

namespace {

bool is_late(const view& v) {
  return v.now.late && !v.now.repeating;
}

std::string headline_of(const view& v) {
  const word_args n{{"n", number_text(*v.now.sample)}};
  if (v.now.repeating) return v.t("breathe.title.again", n);
  if (*v.now.sample == sample_number(1)) return v.t("breathe.title.first", n);
  return v.t("breathe.title.now", n);
}

// When it was due and until when it counts: calm while it is on time, pressing when it is late.
void due_words(toolkit& k, const view& v) {
  if (!v.now.to_due || v.now.repeating) return;
  const word_args args{{"n", number_text(*v.now.sample)},
                       {"due", when(v, v.at.wall + *v.now.to_due)},
                       {"by", length_in_words(*v.now.to_due)},
                       {"until", clock_of(v, v.at.wall + *v.now.to_last_call)}};
  if (is_late(v)) return notice(k, "late", notice_kind::needs_you, v.t("breathe.late", args));
  if (v.due_while_off == v.now.sample)
    return notice(k, "due-while-off", notice_kind::needs_you, v.t("breathe.while-off", args));
  quiet_text(k, "due", v.t("breathe.due", args));
}

// The tube that was closed only a moment ago, by the laboratory's bound. One that is blown again at
// its own time anyway does not count: its breath was this tube's, and the program itself asks for
// this one.
std::optional<sample_number> close_now(const view& v) {
  if (!v.s.grid || v.now.repeating) return std::nullopt;
  const auto near = too_close_to(v.s, *v.now.sample, v.s.grid->at(v.at).length);
  return near && v.s.of(*near).again_when_due ? std::nullopt : near;
}

// Two tubes close together are asked about before they are blown, never refused.
maybe_wish ask_close(toolkit& k, const view& v, ui_state& u, sample_number near) {
  bool on = false;
  bool wait = false;
  const word_args args{
      {"n", number_text(*v.now.sample)},
      {"other", number_text(near)},
      {"ago", length_in_words(v.s.grid->at(v.at).length - v.s.of(near).taken->since_anchor)}};
  const auto content = [&] {
    headline(k, "title", v.t("breathe.close.title", args));
    paragraph(k, "what", v.t("breathe.close.what", args));
  };
  const auto actions = [&] {
    on = primary_button(k, "close-begin", v.t("breathe.close.begin", args));
    wait = secondary_button(k, "close-wait", v.t("breathe.close.wait"));
  };
  auto out = framed_page(k, v, "breathe-close", content, actions, page_kind::timed);
  if (on || wait) u.nav.page = breathe_page::begin;
  if (on) return wish{payload{breath_begun{*v.now.sample}}};
  return out;
}

// Before tube 1, which is the baseline and cannot be blown again after the drink.
maybe_wish draw_how(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto& steps = v.s.test->breath_how;
  const auto content = [&] {
    headline(k, "title", v.t("breathe.how.title"));
    const auto hold = v.s.test->breath_hold;
    if (hold.count() > 0)
      strong(k, "hold", v.t("breathe.how.hold", {{"n", std::to_string(hold.count())}}));
    for (std::size_t i = 0; i < steps.size(); ++i)
      paragraph(k, "step-" + std::to_string(i + 1),
                v.t("breathe.how.step", {{"n", std::to_string(i + 1)}, {"what", steps[i].text}}));
  };
  const auto actions = [&] { on = primary_button(k, "next", v.t("common.next")); };
  auto out = framed_page(k, v, "breathe-how", content, actions);
  if (on) u.nav.page = breathe_page::begin;
  return out;
}

struct pressed {
  bool begin{false};
  bool already{false};
  bool jump{false};
  bool later{false};
  bool drunk{false};
};

void draw_actions(toolkit& k, const view& v, pressed& p) {
  p.begin =
      primary_button(k, "begin-breath", v.t("breathe.begin", {{"n", number_text(*v.now.sample)}}));
  if (!v.s.grid) {
    const int which =
        button_pair(k, "open-choose", v.t("sugar.later.short"), "drank-first", v.t("drink.first"));
    p.later = which == 1;
    p.drunk = which == 2;
  } else if (v.practice && !v.now.repeating) {
    const int which = button_pair(k, "jump", v.t("practice.jump.short"), "already-blown",
                                  v.t("breathe.already.short"));
    p.jump = which == 1;
    p.already = which == 2;
  } else if (!v.now.repeating) {
    p.already = quiet_button(k, "already-blown", v.t("breathe.already"));
  }
}

} // namespace

maybe_wish draw_breathe(toolkit& k, const view& v, ui_state& u) {
  const bool first = !v.s.grid && !v.now.repeating && !v.s.test->breath_how.empty();
  if (first && u.nav.page_in<breathe_page>() == breathe_page::how) return draw_how(k, v, u);
  const auto near = close_now(v);
  if (near && u.nav.page_in<breathe_page>() == breathe_page::close)
    return ask_close(k, v, u, *near);
  pressed p;
  const auto content = [&] {
    headline(k, "title", headline_of(v));
    due_words(k, v);
    picture(k, "picture", picture_of::straw_and_blow, v.t("breathe.picture"), true);
    paragraph(k, "how", real_words(v, "breathe.how"));
  };
  const auto actions = [&] { draw_actions(k, v, p); };
  auto out = framed_page(k, v, is_late(v) ? "breathe-late" : "breathe", content, actions,
                         page_kind::timed);
  if (p.later) u.nav.open_side(side_page::choose);
  if (p.drunk) open_reported_drink(v, u);
  if (p.begin && !v.now.repeating && close_now(v)) {
    u.nav.page = breathe_page::close; // asked about first
    return out;
  }
  if (p.already) open_tell(v, u, *v.now.sample, std::chrono::minutes{1});
  if (p.jump) return wish{jump_ahead{}};
  if (p.begin) return wish{payload{breath_begun{*v.now.sample}}};
  return out;
}

} // namespace qb::inline screens
