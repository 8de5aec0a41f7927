// Making a plan: which test, which form of the sugar, what must be asked first, then the start.
// Answers are facts, choices are drafts; both outlive a kill, so the pages begin where they
// stopped.
#include "app/patient/screens/plan/choose_pages.hpp"

#include <algorithm>

namespace qb {

namespace {

namespace page = choose_page;

bool form_chosen(const ui_state& u, const protocol& p) {
  const std::string form = draft_of(u, draft::form);
  return std::any_of(p.sugar.forms.begin(), p.sugar.forms.end(),
                     [&](const sugar_form& f) { return f.form == form; });
}

// The pages of this test in their order, without those that only some answers lead to.
std::vector<int> pages_of(const view& v, const choosing& c) {
  std::vector<int> out;
  if (!v.s.kit) out.push_back(page::test);
  if (c.test.test.sugar.forms.size() > 1) out.push_back(page::form);
  for (std::size_t i = 0; i < c.cautions.size(); ++i)
    out.push_back(page::caution + static_cast<int>(i));
  for (std::size_t i = 0; i < c.test.test.washouts.size(); ++i)
    out.push_back(page::washout + static_cast<int>(i));
  for (const int last : {page::hours, page::start, page::review})
    out.push_back(last);
  return out;
}

// 0 for the first.
int page_before(const view& v, const choosing& c, int here) {
  const auto all = pages_of(v, c);
  const auto at = std::find(all.begin(), all.end(), here);
  return at == all.begin() || at == all.end() ? 0 : *(at - 1);
}

// What the plan has to stop at; 0 for nothing.
int stopped_at(const view& v, const choosing& c) {
  for (std::size_t i = 0; i < c.cautions.size(); ++i) {
    const noted_caution* told = find_noted_caution(v.s, c.cautions[i].why.rule);
    if (told == nullptr || !is_open(c.cautions[i], told->what)) continue;
    const bool never =
        c.cautions[i].leads == leads_to::not_this_test && told->what.answer == caution_answer::yes;
    if (never || told->what.outcome == asked_outcome::not_this_test)
      return page::ask_caution + static_cast<int>(i);
  }
  return 0;
}

bool anything_waits(const view& v, const choosing& c) {
  const auto& washouts = c.test.test.washouts;
  return std::any_of(c.cautions.begin(), c.cautions.end(),
                     [&](const caution& x) { return waits(v, x); }) ||
         std::any_of(washouts.begin(), washouts.end(),
                     [&](const washout& x) { return waits(v, x); });
}

// The first page without an answer; the start always wants a look.
int first_open(const view& v, const ui_state& u, const choosing& c) {
  if (!form_chosen(u, c.test.test)) return page::form;
  if (const int stop = stopped_at(v, c)) return stop;
  if (anything_waits(v, c)) return page::waiting;
  if (const int question = next_question(v, u, c, 0)) return question;
  return reported_hours(u) ? page::start : page::hours;
}

// No start may be offered that would be refused: those pages come after all questions.
bool comes_last(int here) {
  return here == page::hours || here == page::days || here == page::times || here == page::start ||
         here == page::review || here == page::fold;
}

// A start that is moved begins with what was planned; a kit's code says which test it is for.
void prefill(const view& v, ui_state& u) {
  if (v.s.kit) u.text[draft::test] = v.s.kit->protocol_id;
  const offered_test* test = find_test(v, draft_of(u, draft::test));
  if (test == nullptr && v.s.planned) test = find_test(v, v.s.planned->what.protocol_id);
  if (test == nullptr) return;
  u.text[draft::test] = test->id;
  if (test->test.sugar.forms.size() == 1) u.text[draft::form] = test->test.sugar.forms.front().form;
  if (v.s.planned && v.s.planned->what.protocol_id == test->id && !form_chosen(u, test->test))
    u.text[draft::form] = v.s.planned->form;
}

std::string names_of(const substrate& sugar) {
  std::string out;
  for (const std::string& name : sugar.packet_names)
    out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? sugar.name : out;
}

maybe_wish draw_test(toolkit& k, const view& v, ui_state& u) {
  const std::string chosen = draft_of(u, draft::test);
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
    if (!u.open.empty()) back = quiet_button(k, "back", v.t("common.cancel"));
  };
  auto out = framed_page(k, v, "choose-test", content, actions);
  if (picked) {
    u.text[draft::test] = choices.at(*picked).key;
    u.page = page::test; // stays until "next", whatever else is answered
    offer_anew(u);
  }
  if (on) u.page = 0;
  if (other) u.page = page::ask_packet;
  if (back) leave_choosing(u);
  return out;
}

maybe_wish draw_form(toolkit& k, const view& v, ui_state& u, const protocol& p, int back_page) {
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
    if (auto c = choice_list(k, "form", choices, draft_of(u, draft::form))) picked = c;
  };
  const auto actions = [&] {
    if (form_chosen(u, p)) {
      on = primary_button(k, "next", v.t("common.next"));
    } else {
      waiting_button(k, "next", v.t("choose.pick-one"));
    }
    ways = draw_ways_back(k, v, u, back_page != 0);
  };
  auto out = framed_page(k, v, "choose-form", content, actions);
  if (picked) {
    u.text[draft::form] = choices.at(*picked).key;
    u.page = page::form;
  }
  if (on) u.page = 0;
  if (ways.back) u.page = back_page;
  if (ways.cancel) leave_choosing(u);
  return out;
}

