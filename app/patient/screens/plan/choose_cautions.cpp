// May this person take this test? The protocol's cautions, one question a page, each answer a fact
// at once; then whom to ask, what they said and who said it. Nothing is diagnosed here.
#include "app/patient/screens/gate/question.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/session/other_sugars.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using part = caution_part;

struct of_one {
  toolkit& k;
  const view& v;
  ui_state& u;
  const choosing& c;
  const caution& one;

  [[nodiscard]] const caution& asked() const { return one; }
  [[nodiscard]] caution_page at(part p) const { return {one.why.rule, p}; }
  // The page after its question was answered.
  [[nodiscard]] choose_page next() const { return page_after(v, u, c, at(part::question)); }
  // Which of all the questions it is, from 1.
  [[nodiscard]] std::ptrdiff_t place() const { return &one - c.cautions.data() + 1; }
  [[nodiscard]] const reported_caution* told() const {
    const noted_caution* found = find_noted_caution(v.s, asked().why.rule);
    return found == nullptr ? nullptr : &found->what;
  }
  [[nodiscard]] bool is_never() const {
    return told() != nullptr && qb::is_never(asked(), *told());
  }
  [[nodiscard]] bool is_stopped() const {
    return is_never() || (told() != nullptr && told()->outcome == asked_outcome::not_this_test);
  }
};

maybe_wish draw_question(const of_one& o, const page_behind& back_page) {
  const std::string place =
      o.v.t("choose.cautions.place",
            {{"n", std::to_string(o.place())}, {"all", std::to_string(o.c.cautions.size())}});
  asked_in_full did =
      ask_in_full(o.k, o.v, o.u,
                  {o.asked(), "choose-cautions", place, back_page.has_value(), o.u.nav.is_side()});
  if (did.back && back_page) o.u.nav.page = *back_page;
  if (did.cancel) leave_choosing(o.u);
  if (!did.told) return std::move(did.out);
  o.u.drafts.plan.asks_later.erase(o.asked().why.rule);
  const bool no = did.told->answer == caution_answer::no;
  o.u.nav.page = no ? o.next() : choose_page(o.at(part::ask));
  return wish{payload{*did.told}};
}

// Where nobody may release it, only the laboratory can help.
bool asks_the_laboratory(const caution& c) {
  const auto& may = c.may_release;
  return may.empty() || std::find(may.begin(), may.end(), releaser::laboratory) != may.end();
}

// Whom to ask and what, so that it can be read out on the telephone.
maybe_wish draw_ask(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  const caution& c = o.asked();
  // "I will ask and come back" was pressed: then "I have asked" is the main way on.
  const bool back_from_asking = o.u.drafts.plan.asks_later.count(c.why.rule) > 0;
  bool later = false;
  bool have_asked = false;
  bool wrong = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.ask.title", {{"whom", c.whom}}));
    show_what_to_ask(k, v, "why", c.text, c.ask, asks_the_laboratory(c));
  };
  const auto actions = [&] {
    if (back_from_asking) {
      have_asked = primary_button(k, "have-asked", v.t("screening.ask.done"));
      later = secondary_button(k, "ask-later", v.t("screening.ask.not-yet"));
    } else {
      later = primary_button(k, "ask-later", v.t("screening.ask.later"));
      have_asked = secondary_button(k, "have-asked", v.t("screening.ask.done"));
    }
    wrong = quiet_button(k, "wrong-press", v.t("screening.wrong-press"));
  };
  auto out = framed_page(k, v, "choose-ask", content, actions);
  if (later) {
    o.u.drafts.plan.asks_later.insert(c.why.rule);
    o.u.nav.page = plan_page::waiting;
  }
  if (have_asked) o.u.nav.page = o.at(part::answer);
  if (wrong) o.u.nav.page = o.at(part::question);
  return out;
}

// This test is not for this person, by their own answer or by whoever was asked.
maybe_wish draw_stop(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  bool wrong = false;
  bool asked = false;
  bool drunk = false;
  bool erase = false;
  ways_back ways;
  const auto content = [&] {
    headline(k, "title", v.t("screening.stop.title"));
    strong(k, "sugar", v.t("screening.stop.sugar"));
    if (o.is_never()) {
      paragraph(k, "why", o.asked().text);
    } else {
      const std::string key =
          o.told()->words.empty() ? "screening.stop.who" : "screening.stop.words";
      paragraph(k, "why", v.t(key, {{"who", o.told()->who}, {"words", o.told()->words}}));
    }
    paragraph(k, "call", v.t("screening.stop.call"));
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (!o.is_never()) asked = secondary_button(k, "have-asked", v.t("screening.stop.asked"));
    wrong = quiet_button(k, "wrong-press", v.t("screening.wrong-press"));
    drunk = quiet_button(k, "drank-first", v.t("drink.first"));
    erase = quiet_button(k, "open-erase", v.t("erase.open"));
    ways = draw_ways_back(k, v, o.u, false);
  };
  auto out = framed_page(k, v, "choose-stop", content, actions);
  if (drunk) open_reported_drink(v, o.u);
  if (erase) o.u.nav.open_side(side_page::erase);
  if (asked) o.u.nav.page = o.at(part::answer);
  if (wrong) o.u.nav.page = o.at(part::question);
  if (ways.cancel) leave_choosing(o.u);
  return out;
}

