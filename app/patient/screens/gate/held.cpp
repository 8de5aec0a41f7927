// Something stands against going on, and has its page at once: what it is, whom to ask, who said
// what, and that the sugar stays closed. What releases it is the protocol's; nothing here does.
#include "app/patient/screens/gate/gate_pages.hpp"
#include "app/patient/screens/gate/question.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/base/text.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <functional>

namespace qb::inline screens {

namespace {

using page = held_page;

// One page of what holds: its words, and its own buttons before and after the ways out.
struct held_leaf {
  const char* screen;
  std::string about;
  std::function<void()> content;
  std::function<void()> before;
  std::function<void()> after{};
};

// Wherever it is told not to drink, it can be told that it was drunk, or put off for today.
maybe_wish draw_leaf(toolkit& k, const view& v, ui_state& u, const held_leaf& leaf) {
  bool not_today = false;
  bool drunk = false;
  const auto actions = [&] {
    if (leaf.before) leaf.before();
    not_today = secondary_button(k, "not-today", v.t("living.gate.not-today"));
    drunk = quiet_button(k, "drank-first", v.t("drink.first"));
    if (leaf.after) leaf.after();
  };
  auto out = framed_page(k, v, leaf.screen, leaf.content, actions, page_kind::calm, leaf.about);
  if (not_today) u.nav.page = page::not_today;
  if (drunk) open_reported_drink(v, u);
  return out;
}

std::string held_title(const view& v, const hindrance& h, const caution& c) {
  if (h.what == hindrance_kind::ask_first) return v.t("living.gate.ask", {{"whom", c.whom}});
  return v.t(is_of_the_morning(*v.s.test, c.why.rule) ? "living.gate.stop-today"
                                                      : "screening.stop.title");
}

// Nothing releases it: what to do now comes first, and there is nothing to ask for.
void show_never(toolkit& k, const view& v, const caution& c) {
  const bool today = is_of_the_morning(*v.s.test, c.why.rule);
  notice(k, "why", notice_kind::needs_you, c.text);
  if (today) strong(k, "emergency", v.t("living.low.emergency", {{"call", v.lab.emergency}}));
  strong(k, "sugar", v.t("screening.stop.sugar"));
  heading(k, "name", c.name);
  if (const noted_caution* told = find_noted_caution(v.s, c.why.rule))
    paragraph(k, "said", said_words(v, told->what));
  if (!today) paragraph(k, "call", v.t("screening.stop.call"));
}

// Why it matters, and what to ask: quoted, since it is not this program that asks.
void show_question_to_ask(toolkit& k, const view& v, const caution& c, bool waits) {
  strong(k, "sugar", v.t("screening.stop.sugar"));
  heading(k, "name", c.name);
  if (const noted_caution* told = find_noted_caution(v.s, c.why.rule))
    paragraph(k, "said", said_words(v, told->what));
  paragraph(k, "why", c.text);
  heading(k, "say", v.t("screening.ask.say"));
  strong(k, "ask", v.t("screening.ask.quoted", {{"words", c.ask}}));
  if (waits)
    paragraph(k, "waits", v.t("living.gate.waits", {{"button", v.t("living.gate.not-today")}}));
}

// An answer: why it matters, and whom to ask or call.
maybe_wish draw_answer(toolkit& k, const view& v, ui_state& u, const hindrance& h,
                       const caution& c) {
  bool may = false;
  bool answer = false;
  const bool asks = h.what == hindrance_kind::ask_first;
  const auto content = [&] {
    headline(k, "title", held_title(v, h, c));
    if (h.what == hindrance_kind::never) {
      show_never(k, v, c);
    } else {
      show_question_to_ask(k, v, c, asks);
    }
    laboratory_facts(k, v);
  };
  const auto before = [&] {
    if (asks && !c.may_release.empty())
      may = secondary_button(k, "may-go-on", v.t("living.gate.may-go-on"));
  };
  const auto after = [&] { answer = quiet_button(k, "answer-anew", v.t("screening.answer-anew")); };
  auto out = draw_leaf(k, v, u, {"held", h.rule, content, before, after});
  if (may) u.nav.page = page::who;
  if (answer) u.nav.page = page::question;
  return out;
}

maybe_wish draw_question(toolkit& k, const view& v, ui_state& u, const caution& c) {
  asked_in_full did = ask_in_full(k, v, u, {c, "held-question", "", true, false});
  if (did.back || did.told) u.nav.page = page::what;
  if (did.told) return wish{payload{*did.told}};
  return std::move(did.out);
}

// Only those whom the protocol names can be chosen: nobody else's word opens the way.
maybe_wish draw_who(toolkit& k, const view& v, ui_state& u, const caution& c) {
  std::string& who = u.drafts.gate_adviser;
  auto& said_by = u.drafts.gate_releaser;
  const auto& may = c.may_release;
  // Chosen for another question, whom it may not be here.
  if (said_by && std::find(may.begin(), may.end(), *said_by) == may.end()) said_by.reset();
  bool on = false;
  bool back = false;
  std::optional<std::size_t> picked;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.who"));
    paragraph(k, "about", c.name);
    picked = choice_list(k, "releaser", releaser_choices(v, may), said_by ? key_of(*said_by) : "");
    (void)text_field(k, "gate-who",
                     {v.t("living.gate.who.label"), v.t("living.gate.who.hint"), "",
                      text_kind::plain, longest_who},
                     who);
  };
  const auto actions = [&] {
    if (!said_by || trimmed(who).empty()) {
      waiting_button(k, "go-on", v.t(said_by ? "living.gate.who.wait" : "living.gate.who.choose"));
    } else {
      on = primary_button(k, "go-on", v.t("living.gate.who.write"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "held-who", content, actions, page_kind::calm, c.why.rule);
  if (picked) said_by = c.may_release.at(*picked);
  if (back) u.nav.page = page::what;
  if (!on) return out;
  reported_caution told = find_noted_caution(v.s, c.why.rule)->what;
  told.asked_again = false;
  told.outcome = asked_outcome::go_on;
  told.who = trimmed(who);
  told.by = u.drafts.answers;
  told.said_by = said_by;
  told.for_test = v.s.test->id;
  who.clear();
  said_by.reset();
  u.nav.page = page::what;
  return wish{payload{std::move(told)}};
}

// A medicine whose pause, or whose going on, nobody agreed to who may: whom to ask, and the way to
// its question.
maybe_wish draw_medicine(toolkit& k, const view& v, ui_state& u, const washout& w) {
  bool answer = false;
  const noted_washout* told = find_noted_washout(v.s, w.why.rule);
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.ask", {{"whom", whom_of(v, w)}}));
    strong(k, "sugar", v.t("screening.stop.sugar"));
    heading(k, "name", w.name);
    if (told != nullptr && !told->what.who.empty())
      paragraph(k, "said", v.t("screening.stop.who", {{"who", told->what.who}}));
    paragraph(k, "why", w.text);
    laboratory_facts(k, v);
  };
  const auto anew = [&] {
    answer = primary_button(k, "answer-anew", v.t("screening.answer-anew"));
  };
  auto out = draw_leaf(k, v, u, {"held-medicine", w.why.rule, content, anew});
  if (answer)
    u.nav.open_side(side_page::choose, medicine_page{w.why.rule, medicine_part::question});
  return out;
}

// The packet says something else: it stays closed, and the laboratory is called.
maybe_wish draw_packet_differs(toolkit& k, const view& v, ui_state& u) {
  bool look = false;
  const reported_packet& told = v.s.packet->what;
  const auto content = [&] {
    headline(k, "title", v.t("gate.stop.sugar"));
    if (!told.words.empty()) paragraph(k, "says", v.t("gate.packet.told", {{"words", told.words}}));
    paragraph(k, "why", v.t("gate.stop.sugar-why"));
    laboratory_facts(k, v);
  };
  const auto again = [&] {
    look = secondary_button(k, "look-again", v.t("gate.packet.look-again"));
  };
  auto out = draw_leaf(k, v, u, {"gate-other-sugar", "", content, again});
  if (look) u.nav.page = page::packet;
  return out;
}

// A plan by earlier rules: planned once more, what is new is asked, and what was told stays.
maybe_wish draw_old_rules(toolkit& k, const view& v, ui_state& u) {
  bool plan = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.gate.old"));
    strong(k, "sugar", v.t("screening.stop.sugar"));
    paragraph(k, "why", v.t("living.gate.old.why"));
    laboratory_facts(k, v);
  };
  const auto anew = [&] { plan = primary_button(k, "open-choose", v.t("living.gate.old.plan")); };
  auto out = draw_leaf(k, v, u, {"held-old-rules", "", content, anew});
  if (plan) u.nav.open_side(side_page::choose);
  return out;
}

// Age or kit: what was told can be put right, the rest is the laboratory's.
maybe_wish draw_kit_or_age(toolkit& k, const view& v, ui_state& u, const hindrance& h) {
  bool change = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.stop.well"));
    strong(k, "sugar", v.t("screening.stop.sugar"));
    paragraph(k, "why", refusal_of(v.s, h).expected);
    laboratory_facts(k, v);
  };
  const auto put_right = [&] { change = quiet_button(k, "change-who", v.t("gate.change-who")); };
  auto out = draw_leaf(k, v, u, {"held-kit", h.rule, content, {}, put_right});
  if (change) u.nav.open_side(side_page::who);
  return out;
}

} // namespace

