// Making a plan: which test, which form of the sugar, what must be asked first, then the start.
// Answers are facts, choices are drafts; both outlive a kill, so the pages begin where they
// stopped.
#include "app/patient/screens/plan/choose_pages.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using page = plan_page;

bool form_chosen(const ui_state& u, const protocol& p) {
  return find_form(p, u.drafts.plan.form) != nullptr;
}

// The pages of this test in their order, without those that only some answers lead to.
std::vector<choose_page> pages_of(const view& v, const choosing& c) {
  std::vector<choose_page> out;
  if (!v.s.kit) out.emplace_back(page::test);
  if (c.test.test.sugar.forms.size() > 1) out.emplace_back(page::form);
  out.emplace_back(page::answerer);
  for (const caution& x : c.cautions)
    out.emplace_back(caution_page{x.why.rule});
  for (const washout& x : c.test.test.washouts)
    out.emplace_back(medicine_page{x.why.rule});
  for (const page last : {page::hours, page::start, page::review})
    out.emplace_back(last);
  return out;
}

page_behind page_before(const view& v, const choosing& c, const choose_page& here) {
  const auto all = pages_of(v, c);
  const auto at = std::find(all.begin(), all.end(), here);
  return at == all.begin() || at == all.end() ? std::nullopt : page_behind(*(at - 1));
}

// What the plan has to stop at.
std::optional<choose_page> stopped_at(const view& v, const choosing& c) {
  for (const caution& x : c.cautions) {
    const noted_caution* told = find_noted_caution(v.s, x.why.rule);
    if (told == nullptr || !is_open(c.test.test, x, told->what)) continue;
    if (is_never(x, told->what) || told->what.outcome == asked_outcome::not_this_test)
      return caution_page{x.why.rule, caution_part::ask};
  }
  return std::nullopt;
}

bool anything_waits(const view& v, const choosing& c) {
  const auto& washouts = c.test.test.washouts;
  return std::any_of(c.cautions.begin(), c.cautions.end(),
                     [&](const caution& x) { return waits(v, c.test.test, x); }) ||
         std::any_of(washouts.begin(), washouts.end(),
                     [&](const washout& x) { return waits(v, x); });
}

// The first page without an answer; the start always wants a look.
choose_page first_open(const view& v, const ui_state& u, const choosing& c) {
  if (!form_chosen(u, c.test.test)) return page::form;
  if (const auto stop = stopped_at(v, c)) return *stop;
  if (anything_waits(v, c)) return page::waiting;
  if (const auto question = next_question(v, u, c))
    return u.drafts.answers ? *question : choose_page(page::answerer);
  return reported_hours(u) ? page::start : page::hours;
}

// No start may be offered that would be refused: those pages come after all questions.
bool comes_last(const choose_page& here) {
  const page* at = std::get_if<page>(&here);
  return at != nullptr &&
         (*at == page::hours || *at == page::days || *at == page::times || *at == page::start ||
          *at == page::review || *at == page::trying || *at == page::fold);
}

// A start that is moved begins with what was planned; a kit's code says which test it is for.
void prefill(const view& v, ui_state& u) {
  plan_draft& draft = u.drafts.plan;
  if (v.s.kit) draft.test = v.s.kit->protocol_id;
  const offered_test* test = find_test(v, draft.test);
  if (test == nullptr && v.s.planned) test = find_test(v, v.s.planned->what.protocol_id);
  if (test == nullptr) return;
  draft.test = test->id;
  if (test->test.sugar.forms.size() == 1) draft.form = test->test.sugar.forms.front().form;
  if (v.s.planned && v.s.planned->what.protocol_id == test->id && !form_chosen(u, test->test))
    draft.form = v.s.planned->form;
}

std::string names_of(const substrate& sugar) {
  std::string out;
  for (const std::string& name : sugar.packet_names)
    out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? sugar.name : out;
}