maybe_wish draw_answer(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  bool go_on = false;
  bool not_this = false;
  bool back = false;
  const bool said_no = o.told()->outcome == asked_outcome::not_this_test;
  const auto content = [&] {
    // What takes a no back is said over the whole question.
    if (said_no) {
      show_question(k, v, o.asked());
      paragraph(k, "said", said_words(v, *o.told()));
      heading(k, "now", v.t("screening.answer.title"));
      return;
    }
    headline(k, "title", v.t("screening.answer.title"));
    paragraph(k, "about", v.t("screening.answer.about", {{"name", o.asked().name}}));
  };
  const auto actions = [&] {
    if (!o.asked().may_release.empty())
      go_on = secondary_button(k, "allowed", v.t("screening.answer.go-on"));
    not_this = secondary_button(k, "not-this-test", v.t("screening.answer.not-this-test"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-answer", content, actions);
  if (go_on || not_this) {
    forget_who_said(o.u);
    o.u.drafts.plan.advice.outcome = go_on ? asked_outcome::go_on : asked_outcome::not_this_test;
    o.u.nav.page = o.at(part::who);
  }
  if (back) o.u.nav.page = o.at(part::ask);
  return out;
}

maybe_wish draw_who(const of_one& o, part here) {
  maybe_wish out;
  const bool go_on = o.u.drafts.plan.advice.outcome == asked_outcome::go_on;
  who_said_pages pages{o.at(part::answer), o.at(part::who), o.at(part::said), here == part::said,
                       true};
  if (go_on) pages.may_say = o.asked().may_release;
  const auto said = draw_who_said(o.k, o.v, o.u, pages, out);
  if (!said) return out;
  forget_who_said(o.u);
  o.u.drafts.plan.asks_later.erase(o.asked().why.rule);
  o.u.nav.page = go_on ? o.next() : choose_page(o.at(part::ask));
  reported_caution told = *o.told();
  told.asked_again = !go_on ? false : told.outcome == asked_outcome::not_this_test;
  told.outcome = go_on ? asked_outcome::go_on : asked_outcome::not_this_test;
  told.who = said->who;
  told.words = said->words;
  told.by = o.u.drafts.answers;
  told.for_test = o.c.test.test.id;
  told.said_by.reset();
  if (go_on) told.said_by = said->said_by;
  return wish{payload{std::move(told)}};
}

} // namespace

// Which are asked and what they lead to is core's; here they get their words.
std::vector<caution> asked_cautions(const view& v, const protocol& test) {
  std::vector<const protocol*> offered;
  for (const offered_test& other : v.tests)
    offered.push_back(&other.test);
  std::vector<caution> out = asked_before_plan(v.s, test, offered);
  for (caution& c : out) {
    if (is_own_question(test, c.why.rule)) continue;
    c.text = v.t("screening.other-sugar");
    c.whom = v.t("screening.other-sugar.whom");
    c.ask = v.t("screening.other-sugar.ask", {{"sugar", test.sugar.name}});
  }
  return out;
}

bool is_answered(const view& v, const caution& c) {
  return find_noted_caution(v.s, c.why.rule) != nullptr;
}

bool waits(const view& v, const protocol& p, const caution& c) {
  const noted_caution* told = find_noted_caution(v.s, c.why.rule);
  return told != nullptr && is_open(p, c, told->what);
}

std::optional<choose_page> next_question(const view& v, const ui_state& u, const choosing& c,
                                         const std::optional<choose_page>& answered) {
  std::vector<std::pair<choose_page, bool>> all; // page, told
  for (const caution& x : c.cautions)
    all.emplace_back(caution_page{x.why.rule}, is_answered(v, x));
  for (const washout& x : c.test.test.washouts)
    all.emplace_back(medicine_page{x.why.rule}, is_answered(v, u, x));
  const auto here =
      std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.first == answered; });
  if (here != all.end()) std::rotate(all.begin(), here + 1, all.end());
  for (const auto& [question, told] : all) {
    if (!told && question != answered) return question;
  }
  return std::nullopt;
}

choose_page page_after(const view& v, const ui_state& u, const choosing& c,
                       const choose_page& answered) {
  return next_question(v, u, c, answered).value_or(plan_page::unanswered);
}

maybe_wish draw_caution_page(toolkit& k, const view& v, ui_state& u, const choosing& c,
                             const caution& asked, caution_part shown, const page_behind& back) {
  const of_one o{k, v, u, c, asked};
  if (shown == part::question || o.told() == nullptr) return draw_question(o, back);
  if (shown == part::who || shown == part::said) return draw_who(o, shown);
  if (shown == part::answer) return draw_answer(o);
  return o.is_stopped() ? draw_stop(o) : draw_ask(o);
}

} // namespace qb::inline screens
