// The morning's questions: what came up since the plan, whom to ask about it, and what they said.
// Each answer is a fact at once; nothing here says what an illness means.
#include "app/patient/screens/gate/gate_pages.hpp"
#include "core/session/limits.hpp"

#include <algorithm>

namespace qb {

namespace {

using page = gate_page;

// Longer ago an answer is asked for again: the page may have been left open.
constexpr std::chrono::hours answer_holds{2};

wish tell_all(const view& v, const ui_state& u) {
  record_all out;
  for (const caution& c : v.s.test->morning) {
    const bool yes = is_ticked(u, c.why.rule);
    out.facts.emplace_back(reported_caution{c.why.rule,
                                            yes ? caution_answer::yes : caution_answer::no,
                                            asked_outcome::not_asked, "", ""});
  }
  return out;
}

// A question of the plan that nobody answered is asked here, before anything else.
maybe_wish draw_unanswered(toolkit& k, const view& v, ui_state&, const caution& c) {
  std::optional<caution_answer> said;
  const auto content = [&] {
    headline(k, "title", c.question);
    paragraph(k, "why", v.t("living.gate.unanswered"));
  };
  const auto actions = [&] {
    if (secondary_button(k, "none-true", v.t("common.no"))) said = caution_answer::no;
    if (secondary_button(k, "one-true", v.t("common.yes"))) said = caution_answer::yes;
    if (secondary_button(k, "not-sure", v.t("living.not-sure"))) said = caution_answer::unsure;
  };
  auto out = framed_page(k, v, "gate-question", content, actions);
  if (said)
    return wish{payload{reported_caution{c.why.rule, *said, asked_outcome::not_asked, "", ""}}};
  return out;
}

// Not for this person, or somebody said so: the gate does not open.
bool is_shut(const caution& c, const reported_caution& told) {
  const bool never = c.leads == leads_to::not_this_test && told.answer == caution_answer::yes;
  return never || told.outcome == asked_outcome::not_this_test;
}

maybe_wish draw_ask(toolkit& k, const view& v, ui_state& u, const caution& c, bool shut) {
  bool allowed = false;
  bool wrong = false;
  bool not_today = false;
  const auto content = [&] {
    headline(k, "title", v.t(shut ? "living.gate.shut" : "living.gate.ask", {{"whom", c.whom}}));
    strong(k, "name", c.name);
    paragraph(k, "why", c.text);
    notice(k, "ask", notice_kind::needs_you, c.ask);
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (!shut) allowed = secondary_button(k, "may-go-on", v.t("living.gate.may-go-on"));
    not_today = secondary_button(k, "not-today", v.t("living.gate.not-today"));
    wrong = quiet_button(k, "not-true", v.t("living.gate.not-true"));
  };
  auto out = framed_page(k, v, "gate-ask", content, actions);
  if (allowed) u.nav.page = page::who;
  if (not_today) u.nav.page = page::not_today;
  if (wrong)
    return wish{payload{
        reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""}}};
  return out;
}

maybe_wish draw_who(toolkit& k, const view& v, ui_state& u, const caution& c) {
  std::string& who = u.drafts.gate_adviser;
  bool go_on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.who"));
    paragraph(k, "about", c.name);
    (void)text_field(k, "gate-who",
                     {v.t("living.gate.who.label"), v.t("living.gate.who.hint"), "",
                      text_kind::plain, longest_who},
                     who);
  };
  const auto actions = [&] {
    if (who.empty()) {
      waiting_button(k, "go-on", v.t("living.gate.who.wait"));
    } else {
      go_on = primary_button(k, "go-on", v.t("living.gate.who.write"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-who", content, actions);
  if (back) u.nav.page = page::ask;
  if (!go_on) return out;
  const noted_caution* told = find_noted_caution(v.s, c.why.rule);
  const caution_answer answer = told == nullptr ? caution_answer::yes : told->what.answer;
  const std::string by = who;
  who.clear();
  u.nav.page = page::morning;
  return wish{payload{reported_caution{c.why.rule, answer, asked_outcome::go_on, by, ""}}};
}

bool is_recent(const view& v, const caution& c) {
  const noted_caution* told = find_noted_caution(v.s, c.why.rule);
  return told != nullptr && between(told->at, v.at).length <= answer_holds &&
         told->at.wall <= v.at.wall;
}

bool reported_since_plan(const view& v, const caution& c) {
  const noted_caution* told = find_noted_caution(v.s, c.why.rule);
  return told != nullptr && (!v.s.planned_at || told->at.wall >= v.s.planned_at->at.wall);
}

} // namespace

bool reported_morning(const view& v) {
  const auto& all = v.s.test->morning;
  return std::all_of(all.begin(), all.end(),
                     [&](const caution& c) { return reported_since_plan(v, c); });
}

bool morning_answered(const view& v) {
  const auto& all = v.s.test->morning;
  return reported_morning(v) &&
         std::all_of(all.begin(), all.end(), [&](const caution& c) { return is_recent(v, c); });
}

const caution* open_question(const view& v) {
  for (const caution& c : v.s.test->cautions) {
    const noted_caution* told = find_noted_caution(v.s, c.why.rule);
    if (told == nullptr || is_open(c, told->what)) return &c;
  }
  for (const caution& c : v.s.test->morning) {
    const noted_caution* told = find_noted_caution(v.s, c.why.rule);
    if (reported_since_plan(v, c) && is_open(c, told->what)) return &c;
  }
  return nullptr;
}

maybe_wish draw_gate_morning(toolkit& k, const view& v, ui_state& u) {
  const auto& asked = v.s.test->morning;
  const bool any = std::any_of(asked.begin(), asked.end(),
                               [&](const caution& c) { return is_ticked(u, c.why.rule); });
  std::string turned;
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.morning"));
    for (const caution& c : asked) {
      if (check_row(k, c.why.rule, c.question, is_ticked(u, c.why.rule))) turned = c.why.rule;
    }
  };
  const auto actions = [&] {
    on = any ? primary_button(k, "some-true", v.t("living.gate.some"))
             : primary_button(k, "none-true", v.t("living.gate.none"));
  };
  auto out = framed_page(k, v, "gate-morning", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (!on) return out;
  const wish told = tell_all(v, u);
  for (const caution& c : asked) {
    if (is_ticked(u, c.why.rule)) turn_tick(u, c.why.rule);
  }
  u.nav.page = page::things;
  return told;
}

maybe_wish draw_gate_ask(toolkit& k, const view& v, ui_state& u) {
  const caution* c = open_question(v);
  QB_BELIEVE(c != nullptr);
  const noted_caution* told = find_noted_caution(v.s, c->why.rule);
  if (told == nullptr) return draw_unanswered(k, v, u, *c);
  const bool shut = is_shut(*c, told->what);
  if (u.nav.page_in<page>() == page::who && !shut) return draw_who(k, v, u, *c);
  return draw_ask(k, v, u, *c, shut);
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
  if (back) u.nav.page = page::ask;
  return out;
}

} // namespace qb