maybe_wish draw_test(toolkit& k, const view& v, ui_state& u) {
  const std::string chosen = u.drafts.plan.test;
  std::optional<std::size_t> picked;
  bool on = false;
  bool other = false;
  bool back = false;
  std::vector<choice> choices;
  for (const offered_test& t : v.tests)
    choices.push_back(
        {t.id, t.test.title, v.t("choose.test.packet", {{"names", names_of(t.test.sugar)}})});
  const auto content = [&] {
    headline(k, "title", v.t("choose.test.title"));
    paragraph(k, "look", v.t("choose.test.look"));
    if (auto c = choice_list(k, "test", choices, chosen)) picked = c;
  };
  const auto actions = [&] {
    if (find_test(v, chosen) != nullptr) {
      on = primary_button(k, "next", v.t("common.next"));
    } else {
      waiting_button(k, "next", v.t("choose.pick-one"));
    }
    other = quiet_button(k, "other-packet", v.t("choose.test.other"));
    if (u.nav.is_side()) back = quiet_button(k, "back", v.t("common.cancel"));
  };
  auto out = framed_page(k, v, "choose-test", content, actions);
  if (picked) {
    u.drafts.plan.test = choices.at(*picked).key;
    u.nav.page = page::test; // stays until "next", whatever else is answered
    offer_anew(u);
  }
  if (on) u.nav.page = page::unanswered;
  if (other) u.nav.page = page::ask_packet;
  if (back) leave_choosing(u);
  return out;
}

maybe_wish draw_form(toolkit& k, const view& v, ui_state& u, const protocol& p,
                     const page_behind& back_page) {
  std::optional<std::size_t> picked;
  bool on = false;
  ways_back ways;
  std::vector<choice> choices;
  for (const sugar_form& f : p.sugar.forms)
    choices.push_back(
        {f.form, v.t("choose.form." + f.form),
         v.t("choose.form.amount", {{"n", std::to_string(f.amount)}, {"unit", f.unit}})});
  const auto content = [&] {
    headline(k, "title", v.t("choose.form.title", {{"sugar", p.sugar.name}}));
    picture(k, "picture", picture_of::sugar_glass, v.t("choose.form.picture"), true);
    if (auto c = choice_list(k, "form", choices, u.drafts.plan.form)) picked = c;
  };
  const auto actions = [&] {
    if (form_chosen(u, p)) {
      on = primary_button(k, "next", v.t("common.next"));
    } else {
      waiting_button(k, "next", v.t("choose.pick-one"));
    }
    ways = draw_ways_back(k, v, u, back_page.has_value());
  };
  auto out = framed_page(k, v, "choose-form", content, actions);
  if (picked) {
    u.drafts.plan.form = choices.at(*picked).key;
    u.nav.page = page::form;
  }
  if (on) u.nav.page = page::unanswered;
  if (ways.back) u.nav.page = *back_page;
  if (ways.cancel) leave_choosing(u);
  return out;
}

// Asked once: the record keeps with each answer who gave it.
maybe_wish draw_answerer(toolkit& k, const view& v, ui_state& u, const page_behind& back_page) {
  std::optional<answerer> who;
  ways_back ways;
  const auto content = [&] {
    headline(k, "title", v.t("answers.title"));
    paragraph(k, "why", v.t("answers.why"));
  };
  const auto actions = [&] {
    for (const answerer one : {answerer::person, answerer::parent, answerer::carer}) {
      const std::string key = std::string("answers-") + key_of(one);
      if (secondary_button(k, key, v.t(std::string("answers.") + key_of(one)))) who = one;
    }
    ways = draw_ways_back(k, v, u, back_page.has_value());
  };
  auto out = framed_page(k, v, "choose-answerer", content, actions);
  if (ways.back) u.nav.page = *back_page;
  if (ways.cancel) leave_choosing(u);
  if (!who) return out;
  u.drafts.answers = who;
  u.nav.page = page::unanswered;
  return out;
}

