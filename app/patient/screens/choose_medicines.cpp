// The medicines that a test wants away for some days: asked one by one, never ordered to stop.
// A told last dose moves the earliest start; a medicine still taken leads to whom to ask.
#include "app/patient/screens/choose_pages.hpp"

namespace qb {

namespace {

namespace page = choose_page;

constexpr const char* none = "none";
constexpr const char* still = "still";

// A course that must be finished: there is nothing to pause, so the plan waits for its last day.
bool is_course(const washout& w) {
  return w.why.rule == "antibiotics";
}

// Set when the laboratory said to go on although the course runs.
std::string allowed_key(const washout& w) {
  return dose_key(w.why.rule) + ".allowed";
}

// A page that was left with "next" says so; a date that is only being stepped does not.
std::string seen_key(const washout& w) {
  return dose_key(w.why.rule) + ".seen";
}

std::string words_key(const view& v, const std::string& prefix, const washout& w) {
  const std::string key = prefix + "." + w.why.rule;
  return v.t.has(key) ? key : prefix + ".other";
}

// The host offers the first morning that works; a new answer may move it.
void answer(ui_state& u, const washout& w, const std::string& value) {
  std::string& draft_text = u.text[dose_key(w.why.rule)];
  if (draft_text == value) return;
  draft_text = value;
  u.text.erase(draft::date);
  u.text.erase(draft::minute);
  u.text.erase(draft::fold);
}

std::optional<civil_date> told_date(const ui_state& u, const washout& w) {
  const auto parsed = parse_date(draft_of(u, dose_key(w.why.rule)));
  return parsed ? std::optional<civil_date>{*parsed} : std::nullopt;
}

} // namespace

bool medicine_answered(const ui_state& u, const washout& w) {
  const std::string told = draft_of(u, dose_key(w.why.rule));
  if (told.empty()) return false;
  if (draft_of(u, seen_key(w)) != "yes") return false;
  return told != still || !is_course(w) || draft_of(u, allowed_key(w)) == "yes";
}

void ask_medicines_again(ui_state& u, const protocol& p) {
  for (const washout& w : p.washouts)
    u.text.erase(seen_key(w));
  u.page = 0;
}

maybe_wish draw_medicine(kit& k, const view& v, ui_state& u, const washout& w, int place,
                         int back_page) {
  const std::string told = draft_of(u, dose_key(w.why.rule));
  const std::optional<civil_date> dose = told_date(u, w);
  const std::string chosen = dose ? "last" : told;
  const std::vector<choice> choices{
      {none, v.t("choose.medicine.none", {{"n", std::to_string(w.days.count())}}), ""},
      {"last", v.t(is_course(w) ? "choose.medicine.last-course" : "choose.medicine.last"), ""},
      {still, v.t("choose.medicine.still"), ""}};
  std::optional<std::size_t> picked;
  bool on = false;
  bool back = false;
  bool cancel = false;
  const auto content = [&] {
    headline(k, "title", v.t(words_key(v, "choose.medicine.title", w)));
    const std::string which = "choose.medicine.which." + w.why.rule;
    paragraph(k, "which", v.t.has(which) ? v.t(which) : w.text);
    if (auto c = choice_list(k, "dose", choices, chosen)) picked = c;
  };
  const auto actions = [&] {
    if (chosen.empty()) {
      waiting_button(k, "next", v.t("choose.pick-one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    // While a plan stands, leaving it as it is must be near at hand.
    if (u.open.empty()) {
      back = quiet_button(k, "back", v.t("common.back"));
    } else {
      const int pair = button_pair(k, "back", v.t("common.back"), "cancel", v.t("common.cancel"));
      back = pair == 1;
      cancel = pair == 2;
    }
  };
  auto out = framed_page(k, v, "choose-" + w.why.rule, content, actions);
  if (picked) {
    const std::string values[] = {none, date_text(dose.value_or(today(v))), still};
    answer(u, w, values[*picked]);
    u.text.erase(allowed_key(w));
    u.text.erase(seen_key(w));
  }
  if (on && dose) u.page = page::last_dose + place;
  if (on && told == still) u.page = page::advice + place;
  if (on && told == none) {
    u.text[seen_key(w)] = "yes";
    u.page = 0;
  }
  if (back) u.page = back_page;
  if (cancel) open_side(u, "");
  return out;
}

maybe_wish draw_last_dose(kit& k, const view& v, ui_state& u, const washout& w, int place) {
  const civil_date day = today(v);
  const civil_date dose = told_date(u, w).value_or(day);
  // A course may still run: its last day can lie ahead.
  const civil_date latest = is_course(w) ? plus_days(day, w.days) : day;
  int step = 0;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.dose.title"));
    step = stepper(k, "dose-day", v.t(words_key(v, "choose.dose.of", w)), day_words(v, dose),
                   dose <= plus_days(day, -w.days), dose >= latest);
    quiet_text(k, "early", v.t("choose.dose.sure"));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("common.next"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-dose-" + w.why.rule, content, actions);
  if (step != 0) answer(u, w, date_text(plus_days(dose, std::chrono::days{step})));
  if (on) {
    answer(u, w, date_text(dose));
    u.text[seen_key(w)] = "yes";
    u.page = 0;
  }
  if (back) u.page = page::medicine + place;
  return out;
}

maybe_wish draw_medicine_advice(kit& k, const view& v, ui_state& u, const washout& w, int place) {
  const bool course = is_course(w);
  bool on = false;
  bool know = false;
  bool allowed = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(course ? "choose.advice.course" : "choose.advice.ask"));
    paragraph(k, "rule", w.text);
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (course) {
      know = primary_button(k, "know-day", v.t("choose.advice.know-day"));
      allowed = secondary_button(k, "allowed", v.t("choose.ask.allowed"));
    } else {
      on = primary_button(k, "next", v.t("choose.advice.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-advice-" + w.why.rule, content, actions);
  if (allowed) u.text[allowed_key(w)] = "yes";
  if (on || allowed) {
    u.text[seen_key(w)] = "yes";
    u.page = 0;
  }
  if (know) {
    answer(u, w, date_text(today(v)));
    u.page = page::last_dose + place;
  }
  if (back) u.page = page::medicine + place;
  return out;
}

} // namespace qb
