// The morning's questions: what came up since the plan. Each answer is a fact at once; what it
// leads to has a page of its own (held.cpp), and nothing here says what an illness means.
#include "app/patient/screens/gate/gate_pages.hpp"
#include "app/patient/screens/gate/question.hpp"
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/session/after_loss.hpp"

#include <algorithm>
#include <fmt/ranges.h>

namespace qb::inline screens {

namespace {

using page = gate_page;

bool is_unanswered(const view& v, const caution& c) {
  const hindrance open{hindrance_kind::unanswered, c.why.rule};
  const auto all = hindrances(v.s, v.at);
  return std::find(all.begin(), all.end(), open) != all.end();
}

// Answered with yes or not sure once: then the list's tick is not enough to say no.
bool was_true_before(const view& v, const caution& c) {
  const noted_caution* told = find_noted_caution(v.s, c.why.rule);
  return told != nullptr && told->what.answer != caution_answer::no;
}

std::vector<caution> listed(const view& v) {
  std::vector<caution> out;
  for (const caution& c : v.s.test->morning) {
    if (!was_true_before(v, c)) out.push_back(c);
  }
  return out;
}

wish tell_all(const std::vector<caution>& asked, const ui_state& u) {
  record_all out;
  for (const caution& c : asked) {
    reported_caution told{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""};
    if (is_ticked(u, c.why.rule)) told.answer = caution_answer::yes;
    told.by = u.drafts.answers;
    out.facts.emplace_back(std::move(told));
  }
  return out;
}

} // namespace

std::optional<caution> question_due(const view& v, bool each) {
  for (const caution& c : asked_cautions(v, *v.s.test)) {
    if (is_unanswered(v, c)) return c;
  }
  for (const caution& c : v.s.test->morning) {
    if ((each || was_true_before(v, c)) && is_unanswered(v, c)) return c;
  }
  return std::nullopt;
}

bool morning_answered(const view& v) {
  const auto& all = v.s.test->morning;
  return std::none_of(all.begin(), all.end(),
                      [&](const caution& c) { return is_unanswered(v, c); });
}

maybe_wish draw_gate_morning(toolkit& k, const view& v, ui_state& u) {
  const std::vector<caution> asked = listed(v);
  const bool any = std::any_of(asked.begin(), asked.end(),
                               [&](const caution& c) { return is_ticked(u, c.why.rule); });
  std::string turned;
  bool on = false;
  bool unsure = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.morning"));
    for (const caution& c : asked) {
      const std::string signs = fmt::format("{}", fmt::join(c.recognise, " "));
      if (check_row(k, c.why.rule, c.question, is_ticked(u, c.why.rule), signs))
        turned = c.why.rule;
    }
  };
  const auto actions = [&] {
    on = any ? primary_button(k, "some-true", v.t("living.gate.some"))
             : primary_button(k, "none-true", v.t("living.gate.none"));
    unsure = quiet_button(k, "not-sure", v.t("living.gate.not-sure"));
  };
  auto out = framed_page(k, v, "gate-morning", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (unsure) u.nav.page = page::each;
  if (!on) return out;
  const wish told = tell_all(asked, u);
  for (const caution& c : asked) {
    if (is_ticked(u, c.why.rule)) turn_tick(u, c.why.rule);
  }
  u.nav.page = page::things;
  return told;
}

maybe_wish draw_gate_ask(toolkit& k, const view& v, ui_state& u) {
  const auto c = question_due(v, u.nav.page_in<page>() == page::each);
  QB_BELIEVE(c.has_value());
  asked_in_full did = ask_in_full(k, v, u, {*c, "gate-question", v.t("living.gate.unanswered")});
  if (did.told) return wish{payload{*did.told}};
  return std::move(did.out);
}

maybe_wish draw_gate_told_again(toolkit& k, const view& v, ui_state& u) {
  bool yes = false;
  bool no = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.told-again"));
    paragraph(k, "what", v.t("living.gate.told-again.what"));
    strong(k, "ask", v.t("living.gate.told-again.ask"));
  };
  const auto actions = [&] {
    yes = secondary_button(k, "open-slip", v.t("living.gate.told-again.yes"));
    no = secondary_button(k, "nothing-more", v.t("living.gate.told-again.no"));
  };
  auto out = framed_page(k, v, "gate-told-again", content, actions, page_kind::asking);
  if (yes) u.nav.open_side(side_page::slip);
  if (no) return wish{payload{reported_checklist{told_again_list, {}}}};
  return out;
}

maybe_wish draw_gate_not_today(toolkit& k, const view& v, ui_state& u) {
  bool move = false;
  bool off = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.stop.well"));
    picture(k, "picture", picture_of::rest, v.t("living.gate.rest"), true);
    paragraph(k, "why", v.t("gate.stop.well-why"));
    laboratory_facts(k, v);
    notice(k, "emergency", notice_kind::needs_you,
           v.t("gate.stop.emergency", {{"call", v.lab.emergency}}));
  };
  const auto actions = [&] {
    move = primary_button(k, "open-choose", v.t("gate.move"));
    off = secondary_button(k, "open-call-off", v.t("living.off.open"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-not-today", content, actions);
  if (move) u.nav.open_side(side_page::choose);
  if (off) u.nav.open_side(side_page::call_off);
  if (back) u.nav.page = {};
  return out;
}

} // namespace qb::inline screens