maybe_wish draw_held(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.now.held_by && v.s.test && v.s.planned);
  const hindrance& h = *v.now.held_by;
  const page shown = u.nav.page_in<page>();
  if (shown == page::not_today) return draw_gate_not_today(k, v, u);
  // Also a question of another sugar's test, where no kit says which sugar it is.
  const std::vector<caution> asked = asked_cautions(v, *v.s.test);
  const auto of_plan = std::find_if(asked.begin(), asked.end(),
                                    [&](const caution& x) { return x.why.rule == h.rule; });
  const caution* of_morning = find_caution(*v.s.test, h.rule);
  if (const caution* c = of_plan != asked.end() ? &*of_plan : of_morning) {
    if (shown == page::question) return draw_question(k, v, u, *c);
    if (shown == page::who && h.what == hindrance_kind::ask_first) return draw_who(k, v, u, *c);
    return draw_answer(k, v, u, h, *c);
  }
  if (h.what == hindrance_kind::not_agreed)
    return draw_medicine(k, v, u, *find_washout(*v.s.test, h.rule));
  if (h.what == hindrance_kind::old_rules) return draw_old_rules(k, v, u);
  if (h.what != hindrance_kind::packet_differs) return draw_kit_or_age(k, v, u, h);
  if (shown == page::packet || shown == page::other_packet) return draw_packet(k, v, u);
  return draw_packet_differs(k, v, u);
}

} // namespace qb::inline screens
