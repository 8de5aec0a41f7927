// The pages of making a plan, and which comes when.
// Split so that cautions, medicines, hours and the start have files of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb {

// Values of ui_state::page while a plan is made; 0 is the first page that has no answer yet.
// From 100 on the hundreds say which page, the rest which caution or washout, by its place.
namespace choose_page {
inline constexpr int test = 1;
inline constexpr int form = 2;
inline constexpr int hours = 3;
inline constexpr int start = 4;
inline constexpr int review = 5;
inline constexpr int waiting = 6;    // what must be asked before there can be a date
inline constexpr int ask_packet = 7; // the packet says something else
inline constexpr int fold = 8;       // the clock shows the chosen time twice
inline constexpr int days = 9;       // only some weekdays
inline constexpr int times = 10;     // only some hours
inline constexpr int each = 100;
inline constexpr int washout = 100;        // was there any in the days that matter
inline constexpr int advice = 200;         // nobody knows, or it goes on: whom to ask
inline constexpr int last_dose = 300;      // the day
inline constexpr int how = 400;            // no longer, until a day, or for good
inline constexpr int caution = 500;        // the question
inline constexpr int ask_caution = 600;    // it is true, or perhaps: whom to ask, or not this test
inline constexpr int answer_caution = 700; // what they said
inline constexpr int who_caution = 800;    // who said so
inline constexpr int who_washout = 900;
inline constexpr int said_caution = 1000; // and in which words
inline constexpr int said_washout = 1100;
} // namespace choose_page

// What the pages of one plan share.
struct choosing {
  const offered_test& test;
  std::vector<caution> cautions; // asked in this order
};

// The cautions asked for that test. Without a kit code the packet may be another than was picked,
// so what another sugar must never meet is asked as well, as something to ask about.
[[nodiscard]] std::vector<caution> asked_cautions(const view& v, const offered_test& test);

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
[[nodiscard]] bool waits(const view& v, const caution& c);
[[nodiscard]] bool waits(const view& v, const washout& w);
// The page of the next question without an answer, after the one on page `answered` first; 0 for
// none. `answered` itself counts as answered.
[[nodiscard]] int next_question(const view& v, const ui_state& u, const choosing& c, int answered);

// Whom to ask about a washout: "your prescriber or the laboratory".
[[nodiscard]] std::string whom_of(const view& v, const washout& w);

// What a caution's pages, a medicine's pages draw; `here` is one of them.
[[nodiscard]] maybe_wish draw_caution_page(toolkit& k, const view& v, ui_state& u,
                                           const choosing& c, int here, int back);
[[nodiscard]] maybe_wish draw_medicine_page(toolkit& k, const view& v, ui_state& u,
                                            const choosing& c, int here, int back);
// What an asking page says: why (a paragraph of that key), what to read out, whom to call.
void show_what_to_ask(toolkit& k, const view& v, const std::string& why_key, const std::string& why,
                      const std::string& ask);
// All that must be asked about before there can be a date.
[[nodiscard]] maybe_wish draw_waiting(toolkit& k, const view& v, ui_state& u, const choosing& c);

// Who answered, and their words where the record has room for them. Pages `who` and `said` belong
// to one question; answers what was said once all of it was.
struct answered_by {
  std::string who;
  std::string words;
};
[[nodiscard]] std::optional<answered_by> draw_who_said(toolkit& k, const view& v, ui_state& u,
                                                       const std::string& title, int here,
                                                       bool asks_words, maybe_wish& out);
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
                                    int back);
[[nodiscard]] maybe_wish draw_days(toolkit& k, const view& v, ui_state& u, const protocol& p);
[[nodiscard]] maybe_wish draw_times(toolkit& k, const view& v, ui_state& u, const protocol& p);
[[nodiscard]] bool reported_hours(const ui_state& u);
// What was said of them goes into what bears on the start.
void add_hours(const std::map<std::string, std::string>& drafts, circumstances& c);

// Day, time, what stands against it, and the whole plan to look at.
[[nodiscard]] maybe_wish draw_start(toolkit& k, const view& v, ui_state& u, const protocol& p,
                                    int back);
[[nodiscard]] maybe_wish draw_fold(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_review(toolkit& k, const view& v, ui_state& u,
                                     const offered_test& test);
// The offer of a start that was made before something new was told is made anew.
void offer_anew(ui_state& u);

} // namespace qb
