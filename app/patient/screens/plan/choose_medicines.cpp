// What the test wants some days ago: medicines, courses, and what happened to the bowel. Asked one
// by one, never ordered to stop; each answer is a fact at once and moves the earliest start.
#include "app/patient/screens/plan/choose_pages.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using part = medicine_part;

// As it is drafted; as nothing is where it is not.
medicine_draft draft_of(const ui_state& u, const washout& w) {
  const auto found = u.drafts.plan.medicines.find(w.why.rule);
  return found == u.drafts.plan.medicines.end() ? medicine_draft{} : found->second;
}

const char* kind_key(const washout& w) {
  switch (w.kind) {
  case washout_kind::medicine: return "medicine";
  case washout_kind::course: return "course";
  case washout_kind::happening: return "happening";
  }
  QB_BELIEVE(false);
  return "";
}

std::string kind_words(const view& v, const std::string& key, const washout& w,
                       const word_args& args = {}) {
  return v.t(key + "." + kind_key(w), args);
}

// A medicine is its prescriber's matter; a course and what happened are the laboratory's too.
bool asks_the_laboratory(const washout& w) {
  return w.kind != washout_kind::medicine;
}

struct of_one {
  toolkit& k;
  const view& v;
  ui_state& u;
  const choosing& c;
  const washout& one;

  [[nodiscard]] const washout& asked() const { return one; }
  [[nodiscard]] medicine_draft& draft() const { return u.drafts.plan.medicines[one.why.rule]; }
  [[nodiscard]] medicine_page at(part p) const { return {one.why.rule, p}; }
  // The page after its question was answered.
  [[nodiscard]] choose_page next() const { return page_after(v, u, c, at(part::question)); }
  [[nodiscard]] const reported_washout* told() const {
    const noted_washout* found = find_noted_washout(v.s, asked().why.rule);
    return found == nullptr ? nullptr : &found->what;
  }
};

// An answer in the person's words, with the day it tells.
std::string answer_words(const view& v, const std::string& key, const answered_washout& told) {
  const std::string day = told.on ? day_words(v, *told.on) : "";
  return v.t(key + washout_key(told.answer), {{"day", day}});
}

// What was told before, in the person's words.
std::string reported_words(const of_one& o) {
  const view& v = o.v;
  const answered_washout& told = o.told()->what;
  std::string out =
      v.t("screening.you-said", {{"what", answer_words(v, "screening.washout.", told)}});
  if (told.agreed) out += " " + v.t("screening.outcome.go-on", {{"who", o.told()->who}});
  if (!told.agreed && !o.told()->who.empty())
    out += " " + v.t("screening.stop.who", {{"who", o.told()->who}});
  return out;
}

// Records the answer and goes on to the next question, or to whom to ask.
maybe_wish record(const of_one& o, reported_washout told) {
  const washout& w = o.asked();
  o.u.drafts.plan.medicines.erase(w.why.rule);
  o.u.drafts.plan.asks_later.erase(w.why.rule);
  offer_anew(o.u);
  const washout_answer answer = told.what.answer;
  const bool must_ask = answer == washout_answer::cannot_stop || answer == washout_answer::unknown;
  o.u.nav.page = must_ask ? choose_page(o.at(part::advice)) : o.next();
  return wish{payload{std::move(told)}};
}

// Records it at once; or asks once more first, where it would take a weightier answer back.
maybe_wish tell(const of_one& o, washout_answer answer, std::optional<civil_date> on = {},
                const answered_by& agreed = {}) {
  reported_washout wanted{{o.asked().why.rule, answer, on, false}, agreed.who, agreed.said_by};
  if (o.told() == nullptr || !takes_back(*o.told(), wanted)) return record(o, std::move(wanted));
  o.u.drafts.taking_back_washout = std::move(wanted);
  return std::nullopt;
}

