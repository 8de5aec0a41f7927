// Nothing to do until the next tube: how long, until when, and what holds meanwhile.
#include "app/patient/screens/clock_words.hpp"
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb::inline screens {

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
  // That there is no baseline was told with the drink, and cannot be blown any more.
  if (v.now.missed.empty() || (v.s.grid->from_drink && v.now.missed.back() == sample_number(1)))
    return std::nullopt;
  const sample_number last = v.now.missed.back();
  return last.value() + 1 == v.now.sample->value() ? std::optional(last) : std::nullopt;
}

std::string headline_of(const view& v, const std::optional<sample_number>& missed) {
  if (missed)
    return v.t("wait.title.missed", {{"n", number_text(*missed)},
                                     {"due", clock_of(v, due_on_wall(v.s, *missed, v.at))}});
  return v.t(v.now.what == step::heads_up ? "wait.title.soon" : "wait.title",
             {{"n", number_text(*v.now.sample)}});
}

std::string quiet_words(const view& v) {
  if (v.now.what == step::heads_up) return v.t("wait.hold.soon");
  const std::string news = clock_news(v);
  return news.empty() ? v.t("wait.hold") : news;
}

} // namespace

maybe_wish draw_wait(toolkit& k, const view& v, ui_state& u) {
  bool jump = false;
  bool other = false;
  const auto missed = just_missed(v);
  const char* other_key = missed ? "tell-missed" : "mishap";
  const std::string other_words = v.t(missed ? "wait.tell" : "wait.mishap");
  const auto content = [&] {
    headline(k, "title", headline_of(v, missed));
    quarter(k, "quarter", ring(v));
    if (v.sound_lost) notice(k, "sound-lost", notice_kind::needs_you, v.t("attention.sound-lost"));
    const bool try_this = v.trial && !missed && v.now.sample->index() + 1 == v.s.samples.size();
    if (try_this)
      notice(k, "try-this", notice_kind::note,
             v.t("trial.mishap", {{"button", v.t("wait.mishap.short")}}));
    if (!missed && !v.sound_lost && !try_this) quiet_text(k, "holds", quiet_words(v));
  };
  const auto actions = [&] {
    if (v.practice) {
      const int pressed = button_pair(k, "jump", v.t("practice.jump.short"), other_key,
                                      v.t(missed ? "wait.tell" : "wait.mishap.short"));
      jump = pressed == 1;
      other = pressed == 2;
    } else {
      other = quiet_button(k, other_key, other_words);
    }
  };
  auto out = framed_page(k, v, v.now.what == step::heads_up ? "heads-up" : "wait", content, actions,
                         page_kind::timed);
  if (jump) return wish{jump_ahead{}};
  if (other && missed) open_tell(v, u, *missed, std::chrono::minutes{1});
  if (other && !missed) u.nav.open_side(side_page::mishap);
  return out;
}

} // namespace qb::inline screens
