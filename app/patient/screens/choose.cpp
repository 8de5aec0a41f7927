// Making a plan: which test, which form of the sugar, what must be asked first; then medicines and
// the start. Every answer is a draft that outlives a kill, so the pages begin where they stopped.
#include "app/patient/screens/choose_pages.hpp"

#include <algorithm>

namespace qb {

namespace {

namespace page = choose_page;

bool form_chosen(const ui_state& u, const protocol& p) {
  const std::string form = draft_of(u, draft::form);
  return std::any_of(p.sugar.forms.begin(), p.sugar.forms.end(),
                     [&](const sugar_form& f) { return f.form == form; });
}

// The pages of this test in their order.
std::vector<int> pages_of(const protocol* p) {
  std::vector<int> out{page::test};
  if (p == nullptr) return out;
  if (p->sugar.forms.size() > 1) out.push_back(page::form);
  for (std::size_t i = 0; i < p->cautions.size(); ++i)
    out.push_back(page::caution + static_cast<int>(i));
  for (std::size_t i = 0; i < p->washouts.size(); ++i)
    out.push_back(page::medicine + static_cast<int>(i));
  out.push_back(page::start);
  out.push_back(page::review);
  return out;
}

int page_before(const protocol* p, int here) {
  const auto all = pages_of(p);
  const auto at = std::find(all.begin(), all.end(), here);
  return at == all.begin() || at == all.end() ? 0 : *(at - 1);
}

// What was said of one caution: "no", or "allowed" once somebody said to go on.
std::string caution_key(const offered_test& test, const caution& c) {
  return "plan.caution." + test.id + "." + c.why.rule;
}

int first_caution(const ui_state& u, const offered_test& test) {
  const auto& all = test.test.cautions;
  const auto open = std::find_if(all.begin(), all.end(), [&](const caution& c) {
    return draft_of(u, caution_key(test, c)).empty();
  });
  return page::caution + (open == all.end() ? 0 : static_cast<int>(open - all.begin()));
}

// The first page without an answer; the start always wants a look.
int first_open(const ui_state& u, const offered_test* test) {
  if (test == nullptr) return page::test;
  if (!form_chosen(u, test->test)) return page::form;
  if (draft_of(u, cautions_key) != test->id && !test->test.cautions.empty())
    return first_caution(u, *test);
  for (std::size_t i = 0; i < test->test.washouts.size(); ++i) {
    if (!medicine_answered(u, test->test.washouts[i])) return page::medicine + static_cast<int>(i);
  }
  return page::start;
}

// A start that is moved begins with what was planned.
void prefill(const view& v, ui_state& u) {
  const offered_test* test = find_test(v, draft_of(u, draft::test));
  if (test == nullptr && v.s.planned) {
    test = find_test(v, v.s.planned->what.protocol_id);
    if (test != nullptr) {
      u.text[draft::test] = test->id;
      u.text[draft::form] = v.s.planned->form;
      u.text[cautions_key] = test->id;
    }
  }
  if (test != nullptr && test->test.sugar.forms.size() == 1)
    u.text[draft::form] = test->test.sugar.forms.front().form;
}

std::string names_of(const substrate& sugar) {
  std::string out;
  for (const std::string& name : sugar.packet_names)
    out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? sugar.name : out;
}

maybe_wish draw_test(kit& k, const view& v, ui_state& u) {
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
  }
  if (on) u.page = 0;
  if (other) u.page = page::ask_packet;
  if (back) open_side(u, "");
  return out;
}

maybe_wish draw_form(kit& k, const view& v, ui_state& u, const protocol& p) {
  std::optional<std::size_t> picked;
  bool on = false;
  bool back = false;
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
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-form", content, actions);
  if (picked) {
    u.text[draft::form] = choices.at(*picked).key;
    u.page = page::form;
  }
  if (on) u.page = 0;
  if (back) u.page = page::test;
  return out;
}

// Goes on to the next caution; after the last, all of them are answered.
void answer_caution(ui_state& u, const offered_test& test, std::size_t place,
                    const std::string& said) {
  const auto& all = test.test.cautions;
  u.text[caution_key(test, all.at(place))] = said;
  u.page = 0;
  if (place + 1 < all.size()) {
    u.page = page::caution + static_cast<int>(place) + 1;
    return;
  }
  const bool allowed = std::any_of(all.begin(), all.end(), [&](const caution& c) {
    return draft_of(u, caution_key(test, c)) == "allowed";
  });
  u.text[cautions_key] = test.id;
  u.text[std::string(cautions_key) + ".allowed"] = allowed ? "yes" : "";
}

maybe_wish draw_caution(kit& k, const view& v, ui_state& u, const offered_test& test,
                        std::size_t place) {
  const auto& all = test.test.cautions;
  bool no = false;
  bool yes = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.cautions.title"));
    paragraph(k, all.at(place).why.rule, all.at(place).text);
    quiet_text(k, "place",
               v.t("choose.cautions.place",
                   {{"n", std::to_string(place + 1)}, {"all", std::to_string(all.size())}}));
  };
  const auto actions = [&] {
    no = primary_button(k, "none-true", v.t("choose.cautions.no"));
    yes = secondary_button(k, "one-true", v.t("choose.cautions.yes"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-cautions", content, actions);
  const int here = static_cast<int>(place);
  if (no) answer_caution(u, test, place, "no");
  if (yes) u.page = page::ask_caution + here;
  if (back) u.page = page_before(&test.test, page::caution + here);
  return out;
}

// Somebody must be asked: nothing is planned until they said yes. `place` is the caution's; none
// for a packet with another name.
maybe_wish draw_ask(kit& k, const view& v, ui_state& u, const offered_test* test,
                    std::optional<std::size_t> place) {
  const bool packet = test == nullptr || !place;
  const std::string words = packet ? "choose.ask.packet" : "choose.ask.caution";
  bool allowed = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.ask.title"));
    picture(k, "picture", picture_of::phone, v.t("choose.ask.picture"), true);
    paragraph(k, "why", v.t(words));
    laboratory_facts(k, v);
    if (!packet) paragraph(k, "doctor", v.t("choose.ask.doctor"));
  };
  const auto actions = [&] {
    back = primary_button(k, "back", v.t("common.back"));
    if (!packet) allowed = quiet_button(k, "allowed", v.t("choose.ask.allowed"));
  };
  auto out = framed_page(k, v, "choose-ask", content, actions);
  if (allowed && !packet) answer_caution(u, *test, *place, "allowed");
  if (back) u.page = packet ? page::test : page::caution + static_cast<int>(*place);
  return out;
}

} // namespace

void choose_another_sugar(ui_state& u) {
  open_side(u, "choose");
  u.page = page::test;
}

maybe_wish draw_choose(kit& k, const view& v, ui_state& u) {
  prefill(v, u);
  const offered_test* test = find_test(v, draft_of(u, draft::test));
  const int here = u.page > 0 && test != nullptr ? u.page : first_open(u, test);
  if (u.page == page::ask_packet) return draw_ask(k, v, u, test, std::nullopt);
  if (test == nullptr || here == page::test) return draw_test(k, v, u);
  const protocol& p = test->test;
  if (here == page::form) return draw_form(k, v, u, p);
  if (here == page::review) return draw_review(k, v, u, *test);
  if (here == page::fold) return draw_fold(k, v, u);
  // The hundreds say which question, the rest which medicine or caution.
  const int place = here % page::medicine;
  const int question = here - place;
  const auto at = static_cast<std::size_t>(place);
  if (question == page::caution && at < p.cautions.size()) return draw_caution(k, v, u, *test, at);
  if (question == page::ask_caution && at < p.cautions.size()) return draw_ask(k, v, u, test, at);
  if (question >= page::medicine && question < page::caution && at < p.washouts.size()) {
    const washout& w = p.washouts.at(at);
    switch (question) {
    case page::advice: return draw_medicine_advice(k, v, u, w, place);
    case page::last_dose: return draw_last_dose(k, v, u, w, place);
    default: return draw_medicine(k, v, u, w, place, page_before(&p, page::medicine + place));
    }
  }
  return draw_start(k, v, u, p, page_before(&p, page::start));
}

} // namespace qb