// Only the laboratory can go on from here: another packet, another age, a kit it must know of.
maybe_wish draw_laboratory(toolkit& k, const view& v, ui_state& u, const std::string& words,
                           const page_behind& back_page) {
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.ask." + words + ".title"));
    picture(k, "picture", picture_of::phone, v.t("choose.ask.picture"), true);
    paragraph(k, "why", v.t("choose.ask." + words));
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (back_page || u.nav.is_side())
      back = primary_button(k, "back", v.t(back_page ? "common.back" : "common.close"));
  };
  auto out = framed_page(k, v, "choose-ask-" + words, content, actions);
  if (back && back_page) u.nav.page = *back_page;
  if (back && !back_page) leave_choosing(u);
  return out;
}

bool age_is_right(const view& v, const protocol& p) {
  return !v.s.person || age_fits(p, v.s.person->birth_date, today(v));
}

template <typename Asked>
const Asked* find_asked(const std::vector<Asked>& all, const std::string& rule) {
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const Asked& x) { return x.why.rule == rule; });
  return at == all.end() ? nullptr : &*at;
}

// A question that is not asked any more gives way to the start.
maybe_wish draw_page(toolkit& k, const view& v, ui_state& u, const choosing& c,
                     const choose_page& here) {
  const protocol& p = c.test.test;
  const page_behind before = page_before(v, c, here);
  if (const auto* one = std::get_if<caution_page>(&here)) {
    if (const caution* asked = find_asked(c.cautions, one->rule))
      return draw_caution_page(k, v, u, c, *asked, one->part, before);
  } else if (const auto* of = std::get_if<medicine_page>(&here)) {
    if (const washout* asked = find_asked(p.washouts, of->rule))
      return draw_medicine_page(k, v, u, c, *asked, of->part, before);
  } else {
    switch (std::get<page>(here)) {
    case page::form: return draw_form(k, v, u, p, before);
    case page::answerer: return draw_answerer(k, v, u, before);
    case page::waiting: return draw_waiting(k, v, u, c);
    case page::hours: return draw_hours(k, v, u, p, before);
    case page::days: return draw_days(k, v, u, p);
    case page::times: return draw_times(k, v, u, p);
    case page::review: return draw_review(k, v, u, c.test);
    case page::trying: return draw_trying(k, v, u, c.test);
    case page::fold: return draw_fold(k, v, u);
    case page::start:
    case page::unanswered:
    case page::test:
    case page::ask_packet: break;
    }
  }
  return draw_start(k, v, u, p, page_before(v, c, page::start));
}

} // namespace

void choose_another_sugar(ui_state& u) {
  u.nav.open_side(side_page::choose, page::test);
}

ways_back draw_ways_back(toolkit& k, const view& v, const ui_state& u, bool can_go_back) {
  ways_back out;
  const bool can_cancel = u.nav.is_side();
  if (can_go_back && can_cancel) {
    const int pair = button_pair(k, "back", v.t("common.back"), "cancel", v.t("common.cancel"));
    return {pair == 1, pair == 2};
  }
  if (can_go_back) out.back = quiet_button(k, "back", v.t("common.back"));
  if (can_cancel) out.cancel = quiet_button(k, "cancel", v.t("common.cancel"));
  return out;
}

maybe_wish draw_choose(toolkit& k, const view& v, ui_state& u) {
  prefill(v, u);
  const offered_test* test = find_test(v, u.drafts.plan.test);
  if (v.s.kit && test == nullptr) return draw_laboratory(k, v, u, "kit", {});
  const choose_page wanted = u.nav.page_in<choose_page>();
  const page_behind back = v.s.kit ? std::nullopt : page_behind(page::test);
  const bool asks_packet = wanted == choose_page(page::ask_packet);
  const bool asks_test = wanted == choose_page(page::test);
  if (asks_packet || (asks_test && v.s.kit)) return draw_laboratory(k, v, u, "packet", back);
  if (test == nullptr || asks_test) return draw_test(k, v, u);
  if (!age_is_right(v, test->test)) return draw_laboratory(k, v, u, "age", back);
  const choosing c{*test, asked_cautions(v, test->test)};
  const choose_page open = first_open(v, u, c);
  const bool too_far = comes_last(wanted) && !comes_last(open);
  const bool anywhere = wanted == choose_page(page::unanswered);
  return draw_page(k, v, u, c, anywhere || too_far ? open : wanted);
}

} // namespace qb::inline screens
