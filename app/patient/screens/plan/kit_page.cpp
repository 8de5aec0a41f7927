// The kit code typed or scanned, and the stops it may lead to.
#include "app/patient/screens/plan/kit_page.hpp"

#include "app/patient/screens/reach.hpp"
#include "core/protocol/kit_code.hpp"
#include "core/session/after_loss.hpp"
#include "core/session/limits.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using fault_kind = kit_code_fault::kind;

// Letter, figure or sign: what the character that no code has is called.
std::string never_used_words(const view& v, const std::string& found) {
  const char c = found.size() == 1 ? found.front() : '\0';
  const char* key = c >= 'A' && c <= 'Z'   ? "who.code.no-letter"
                    : c >= '0' && c <= '9' ? "who.code.no-figure"
                                           : "who.code.no-sign";
  return v.t(key, {{"c", found}});
}

std::string words_of(const view& v, const kit_code_fault& no) {
  switch (no.what) {
  case fault_kind::never_used: return never_used_words(v, no.found);
  case fault_kind::too_short:
  case fault_kind::too_long:
    return v.t(no.what == fault_kind::too_short ? "who.code.short" : "who.code.long",
               {{"all", std::to_string(kit_code_length)}, {"n", std::to_string(no.characters)}});
  case fault_kind::wrong_check: return v.t("who.code.check");
  }
  QB_BELIEVE(false);
  return {};
}

// The one test of those letters; none where there is none or more than one.
const offered_test* test_of_letters(const view& v, const std::string& letters) {
  const offered_test* found = nullptr;
  for (const offered_test& t : v.tests) {
    if (t.test.kit_letters != letters) continue;
    if (found != nullptr) return nullptr;
    found = &t;
  }
  return found;
}

// What a typed code comes to: a kit, or the reason why not.
struct typed_kit {
  std::string complaint; // empty: nothing typed, or a kit of this laboratory
  std::optional<kit_code> code;
  const offered_test* test{nullptr};
};

typed_kit look_up(const view& v, const std::string& typed) {
  typed_kit out;
  if (typed.find_first_not_of(' ') == std::string::npos) return out;
  if (const auto no = fault_of_kit_code(typed)) {
    out.complaint = words_of(v, *no);
    return out;
  }
  const kit_code code = *read_kit_code(typed);
  const word_args tel{{"tel", telephone_words(v)}};
  if (code.laboratory_letters != v.lab.kit_letters) {
    out.complaint = v.t("who.code.other-laboratory", tel);
    return out;
  }
  out.test = test_of_letters(v, code.protocol_letters);
  if (out.test == nullptr) {
    out.complaint = v.t("who.code.other-test", tel);
    return out;
  }
  out.code = code;
  return out;
}

// Typing is done with before a page takes another's place.
bool typing(toolkit& k) {
  return !k.keyboard().key.empty();
}

code_page_result draw_expired(toolkit& k, const view& v, ui_state& u, const kit_code& code) {
  code_page_result out;
  bool other = false;
  const auto content = [&] {
    headline(k, "title", v.t("who.expired.title"));
    picture(k, "picture", picture_of::phone, v.t("who.expired.picture"), true);
    paragraph(k, "until", v.t("who.expired.until", {{"date", long_date(code.expires)}}));
    paragraph(k, "call", v.t("who.expired.call"));
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    other = secondary_button(k, "other-kit", v.t("who.expired.other"));
    out.back = quiet_button(k, "back", v.t("common.back"));
  };
  out.wished = framed_page(k, v, "who-kit-expired", content, actions);
  if (other) u.drafts.who.code = "";
  return out;
}

void kit_facts(toolkit& k, const view& v, const typed_kit& typed) {
  facts(k, "kit",
        {{v.t("who.kit.label"), kit_number_of(*typed.code)},
         {v.t("who.code.test"), typed.test->test.title},
         {v.t("who.code.expires"), long_date(typed.code->expires)}});
}

} // namespace

bool asks_for_code(const ui_state& u) {
  return !u.drafts.who.no_code.value_or(false);
}

bool reported_code(const view& v, const ui_state& u) {
  if (!v.s.kit || !asks_for_code(u) || !is_told_since_loss(v.s, v.s.kit_seq)) return false;
  const auto code = read_kit_code(u.drafts.who.code.value_or(""));
  return code && kit_code_text(*code) == v.s.kit->code;
}