// The whole question once more, with both answers and when the first was given.
maybe_wish draw_again(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  const noted_washout& before = *find_noted_washout(v.s, o.asked().why.rule);
  reported_washout wanted = *o.u.drafts.taking_back_washout;
  bool now = false;
  bool earlier = false;
  const auto content = [&] {
    quiet_text(k, "again", v.t("screening.again"));
    headline(k, "title", o.asked().question);
    paragraph(k, "which", o.asked().which);
    paragraph(k, "both",
              v.t("screening.again.both",
                  {{"time", when(v, before.at.wall)},
                   {"was", answer_words(v, "screening.washout.", before.what.what)},
                   {"now", answer_words(v, "screening.washout.", wanted.what)}}));
  };
  const auto actions = [&] {
    earlier = secondary_button(k, "again-earlier",
                               answer_words(v, "screening.right.washout.", before.what.what));
    now =
        secondary_button(k, "again-now", answer_words(v, "screening.right.washout.", wanted.what));
  };
  auto out = framed_page(k, v, "answer-again", content, actions, page_kind::calm,
                         "again-" + o.asked().why.rule);
  if (now || earlier) o.u.drafts.taking_back_washout.reset();
  if (earlier) o.u.nav.page = o.at(part::question);
  if (!now) return out;
  wanted.asked_again = true;
  return record(o, std::move(wanted));
}

// Whether that a medicine is paused must be somebody's word, and a day of the pause is being told.
bool wants_word_for_pause(const of_one& o) {
  const bool pauses = o.asked().kind == washout_kind::medicine &&
                      draft_of(o.u, o.asked()).ends == medicine_end::until_a_day;
  return pauses && o.asked().may_agree;
}

maybe_wish draw_question(const of_one& o, const page_behind& back_page) {
  toolkit& k = o.k;
  const view& v = o.v;
  const washout& w = o.asked();
  const bool keep_offered = o.told() != nullptr && !waits(v, w);
  bool keep = false;
  bool none = false;
  bool some = false;
  bool unknown = false;
  ways_back ways;
  const auto content = [&] {
    headline(k, "title", w.question);
    paragraph(k, "which", w.which);
    if (o.told() != nullptr) notice(k, "said", notice_kind::note, reported_words(o));
  };
  const auto actions = [&] {
    if (keep_offered) keep = primary_button(k, "as-before", v.t("screening.washout.as-before"));
    none = secondary_button(
        k, "dose-none",
        v.t("choose.medicine.none", {{"day", day_words(v, plus_days(today(v), -w.days))},
                                     {"n", std::to_string(w.days.count())}}));
    some = secondary_button(k, "dose-some", v.t("common.yes"));
    unknown = secondary_button(k, "dose-unknown", v.t("screening.not-sure"));
    ways = draw_ways_back(k, v, o.u, back_page.has_value());
  };
  auto out = framed_page(k, v, "choose-" + w.why.rule, content, actions);
  if (ways.back) o.u.nav.page = *back_page;
  if (ways.cancel) leave_choosing(o.u);
  if (keep) {
    o.draft().again = false;
    o.u.nav.page = o.next();
  }
  if (some) o.u.nav.page = o.at(w.kind == washout_kind::medicine ? part::how : part::last_dose);
  if (none) return tell(o, washout_answer::never);
  if (unknown) return tell(o, washout_answer::unknown);
  return out;
}

