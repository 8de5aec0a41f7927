// Who does the test: one question a page, then all of it to check.
// Also opened later to put something right; what was said before is filled in.
#include "app/patient/screens/plan/kit_page.hpp"
#include "app/patient/screens/reach.hpp"
#include "app/patient/screens/typed_date.hpp"
#include "core/base/text.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/session/after_loss.hpp"
#include "core/session/limits.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <array>

namespace qb::inline screens {

namespace {

struct question {
  who_page page;
  answer_draft person_draft::*draft;
  const char* id;
  text_kind kind;
  std::size_t longest;
  bool may_be_empty;
};

constexpr std::array<question, 5> questions{{
    {who_page::name, &person_draft::name, "name", text_kind::name, longest_name, false},
    {who_page::birth, &person_draft::birth, "birth", text_kind::number, longest_date, false},
    {who_page::doctor, &person_draft::doctor, "doctor", text_kind::name, longest_name, true},
    {who_page::kit, &person_draft::kit, "kit", text_kind::code, longest_kit, false},
    {who_page::laboratory, &person_draft::laboratory, "laboratory", text_kind::name, longest_name,
     true},
}};
constexpr std::size_t birth = 1;
constexpr std::size_t kit_question = 3;
constexpr std::size_t laboratory = 4;

std::string key_of(const question& q) {
  return std::string("who.") + q.id;
}

answer_draft& draft_of(ui_state& u, const question& q) {
  return u.drafts.who.*q.draft;
}

// What stands on that line.
std::string typed_in(const ui_state& u, const question& q) {
  return (u.drafts.who.*q.draft).text.value_or("");
}

// What is known already stands in the fields before they are first drawn.
void prefill(const view& v, ui_state& u) {
  const auto put = [&](std::size_t i, const std::string& value) {
    std::optional<std::string>& line = draft_of(u, questions.at(i)).text;
    if (!line) line = value;
  };
  if (v.s.person) {
    const reported_person& p = *v.s.person;
    put(0, p.name);
    put(birth, typed_text(p.birth_date));
    put(2, p.doctor);
    put(kit_question, p.kit_number);
    put(laboratory, p.laboratory);
    for (const question& q : questions)
      draft_of(u, q).seen = true;
    // After a loss that there is no code is asked again: one that forbids may be lost.
    const bool again = is_person_lost(v.s);
    if (!v.s.kit && !again && !u.drafts.who.no_code) u.drafts.who.no_code = true;
  }
  if (v.s.kit && !u.drafts.who.code) u.drafts.who.code = v.s.kit->code;
  put(laboratory, v.lab.name);
}

// Why a typed birth date cannot be one; empty for nothing.
std::string birth_complaint(const view& v, const std::string& typed) {
  const auto date = parse_typed_date(typed);
  if (!date) return v.t("who.birth.no-date");
  if (*date > today(v)) return v.t("who.birth.future");
  constexpr std::chrono::years oldest{130}; // nobody lived longer: another year was meant
  return *date + oldest < today(v) ? v.t("who.birth.no-date") : "";
}

// Why a typed kit number cannot be one; empty for nothing.
std::string kit_complaint(const view& v, const std::string& typed) {
  return typed.size() > most_kit_number ? v.t("papers.kit-long", {{"tel", telephone_words(v)}})
                                        : "";
}

// Why what was typed cannot stand; empty for nothing.
std::string complaint_of(const view& v, std::size_t i, const std::string& typed) {
  if (typed.empty()) return {};
  if (i == birth) return birth_complaint(v, typed);
  return i == kit_question ? kit_complaint(v, typed) : "";
}

bool answered(const view& v, const ui_state& u, std::size_t i) {
  const question& q = questions.at(i);
  const std::string value = trimmed(typed_in(u, q));
  if (value.empty() && !q.may_be_empty) return false;
  if (!complaint_of(v, i, value).empty()) return false;
  if (i == kit_question && asks_for_code(u) && !reported_code(v, u)) return false;
  return (u.drafts.who.*q.draft).seen;
}

who_page page_of(const view& v, const ui_state& u) {
  const who_page wanted = u.nav.page_in<who_page>();
  if (wanted != who_page::unanswered) return wanted;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    if (!answered(v, u, i)) return questions.at(i).page;
  }
  return who_page::check;
}

std::size_t place_of(who_page page) {
  const auto at = std::find_if(questions.begin(), questions.end(),
                               [&](const question& q) { return q.page == page; });
  QB_BELIEVE(at != questions.end());
  return static_cast<std::size_t>(at - questions.begin());
}

// The page before that question's; before the first it is all of them to check.
who_page page_before(std::size_t i) {
  return i == 0 ? who_page::check : questions.at(i - 1).page;
}

maybe_wish draw_question(toolkit& k, const view& v, ui_state& u, std::size_t i) {
  const question& q = questions.at(i);
  const std::string key = key_of(q);
  std::string& value = line_of(draft_of(u, q).text);
  const bool empty = trimmed(value).empty();
  const std::string complaint = complaint_of(v, i, trimmed(value));
  bool on = false;
  bool back = false;
  bool code = false;
  const auto content = [&] {
    headline(k, "title", v.t(key + ".title"));
    paragraph(k, "why", v.t(key + ".why"));
    field_view field{v.t(key + ".label"), v.t("who.press"), complaint, q.kind, q.longest};
    (void)text_field(k, key, field, value);
    outside_line_of(k, v, complaint);
    if (i == birth && !empty && complaint.empty())
      strong(k, "birth-words",
             v.t("who.birth.words", {{"date", long_date(*parse_typed_date(value))}}));
  };
  const auto actions = [&] {
    if (complaint.empty() && !empty) {
      on = primary_button(k, "next", v.t("common.next"));
    } else if (empty && q.may_be_empty) {
      on = primary_button(k, "next", v.t("who.leave-empty"));
    } else {
      waiting_button(k, "next", v.t(complaint.empty() ? key + ".wait" : key + ".wrong"));
    }
    const bool first = i == 0 && !u.nav.is_side();
    if (!first) back = quiet_button(k, "back", v.t("common.back"));
    if (i == kit_question) code = quiet_button(k, "has-code", v.t("who.code.has"));
  };
  auto out = framed_page(k, v, "who-" + std::string(q.id), content, actions);
  if (on) {
    draft_of(u, q).seen = true;
    u.nav.page = who_page::unanswered;
  }
  if (back) u.nav.page = page_before(i);
  if (code) u.drafts.who.no_code = false;
  return out;
}

// The kit by its code: it says the laboratory as well.
maybe_wish draw_code_question(toolkit& k, const view& v, ui_state& u) {
  const code_page_result r = draw_kit_code(k, v, u);
  if (r.told) {
    for (const std::size_t i : {kit_question, laboratory})
      draft_of(u, questions.at(i)).seen = true;
    u.nav.page = who_page::unanswered;
  }
  if (r.back) u.nav.page = page_before(kit_question);
  return r.wished;
}

// Leaves a correction: what was typed and not said is forgotten.
void forget_drafts(ui_state& u) {
  u.drafts.who = {};
  u.nav.close_side();
}

maybe_wish draw_age(toolkit& k, const view& v, ui_state& u, civil_date born) {
  bool wrong = false;
  bool leave = false;
  auto out = draw_age_stop(k, v, u, born, wrong, leave);
  if (wrong) {
    u.drafts.who.birth.text = "";
    u.nav.page = who_page::birth;
  }
  if (leave) forget_drafts(u);
  return out;
}

// One of the answers is to be written anew.
maybe_wish draw_change(toolkit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool back = false;
  std::vector<choice> choices;
  for (const question& q : questions)
    choices.push_back({q.id, v.t(key_of(q) + ".label"), typed_in(u, q)});
  if (v.s.kit) choices[kit_question].title = v.t("who.code.label");
  if (const auto date = parse_typed_date(choices[birth].detail))
    choices[birth].detail = long_date(*date);
  const auto content = [&] {
    headline(k, "title", v.t("who.change-title"));
    if (auto c = menu_list(k, "change", choices)) picked = c;
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "who-change", content, actions);
  if (back) u.nav.page = who_page::check;
  if (picked) u.nav.page = questions.at(*picked).page;
  return out;
}

maybe_wish draw_check(toolkit& k, const view& v, ui_state& u) {
  bool right = false;
  bool change = false;
  bool leave = false;
  bool erase = false;
  const auto said = [&](std::size_t i) { return trimmed(typed_in(u, questions.at(i))); };
  const auto date = parse_typed_date(said(birth));
  const offered_test* kit_test = v.s.kit ? find_test(v, v.s.kit->protocol_id) : nullptr;
  const auto content = [&] {
    headline(k, "title", v.t("who.check-title"));
    std::vector<fact> rows;
    for (std::size_t i = 0; i < questions.size(); ++i) {
      std::string value = i == birth && date ? long_date(*date) : said(i);
      if (i == kit_question) value = kit_key(value);
      if (value.empty()) value = v.t("who.nothing");
      rows.push_back({v.t(key_of(questions.at(i)) + ".label"), value});
      if (i == kit_question && kit_test != nullptr)
        rows.push_back({v.t("who.code.test"), kit_test->test.title});
    }
    facts(k, "who", rows);
    quiet_text(k, "use", v.t("who.use"));
  };
  const auto actions = [&] {
    right = primary_button(k, "right", v.t("who.right"));
    change = secondary_button(k, "change", v.t("who.change"));
    if (u.nav.is_side()) leave = quiet_button(k, "back", v.t("common.cancel"));
    if (!u.nav.is_side()) erase = quiet_button(k, "open-erase", v.t("erase.open"));
  };
  auto out = framed_page(k, v, "who-check", content, actions);
  if (change) u.nav.page = who_page::change;
  if (erase) u.nav.open_side(side_page::erase);
  if (leave) forget_drafts(u);
  if (right && date) {
    u.nav.close_side();
    return wish{
        payload{reported_person{said(0), *date, said(2), kit_key(said(kit_question)), said(4)}}};
  }
  return out;
}

} // namespace

maybe_wish draw_who(toolkit& k, const view& v, ui_state& u) {
  prefill(v, u);
  if (kit_differs_from_plan(v)) return draw_kit_differs(k, v);
  const std::string typed = typed_in(u, questions.at(birth));
  const auto born = parse_typed_date(typed);
  const bool typing = !k.keyboard().key.empty();
  if (born && !typing && birth_complaint(v, typed).empty() && age_fits_none(v, *born))
    return draw_age(k, v, u, *born);
  const who_page page = page_of(v, u);
  if (page == who_page::change) return draw_change(k, v, u);
  if (page == who_page::check) return draw_check(k, v, u);
  const auto i = place_of(page);
  if (i == kit_question && asks_for_code(u)) return draw_code_question(k, v, u);
  return draw_question(k, v, u, i);
}

} // namespace qb::inline screens