code_page_result draw_kit_code(toolkit& k, const view& v, ui_state& u) {
  std::string& value = line_of(u.drafts.who.code);
  const typed_kit typed = look_up(v, value);
  if (typed.code && !typing(k)) value = kit_code_text(*typed.code); // in its groups, as on the box
  if (typed.code && typed.code->expires < today(v) && !typing(k))
    return draw_expired(k, v, u, *typed.code);
  code_page_result out;
  bool none = false;
  const auto content = [&] {
    headline(k, "title", v.t("who.code.title"));
    paragraph(k, "why", v.t("who.code.why"));
    field_view field{v.t("who.code.label"), v.t("who.press"), typed.complaint, text_kind::code,
                     longest_kit};
    field.takes_typing = true; // a hand scanner types without pressing the line first
    (void)text_field(k, kit_code_line, field, value);
    outside_line_of(k, v, typed.complaint);
    if (typed.code) kit_facts(k, v, typed);
  };
  const auto actions = [&] {
    if (typed.code) {
      out.told = primary_button(k, "this-kit", v.t("who.code.right"));
    } else {
      waiting_button(k, "this-kit",
                     v.t(typed.complaint.empty() ? "who.code.wait" : "who.code.wrong"));
    }
    // Once a kit was told by its code, another kit is told by its code as well.
    if (!v.s.kit && !typed.code) none = quiet_button(k, "no-code", v.t("who.code.none"));
    out.back = quiet_button(k, "back", v.t("common.back"));
  };
  out.wished = framed_page(k, v, "who-kit-code", content, actions);
  if (none) u.drafts.who.no_code = true;
  if (out.told && typed.code) {
    const std::string number = kit_number_of(*typed.code);
    u.drafts.who.kit.text = number;
    out.wished = wish{payload{
        reported_kit{kit_code_text(*typed.code), number, typed.test->id, typed.code->expires}}};
  }
  return out;
}

bool kit_differs_from_plan(const view& v) {
  return v.s.kit && v.s.planned && !v.s.grid &&
         v.s.kit->protocol_id != v.s.planned->what.protocol_id;
}

maybe_wish draw_kit_differs(toolkit& k, const view& v) {
  bool anew = false;
  const offered_test* test = find_test(v, v.s.kit->protocol_id);
  const auto content = [&] {
    headline(k, "title", v.t("who.differs.title"));
    facts(k, "tests",
          {{v.t("who.differs.kit"), test == nullptr ? v.s.kit->protocol_id : test->test.title},
           {v.t("who.differs.plan"), v.s.test->title, true}});
    paragraph(k, "anew", v.t("who.differs.anew"));
  };
  const auto actions = [&] { anew = primary_button(k, "plan-anew", v.t("who.differs.go")); };
  auto out = framed_page(k, v, "who-kit-differs", content, actions);
  if (anew) return wish{payload{plan_called_off{v.t("who.differs.reason")}}};
  return out;
}

std::vector<const offered_test*> tests_of_kit(const view& v) {
  const offered_test* own = v.s.kit ? find_test(v, v.s.kit->protocol_id) : nullptr;
  if (own != nullptr) return {own};
  std::vector<const offered_test*> out;
  for (const offered_test& t : v.tests)
    out.push_back(&t);
  return out;
}

bool age_fits_none(const view& v, civil_date birth) {
  const auto tests = tests_of_kit(v);
  return std::none_of(tests.begin(), tests.end(),
                      [&](const offered_test* t) { return age_fits(t->test, birth, today(v)); });
}

namespace {

// "These tests are for people of 18 years or more.", where all of them say the same.
std::string ages_words(const view& v) {
  const auto tests = tests_of_kit(v);
  QB_BELIEVE(!tests.empty());
  const protocol& first = tests.front()->test;
  const bool alike = std::all_of(tests.begin(), tests.end(), [&](const offered_test* t) {
    return t->test.age_from_years == first.age_from_years &&
           t->test.age_to_years == first.age_to_years;
  });
  if (!alike) return v.t("who.age.other");
  const std::string from = std::to_string(first.age_from_years);
  if (!first.age_to_years) return v.t("who.age.from", {{"from", from}});
  return v.t("who.age.between", {{"from", from}, {"to", std::to_string(*first.age_to_years)}});
}

} // namespace

maybe_wish draw_age_stop(toolkit& k, const view& v, const ui_state& u, civil_date birth,
                         bool& wrong, bool& leave) {
  const auto content = [&] {
    headline(k, "title", v.t("who.age.title"));
    paragraph(k, "ages", ages_words(v));
    paragraph(k, "call", v.t("who.age.call"));
    laboratory_facts(k, v);
    quiet_text(k, "born", v.t("who.birth.words", {{"date", long_date(birth)}}));
  };
  const auto actions = [&] {
    wrong = secondary_button(k, "wrong-date", v.t("who.age.wrong"));
    if (u.nav.is_side()) leave = quiet_button(k, "back", v.t("common.cancel"));
  };
  return framed_page(k, v, "who-age", content, actions);
}

} // namespace qb::inline screens