// A medicine may be over, end on a day that is known, or go on.
maybe_wish draw_how(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  bool over = false;
  bool ends = false;
  bool goes_on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.how.title"));
    paragraph(k, "about", o.asked().name);
  };
  const auto actions = [&] {
    over = secondary_button(k, "how-no-longer", v.t("screening.how.no-longer"));
    ends = secondary_button(k, "how-until", v.t("screening.how.until"));
    goes_on = secondary_button(k, "how-goes-on", v.t("screening.how.goes-on"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-how-" + o.asked().why.rule, content, actions);
  if (over || ends) {
    o.draft().ends = over ? medicine_end::no_longer : medicine_end::until_a_day;
    o.draft().day.reset();
    o.u.nav.page = o.at(over ? part::last_dose : part::prescriber);
  }
  if (back) o.u.nav.page = o.at(part::question);
  if (goes_on) return tell(o, washout_answer::cannot_stop);
  return out;
}

// A medicine that is to end: whom to ask, before any day is taken. Nobody is told to stop it.
maybe_wish draw_prescriber(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  bool asked = false;
  bool goes_on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.prescriber.title", {{"whom", whom_of(v, o.asked())}}));
    show_what_to_ask(k, v, "rule", o.asked().text, v.t("screening.prescriber.ask"),
                     asks_the_laboratory(o.asked()));
  };
  const auto actions = [&] {
    asked = secondary_button(k, "was-agreed", v.t("screening.prescriber.agreed"));
    goes_on = secondary_button(k, "how-goes-on", v.t("screening.how.goes-on"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-prescriber-" + o.asked().why.rule, content, actions);
  if (asked) o.u.nav.page = o.at(part::last_dose);
  if (back) o.u.nav.page = o.at(part::how);
  if (goes_on) return tell(o, washout_answer::cannot_stop);
  return out;
}

struct day_range {
  civil_date first;
  civil_date last;
};

// Days that can be told: what is over lies behind, what still runs may end ahead.
day_range range_of(const of_one& o) {
  const washout& w = o.asked();
  const civil_date day = today(o.v);
  const civil_date earliest = plus_days(day, -w.days);
  const civil_date latest = plus_days(day, w.days);
  if (w.kind == washout_kind::course) return {earliest, latest};
  const bool ahead =
      w.kind == washout_kind::medicine && draft_of(o.u, w).ends == medicine_end::until_a_day;
  return ahead ? day_range{day, latest} : day_range{earliest, day};
}

civil_date shown_day(const of_one& o, day_range r) {
  const auto drafted = draft_of(o.u, o.asked()).day;
  const bool was_reported = o.told() != nullptr && o.told()->what.on;
  const civil_date day = drafted ? *drafted : was_reported ? *o.told()->what.on : today(o.v);
  return std::clamp(day, r.first, r.last);
}

maybe_wish draw_last_dose(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  const washout& w = o.asked();
  const bool medicine = w.kind == washout_kind::medicine;
  const day_range range = range_of(o);
  const civil_date day = shown_day(o, range);
  int step = 0;
  bool on = false;
  bool unknown = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", kind_words(v, "screening.day.title", w));
    step = stepper(k, "dose-day", w.name, day_words(v, day), day <= range.first, day >= range.last);
    quiet_text(k, "early", v.t("choose.dose.sure"));
    if (w.kind == washout_kind::course) quiet_text(k, "ahead", v.t("screening.day.ahead"));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("common.next"));
    unknown = secondary_button(k, "dose-unknown", v.t("screening.day.unknown"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-dose-" + w.why.rule, content, actions);
  if (step != 0) o.draft().day = plus_days(day, std::chrono::days{step});
  if (back) o.u.nav.page = o.at(medicine ? part::how : part::question);
  const bool runs = draft_of(o.u, w).ends == medicine_end::until_a_day || day > today(v);
  if (on && wants_word_for_pause(o)) {
    forget_who_said(o.u);
    o.draft().day = day;
    o.u.nav.page = o.at(part::who);
    return out;
  }
  if (on) return tell(o, runs ? washout_answer::until : washout_answer::last_on, day);
  if (unknown) return tell(o, washout_answer::unknown);
  return out;
}

// Nobody knows, or it goes on: there is no date until somebody who may say so was asked.
maybe_wish draw_advice(const of_one& o) {
  toolkit& k = o.k;
  const view& v = o.v;
  const washout& w = o.asked();
  const bool back_from_asking = o.u.drafts.plan.asks_later.count(w.why.rule) > 0;
  bool later = false;
  bool allowed = false;
  bool change = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.advice.title", {{"whom", whom_of(v, w)}}));
    show_what_to_ask(k, v, "rule", w.text, kind_words(v, "screening.advice.ask", w),
                     asks_the_laboratory(w));
  };
  const auto actions = [&] {
    if (back_from_asking) {
      allowed = primary_button(k, "allowed", v.t("screening.answer.go-on"));
    } else {
      later = primary_button(k, "ask-later", v.t("screening.ask.later"));
      allowed = secondary_button(k, "allowed", v.t("screening.answer.go-on"));
    }
    const int pair = back_from_asking
                         ? button_pair(k, "change-answer", v.t("screening.advice.change"),
                                       "ask-later", v.t("screening.ask.not-yet"))
                         : 0;
    change = pair == 1;
    later = later || pair == 2;
    if (!back_from_asking)
      change = quiet_button(k, "change-answer", v.t("screening.advice.change"));
  };
  auto out = framed_page(k, v, "choose-advice-" + w.why.rule, content, actions);
  if (later) {
    o.u.drafts.plan.asks_later.insert(w.why.rule);
    o.u.nav.page = plan_page::waiting;
  }
  if (allowed) {
    forget_who_said(o.u);
    o.u.nav.page = o.at(part::who);
  }
  if (change) o.u.nav.page = o.at(part::question);
  return out;
}

// Only who knows the medicine or the test may say so, not whoever it was; of going on in spite of
// a medicine never the person alone.
maybe_wish draw_who(const of_one& o, part here) {
  maybe_wish out;
  const bool pause = wants_word_for_pause(o);
  const std::optional<civil_date> day = draft_of(o.u, o.asked()).day;
  std::vector<releaser> may = o.asked().may_agree.value_or(std::vector<releaser>{});
  if (!pause) may.erase(std::remove(may.begin(), may.end(), releaser::person), may.end());
  const who_said_pages pages{o.at(pause ? part::last_dose : part::advice),
                             o.at(part::who),
                             o.at(part::said),
                             here == part::said,
                             false,
                             may,
                             false,
                             o.asked().may_agree.has_value()};
  const auto said = draw_who_said(o.k, o.v, o.u, pages, out);
  if (!said || (!pause && o.told() == nullptr)) return out;
  forget_who_said(o.u);
  if (pause && day) return tell(o, washout_answer::until, day, *said);
  o.u.drafts.plan.asks_later.erase(o.asked().why.rule);
  o.draft().again = false;
  offer_anew(o.u);
  o.u.nav.page = o.next();
  reported_washout agreed = *o.told();
  agreed.what.agreed = true;
  agreed.who = said->who;
  agreed.said_by = said->said_by;
  return wish{payload{agreed}};
}

} // namespace

bool is_answered(const view& v, const ui_state& u, const washout& w) {
  return find_noted_washout(v.s, w.why.rule) != nullptr && !draft_of(u, w).again;
}

std::string whom_of(const view& v, const washout& w) {
  return kind_words(v, "screening.whom", w);
}

void ask_medicines_again(ui_state& u, const protocol& p) {
  for (const washout& w : p.washouts)
    u.drafts.plan.medicines[w.why.rule].again = true;
  u.nav.page = plan_page::unanswered;
}

void leave_choosing(ui_state& u) {
  for (auto& [rule, draft] : u.drafts.plan.medicines)
    draft.again = false;
  u.nav.close_side();
}

maybe_wish draw_medicine_page(toolkit& k, const view& v, ui_state& u, const choosing& c,
                              const washout& asked, medicine_part shown, const page_behind& back) {
  const of_one o{k, v, u, c, asked};
  const auto& taking_back = u.drafts.taking_back_washout;
  if (o.told() != nullptr && taking_back && taking_back->what.rule == asked.why.rule)
    return draw_again(o);
  switch (shown) {
  case part::how: return draw_how(o);
  case part::prescriber: return draw_prescriber(o);
  case part::last_dose: return draw_last_dose(o);
  case part::advice:
    if (o.told() != nullptr) return draw_advice(o);
    break;
  case part::who:
  case part::said:
    if (o.told() != nullptr || wants_word_for_pause(o)) return draw_who(o, shown);
    break;
  case part::question: break;
  }
  return draw_question(o, back);
}

} // namespace qb::inline screens
