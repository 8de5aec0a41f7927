// The pages of making a plan, and which comes when.
// Split so that cautions, medicines, hours and the start have files of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

// What the pages of one plan share.
struct choosing {
  const offered_test& test;
  std::vector<caution> cautions; // asked in this order
};

// The cautions asked for that test, with those of another sugar in words of their own.
[[nodiscard]] std::vector<caution> asked_cautions(const view& v, const protocol& test);

// Opens the plan at its first page: the kit holds another sugar than was chosen.
void choose_another_sugar(ui_state& u);
// Every medicine's question comes again, with what was told still shown. Nothing told is undone.
void ask_medicines_again(ui_state& u, const protocol& p);
// Leaves the plan as it is.
void leave_choosing(ui_state& u);

// Whether the question is answered; one that must be asked about is, once it was said.
[[nodiscard]] bool is_answered(const view& v, const caution& c);
[[nodiscard]] bool is_answered(const view& v, const ui_state& u, const washout& w);
// Whether the plan waits for an answer to it.
[[nodiscard]] bool waits(const view& v, const protocol& p, const caution& c);
[[nodiscard]] bool waits(const view& v, const washout& w);
// The page of the next question without an answer, those after `answered` first, which itself
// counts as answered.
[[nodiscard]] std::optional<choose_page>
next_question(const view& v, const ui_state& u, const choosing& c,
              const std::optional<choose_page>& answered = {});
// The same as the page to go to; where there is none, the first page that has no answer.
[[nodiscard]] choose_page page_after(const view& v, const ui_state& u, const choosing& c,
                                     const choose_page& answered);

// Whom to ask about a washout: "your prescriber or pharmacist".
[[nodiscard]] std::string whom_of(const view& v, const washout& w);

// The page before one in the order of the plan; none before the first.
using page_behind = std::optional<choose_page>;

// What the pages of one caution, of one medicine draw; `back` leads away from its question.
[[nodiscard]] maybe_wish draw_caution_page(toolkit& k, const view& v, ui_state& u,
                                           const choosing& c, const caution& asked,
                                           caution_part part, const page_behind& back);
[[nodiscard]] maybe_wish draw_medicine_page(toolkit& k, const view& v, ui_state& u,
                                            const choosing& c, const washout& asked,
                                            medicine_part part, const page_behind& back);
// What an asking page says: why (a paragraph of that key), what to read out, and the laboratory's
// number where it is the laboratory that is asked.
void show_what_to_ask(toolkit& k, const view& v, const std::string& why_key, const std::string& why,
                      const std::string& ask, bool of_laboratory);
// All that must be asked about before there can be a date.
[[nodiscard]] maybe_wish draw_waiting(toolkit& k, const view& v, ui_state& u, const choosing& c);

// Who answered, and their words where the record has room for them.
struct answered_by {
  std::string who;
  std::string words;
  std::optional<releaser> said_by{}; // what they are, where it is one who may release
};
// The two pages of one question that ask for it.
struct who_said_pages {
  choose_page before; // where "back" leads from the first of them
  choose_page who;
  choose_page said;
  bool writing{false};    // `said` is shown
  bool asks_words{false}; // what they said is asked as well
  // Only these can be chosen; empty: whoever it was.
  std::vector<releaser> may_say{};
  bool others{true}; // somebody who is none of those listed can be written down
  bool only{false};  // those of `may_say` alone, also where they are none
};
// Answers what was said once all of it was.
[[nodiscard]] std::optional<answered_by>
draw_who_said(toolkit& k, const view& v, ui_state& u, const who_said_pages& pages, maybe_wish& out);
void forget_who_said(ui_state& u);

// "Back", and while a plan stands "Cancel" beside it, which leaves it as it is.
struct ways_back {
  bool back{false};
  bool cancel{false};
};
[[nodiscard]] ways_back draw_ways_back(toolkit& k, const view& v, const ui_state& u,
                                       bool can_go_back);

// Days and hours at home.
[[nodiscard]] maybe_wish draw_hours(toolkit& k, const view& v, ui_state& u, const protocol& p,
                                    const page_behind& back);
[[nodiscard]] maybe_wish draw_days(toolkit& k, const view& v, ui_state& u, const protocol& p);
[[nodiscard]] maybe_wish draw_times(toolkit& k, const view& v, ui_state& u, const protocol& p);
[[nodiscard]] bool reported_hours(const ui_state& u);
// What was said of them goes into what bears on the start.
void add_hours(const home_draft& home, circumstances& c);

// Day, time, what stands against it, and the whole plan to look at.
[[nodiscard]] maybe_wish draw_start(toolkit& k, const view& v, ui_state& u, const protocol& p,
                                    const page_behind& back);
[[nodiscard]] maybe_wish draw_fold(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_review(toolkit& k, const view& v, ui_state& u,
                                     const offered_test& test);
// That this laboratory is invented, before a plan that is no practice is kept.
[[nodiscard]] maybe_wish draw_trying(toolkit& k, const view& v, ui_state& u,
                                     const offered_test& test);
// The offer of a start that was made before something new was told is made anew.
void offer_anew(ui_state& u);

} // namespace qb::inline screens
