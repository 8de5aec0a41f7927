// "I feel unwell", warning signs, or a sugar that was drunk against what stands against it: safety
// first. What to do now, whom to call, and the ways on, as far as the protocol offers any.
#include "app/patient/screens/reach.hpp"
#include "core/session/going_on.hpp"

#include <algorithm>
#include <utility>

namespace qb::inline screens {

namespace {

using page = unwell_page;

struct pressed {
  bool over{false};
  bool stop{false};
  bool sure{false};
  bool back{false};
  bool move{false};
  bool passed{false};
  bool none{false};
  bool some{false};
};

std::string laboratory_words(const view& v) {
  return v.t("unwell.laboratory", {{"lab", v.lab.name}, {"tel", telephone_words(v)}});
}

// Drunk although an answer, the kit or the packet stood against it.
bool drunk_against(const view& v) {
  const auto& all = v.s.drunk_against;
  return std::any_of(all.begin(), all.end(), has_own_page);
}

// What was drunk is not spoken of: only what to do now.
void what_after_the_drink(toolkit& k, const view& v) {
  const auto& all = v.s.drunk_against;
  const bool never = std::any_of(
      all.begin(), all.end(), [](const hindrance& h) { return h.what == hindrance_kind::never; });
  headline(k, "title", v.t("unwell.drunk.title"));
  notice(k, "emergency", notice_kind::needs_you,
         v.t(never ? "unwell.drunk.never" : "unwell.drunk.ask", {{"call", v.lab.emergency}}));
  paragraph(k, "do", v.t("unwell.do"));
  quiet_text(k, "laboratory", laboratory_words(v));
  outside_line(k, v);
}

void what_to_do(toolkit& k, const view& v) {
  if (drunk_against(v)) return what_after_the_drink(k, v);
  headline(k, "title", v.t(v.s.grid && !v.s.ended ? "unwell.title" : "unwell.title.rest"));
  const bool final = !may_feel_well_again(v.s);
  notice(k, "emergency", notice_kind::needs_you,
         v.t(final ? "unwell.final" : "unwell.emergency", {{"call", v.lab.emergency}}));
  strong(k, "do", v.t("unwell.do"));
  paragraph(k, "eat", v.t("unwell.eat"));
  quiet_text(k, "laboratory", laboratory_words(v));
  outside_line(k, v);
  if (v.s.grid && !v.s.ended && !final) quiet_text(k, "pause", v.t("unwell.pause"));
}

void ways_on(toolkit& k, const view& v, pressed& p) {
  const bool can_stop = v.s.grid && !v.s.ended;
  const bool can_move = v.s.planned && !v.s.grid && !v.s.ended;
  if (!v.s.ended && !may_feel_well_again(v.s)) { // no going on is offered
    if (v.s.planned) p.stop = primary_button(k, "stop-test", v.t("unwell.stop"));
  } else if (can_stop && has_warning_signs(v.s)) { // stopping leads
    p.stop = primary_button(k, "stop-test", v.t("unwell.stop"));
    p.passed = quiet_button(k, "unwell-passed", v.t("unwell.over"));
  } else if (can_stop) { // neither way is urged
    p.over = secondary_button(k, "unwell-over", v.t("unwell.over"));
    p.stop = secondary_button(k, "stop-test", v.t("unwell.stop"));
  } else {
    if (has_warning_signs(v.s)) {
      p.passed = secondary_button(k, "unwell-passed", v.t("unwell.over"));
    } else {
      p.over = secondary_button(k, "unwell-over", v.t("unwell.back"));
    }
    if (can_move) p.move = secondary_button(k, "unwell-move", v.t("unwell.move"));
    if (can_move) p.stop = quiet_button(k, "stop-test", v.t("unwell.stop"));
  }
}

void ask_stop(toolkit& k, const view& v) {
  headline(k, "title", v.t("unwell.stop-title"));
  paragraph(k, "what", v.t("unwell.stop-what"));
  quiet_text(k, "laboratory", laboratory_words(v));
  outside_line(k, v);
}

std::string signs_told(const view& v) {
  std::string out;
  for (const std::string& id : v.s.warnings->what.present) {
    std::string text = id;
    if (v.s.test) {
      for (const warning_sign& sign : v.s.test->warnings.signs) {
        if (sign.id == id) text = sign.text;
      }
    }
    out += (out.empty() ? "" : "; ") + text;
  }
  return out;
}

void ask_passed(toolkit& k, const view& v) {
  headline(k, "title", v.t("unwell.passed.title"));
  paragraph(k, "what", v.t("unwell.passed.what", {{"signs", signs_told(v)}}));
  quiet_text(k, "laboratory", laboratory_words(v));
  outside_line(k, v);
}

// The tube by which what is told now is kept: the last that was filled.
sample_number tube_by(const state& s) {
  for (std::size_t i = s.samples.size(); i-- > 0;) {
    if (s.samples[i].taken) return sample_number::from_index(i);
  }
  return sample_number(1);
}

// Which signs are there is told before going on; none of them, and the person goes on.
maybe_wish tell_signs(const view& v, ui_state& u, bool none) {
  const reported_red_flags told{tube_by(v.s), std::exchange(u.drafts.ticked, {})};
  u.nav.page = page::what_to_do;
  if (!none) return wish{payload{told}};
  u.nav.close_side();
  return wish{record_all{{told, unwell_over{}}}};
}

page page_shown(const view& v, const ui_state& u) {
  const page wanted = u.nav.page_in<page>();
  if (wanted == page::signs && !wants_signs_told(v.s)) return page::what_to_do;
  const bool passing = has_warning_signs(v.s) && (v.s.ended || may_feel_well_again(v.s));
  return wanted == page::passed && !passing ? page::what_to_do : wanted;
}

const char* screen_name(page shown) {
  switch (shown) {
  case page::what_to_do: return "unwell";
  case page::stop: return "unwell-stop";
  case page::signs: return "unwell-signs";
  case page::passed: return "unwell-passed";
  }
  QB_BELIEVE(false);
  return "unwell";
}

void draw_ways(toolkit& k, const view& v, const ui_state& u, page shown, pressed& p) {
  switch (shown) {
  case page::what_to_do: return ways_on(k, v, p);
  case page::stop:
    p.sure = primary_button(k, "stop-sure", v.t("unwell.stop-sure"));
    p.back = secondary_button(k, "stop-back", v.t("common.back"));
    return;
  case page::signs:
    if (u.drafts.ticked.empty()) {
      p.none = primary_button(k, "red-flags-none", v.t("red-flags.none"));
    } else {
      p.some = primary_button(k, "red-flags-some", v.t("red-flags.some"));
    }
    p.back = quiet_button(k, "stop-back", v.t("common.back"));
    return;
  case page::passed:
    p.stop = primary_button(k, "stop-test", v.t("unwell.stop"));
    p.over = secondary_button(k, "has-passed", v.t("unwell.passed.yes"));
    p.back = quiet_button(k, "stop-back", v.t("common.back"));
    return;
  }
}

} // namespace

maybe_wish draw_unwell(toolkit& k, const view& v, ui_state& u) {
  pressed p;
  const page shown = page_shown(v, u);
  const auto content = [&] {
    if (shown == page::stop) return ask_stop(k, v);
    if (shown == page::signs) return sign_rows(k, v, u);
    if (shown == page::passed) return ask_passed(k, v);
    what_to_do(k, v);
  };
  const auto actions = [&] { draw_ways(k, v, u, shown, p); };
  page_options o;
  o.screen = screen_name(shown);
  o.turn = o.screen;
  o.practice = v.practice;
  o.trying = v.lab.for_trying;
  o.unwell = false; // this screen is the answer to it
  // The whole list is seen before it can be said that none of it is there.
  o.actions_on_all = shown != page::signs || !u.drafts.ticked.empty();
  k.page(o, content, actions);
  if (p.stop) u.nav.page = page::stop;
  if (p.passed) u.nav.page = page::passed;
  if (p.back) u.nav.page = page::what_to_do;
  if (p.none || p.some) return tell_signs(v, u, p.none);
  if (p.sure) return wish{payload{test_ended{"unwell"}}};
  // Moving the start does not say that the person is well again.
  if (p.move) u.nav.open_side(side_page::choose);
  if (!p.over) return std::nullopt;
  if (v.s.unwell && wants_signs_told(v.s)) {
    u.drafts.ticked.clear();
    u.nav.page = page::signs;
    return std::nullopt;
  }
  u.nav.close_side();
  if (v.s.unwell) return wish{payload{unwell_over{shown == page::passed}}};
  return std::nullopt;
}

} // namespace qb::inline screens
