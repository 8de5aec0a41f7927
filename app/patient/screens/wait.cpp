// Nothing to do until the next tube: how long, until when, and what holds meanwhile.
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb {

namespace {

// The span that the arc empties over: from the sample before, in the protocol's grid.
float left_of_span(const view& v) {
  const sample_number n = *v.now.sample;
  if (n == sample_number(1)) return 0;
  const auto before = sample_number::from_index(n.index() - 1);
  const duration span = v.s.test->offset_of(n) - v.s.test->offset_of(before);
  const auto part = static_cast<float>(v.now.to_due->count()) / static_cast<float>(span.count());
  return std::clamp(part, 0.0F, 1.0F);
}

quarter_view ring(const view& v) {
  quarter_view q;
  q.left = left_of_span(v);
  q.figure = count_down(*v.now.to_due);
  q.above = v.t("wait.until", {{"n", number_text(*v.now.sample)}});
  q.below = when(v, v.at.wall + *v.now.to_due);
  return q;
}

// The tube missed last, where it is the one just before the next: stated, not hidden.
std::optional<sample_number> just_missed(const view& v) {
  if (v.now.missed.empty()) return std::nullopt;
  const sample_number last = v.now.missed.back();
  return last.value() + 1 == v.now.sample->value() ? std::optional(last) : std::nullopt;
}

} // namespace

maybe_wish draw_wait(kit& k, const view& v, ui_state& u) {
  bool mishap = false;
  bool told = false;
  bool jump = false;
  const bool soon = v.now.what == step::heads_up;
  const auto missed = just_missed(v);
  const auto content = [&] {
    headline(k, "title", v.t(soon ? "wait.title.soon" : "wait.title",
                             {{"n", number_text(*v.now.sample)}}));
    if (missed)
      notice(k, "missed", notice_kind::needs_you,
             v.t("wait.missed", {{"n", number_text(*missed)},
                                 {"due", clock_of(v, due_on_wall(v.s, *missed, v.at))}}));
    if (v.now.sure == certainty::by_wall)
      notice(k, "restarted", notice_kind::note, v.t("wait.restarted"));
    quarter(k, "quarter", ring(v));
    quiet_text(k, "holds", v.t(soon ? "wait.hold.soon" : "wait.hold"));
  };
  const auto actions = [&] {
    if (v.practice) jump = primary_button(k, "jump", v.t("practice.jump"));
    if (missed) told = secondary_button(k, "tell-missed", v.t("wait.tell"));
    mishap = quiet_button(k, "mishap", v.t("wait.mishap"));
  };
  auto out = framed_page(k, v, soon ? "heads-up" : "wait", content, actions, true);
  if (jump) return wish{jump_ahead{}};
  if (told || mishap) {
    u.open = told ? "tell" : "mishap";
    u.chosen = missed;
    u.minutes_ago = 1;
    u.page = 0;
  }
  return out;
}

} // namespace qb
