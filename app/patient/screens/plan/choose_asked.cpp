// What the plan waits for, and who answered in the end.
// Cautions and medicines share these pages: both wait until somebody said that the test may go on.
#include "app/patient/screens/plan/choose_pages.hpp"

#include "core/base/text.hpp"
#include "core/session/limits.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

struct waiting_row {
  choose_page page;
  choice shown;
};

std::vector<waiting_row> waiting_rows(const view& v, const choosing& c) {
  std::vector<waiting_row> out;
  for (const caution& x : c.cautions) {
    if (waits(v, c.test.test, x))
      out.push_back({caution_page{x.why.rule, caution_part::ask},
                     {x.why.rule, x.name, v.t("screening.waiting.ask", {{"whom", x.whom}})}});
  }
  for (const washout& x : c.test.test.washouts) {
    if (waits(v, x))
      out.push_back(
          {medicine_page{x.why.rule, medicine_part::advice},
           {x.why.rule, x.name, v.t("screening.waiting.ask", {{"whom", whom_of(v, x)}})}});
  }
  return out;
}

// What an adviser is to the protocol; nothing for whoever has no say in it.
std::optional<releaser> releaser_of(adviser who) {
  switch (who) {
  case adviser::laboratory: return releaser::laboratory;
  case adviser::doctor:
  case adviser::diabetes:
  case adviser::midwife: return releaser::doctor;
  case adviser::pharmacist: return releaser::pharmacist;
  case adviser::myself: return releaser::person;
  case adviser::other: return std::nullopt;
  }
  QB_BELIEVE(false);
  return std::nullopt;
}

// Those who can be chosen on that page.
std::vector<adviser> advisers_of(const who_said_pages& pages) {
  std::vector<adviser> out;
  for (const adviser who : all_advisers) {
    const auto as = releaser_of(who);
    const auto& may = pages.may_say;
    const bool listed = as && std::find(may.begin(), may.end(), *as) != may.end();
    const bool offered = who == adviser::myself ? listed : who != adviser::other || pages.others;
    const bool anybody = may.empty() && !pages.only;
    if (offered && (anybody || listed)) out.push_back(who);
  }
  return out;
}

std::string adviser_words(const view& v, const std::optional<adviser>& who) {
  return who ? v.t(std::string("screening.who.") + adviser_key(*who)) : "";
}

// A page to write on: whose word it was where no choice says it, and what they said.
std::optional<answered_by> draw_said(toolkit& k, const view& v, ui_state& u,
                                     const who_said_pages& pages, maybe_wish& out) {
  advice_draft& advice = u.drafts.plan.advice;
  const bool other = advice.who == adviser::other;
  std::string& who = advice.other;
  std::string& words = advice.words;
  bool told = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(other ? "screening.said.who" : "screening.said.title"));
    if (other) {
      const field_view field{v.t("screening.said.who-label"), "", "", text_kind::plain,
                             longest_who};
      (void)text_field(k, "ask.who.other", field, who);
    }
    if (pages.asks_words) {
      const field_view field{v.t("screening.said.words-label"), v.t("screening.said.hint"), "",
                             text_kind::plain, longest_comment};
      (void)text_field(k, "ask.words", field, words);
    }
  };
  const auto actions = [&] {
    if (other && trimmed(who).empty()) {
      waiting_button(k, "write-down", v.t("screening.said.who-first"));
    } else {
      told = primary_button(k, "write-down", v.t("screening.said.tell"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  out = framed_page(k, v, "choose-said", content, actions);
  if (back) u.nav.page = pages.who;
  if (!told) return std::nullopt;
  return answered_by{other ? trimmed(who) : adviser_words(v, advice.who), trimmed(words),
                     advice.who ? releaser_of(*advice.who) : std::nullopt};
}

} // namespace

bool waits(const view& v, const washout& w) {
  const noted_washout* told = find_noted_washout(v.s, w.why.rule);
  return told != nullptr && is_open(w, told->what);
}

std::optional<answered_by> draw_who_said(toolkit& k, const view& v, ui_state& u,
                                         const who_said_pages& pages, maybe_wish& out) {
  if (pages.writing) return draw_said(k, v, u, pages, out);
  const std::optional<adviser> chosen = u.drafts.plan.advice.who;
  std::optional<std::size_t> picked;
  bool on = false;
  bool back = false;
  std::vector<choice> choices;
  const std::vector<adviser> advisers = advisers_of(pages);
  for (const adviser who : advisers)
    choices.push_back({adviser_key(who), adviser_words(v, who), ""});
  const auto content = [&] {
    headline(k, "title", v.t("screening.who.title"));
    if (auto c = choice_list(k, "who", choices, chosen ? adviser_key(*chosen) : "")) picked = c;
  };
  const auto actions = [&] {
    if (!chosen) {
      waiting_button(k, "next", v.t("choose.pick-one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  out = framed_page(k, v, "choose-who-said", content, actions);
  if (picked) u.drafts.plan.advice.who = advisers.at(*picked);
  if (back) u.nav.page = pages.before;
  if (!on) return std::nullopt;
  if (!pages.asks_words && chosen != adviser::other)
    return answered_by{adviser_words(v, chosen), "", releaser_of(*chosen)};
  u.nav.page = pages.said;
  return std::nullopt;
}

void forget_who_said(ui_state& u) {
  u.drafts.plan.advice = {};
}

void show_what_to_ask(toolkit& k, const view& v, const std::string& why_key, const std::string& why,
                      const std::string& ask, bool of_laboratory) {
  paragraph(k, why_key, why);
  heading(k, "say", v.t("screening.ask.say"));
  strong(k, "ask", v.t("screening.ask.quoted", {{"words", ask}}));
  if (of_laboratory) return laboratory_facts(k, v);
  quiet_text(k, "their-number", v.t("screening.ask.number"));
}

maybe_wish draw_waiting(toolkit& k, const view& v, ui_state& u, const choosing& c) {
  const std::vector<waiting_row> rows = waiting_rows(v, c);
  const auto question = next_question(v, u, c);
  std::vector<choice> choices;
  choices.reserve(rows.size());
  for (const waiting_row& row : rows)
    choices.push_back(row.shown);
  std::optional<std::size_t> picked;
  bool on = false;
  ways_back ways;
  const auto content = [&] {
    headline(k, "title", v.t("screening.waiting.title"));
    paragraph(k, "why", v.t(question ? "screening.waiting.more" : "screening.waiting.why"));
    if (auto one = menu_list(k, "waits", choices)) picked = one;
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (question) {
      on = primary_button(k, "go-on-asking", v.t("screening.waiting.go-on"));
    } else {
      waiting_button(k, "next", v.t("screening.waiting.press"));
    }
    ways = draw_ways_back(k, v, u, false);
  };
  auto out = framed_page(k, v, "choose-waiting", content, actions);
  if (picked) u.nav.page = rows.at(*picked).page;
  if (on) u.nav.page = *question;
  if (ways.cancel) leave_choosing(u);
  return out;
}

} // namespace qb::inline screens