// Only the laboratory can go on from here: another packet, another age, a kit it must know of.
maybe_wish draw_laboratory(toolkit& k, const view& v, ui_state& u, const std::string& words,
                           int back_page) {
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.ask." + words + ".title"));
    picture(k, "picture", picture_of::phone, v.t("choose.ask.picture"), true);
    paragraph(k, "why", v.t("choose.ask." + words));
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (back_page != 0 || !u.open.empty())
      back = primary_button(k, "back", v.t(back_page != 0 ? "common.back" : "common.close"));
  };
  auto out = framed_page(k, v, "choose-ask-" + words, content, actions);
  if (back && back_page != 0) u.page = back_page;
  if (back && back_page == 0) leave_choosing(u);
  return out;
}

bool age_is_right(const view& v, const protocol& p) {
  return !v.s.person || age_fits(p, v.s.person->birth_date, today(v));
}

maybe_wish draw_page(toolkit& k, const view& v, ui_state& u, const choosing& c, int here) {
  const protocol& p = c.test.test;
  const int before = page_before(v, c, here);
  switch (here) {
  case page::form: return draw_form(k, v, u, p, before);
  case page::waiting: return draw_waiting(k, v, u, c);
  case page::hours: return draw_hours(k, v, u, p, before);
  case page::days: return draw_days(k, v, u, p);
  case page::times: return draw_times(k, v, u, p);
  case page::review: return draw_review(k, v, u, c.test);
  case page::fold: return draw_fold(k, v, u);
  default: break;
  }
  const auto place = static_cast<std::size_t>(here % page::each);
  switch (here - here % page::each) {
  case page::caution:
  case page::ask_caution:
  case page::answer_caution:
  case page::who_caution:
  case page::said_caution:
    if (place < c.cautions.size()) return draw_caution_page(k, v, u, c, here, before);
    break;
  case page::washout:
  case page::advice:
  case page::last_dose:
  case page::how:
  case page::who_washout:
  case page::said_washout:
    if (place < p.washouts.size()) return draw_medicine_page(k, v, u, c, here, before);
    break;
  default: break;
  }
  return draw_start(k, v, u, p, page_before(v, c, page::start));
}

} // namespace

void choose_another_sugar(ui_state& u) {
  open_side(u, "choose");
  u.page = page::test;
}

ways_back draw_ways_back(toolkit& k, const view& v, const ui_state& u, bool can_go_back) {
  ways_back out;
  const bool can_cancel = !u.open.empty();
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
  const offered_test* test = find_test(v, draft_of(u, draft::test));
  if (v.s.kit && test == nullptr) return draw_laboratory(k, v, u, "kit", 0);
  const bool with_kit = v.s.kit.has_value();
  if (u.page == page::ask_packet || (u.page == page::test && with_kit))
    return draw_laboratory(k, v, u, "packet", with_kit ? 0 : page::test);
  if (test == nullptr || u.page == page::test) return draw_test(k, v, u);
  if (!age_is_right(v, test->test))
    return draw_laboratory(k, v, u, "age", with_kit ? 0 : page::test);
  const choosing c{*test, asked_cautions(v, *test)};
  const int open = first_open(v, u, c);
  const bool too_far = comes_last(u.page) && !comes_last(open);
  return draw_page(k, v, u, c, u.page > 0 && !too_far ? u.page : open);
}

} // namespace qb
