// The pages of making a plan, and which comes when.
// Split so that the questions on medicines have a file of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb {

// Values of ui_state::page while a plan is made; 0 is the first page that has no answer yet.
// A medicine's question is `medicine` plus its place in the protocol; so are `advice` (it is still
// taken) and `last_dose` (the day).
namespace choose_page {
inline constexpr int test = 1;
inline constexpr int form = 2;
inline constexpr int start = 4;
inline constexpr int review = 5;
inline constexpr int ask_packet = 7; // the packet says something else
inline constexpr int fold = 8;       // the clock shows the chosen time twice
inline constexpr int medicine = 100;
inline constexpr int advice = 200;
inline constexpr int last_dose = 300;
inline constexpr int caution = 400;     // the question, plus its place in the protocol
inline constexpr int ask_caution = 500; // it is true, or perhaps: whom to ask
} // namespace choose_page

// Set to the test's id once none of its cautions is true, or somebody said to go on.
inline constexpr const char* cautions_key = "plan.cautions";

// Opens the plan at its first page: the kit holds another sugar than was chosen.
void choose_another_sugar(ui_state& u);

// Whether this medicine's question is answered as far as planning needs it.
[[nodiscard]] bool medicine_answered(const ui_state& u, const washout& w);
// Every medicine's question comes again, with what was told still marked.
void ask_medicines_again(ui_state& u, const protocol& p);

// The questions on one medicine, the `place`-th of the protocol. They turn ui_state::page
// themselves; `back` is the page before.
[[nodiscard]] maybe_wish draw_medicine(kit& k, const view& v, ui_state& u, const washout& w,
                                       int place, int back);
[[nodiscard]] maybe_wish draw_last_dose(kit& k, const view& v, ui_state& u, const washout& w,
                                        int place);
[[nodiscard]] maybe_wish draw_medicine_advice(kit& k, const view& v, ui_state& u, const washout& w,
                                              int place);

// Day, time, what stands against it, and the whole plan to look at.
[[nodiscard]] maybe_wish draw_start(kit& k, const view& v, ui_state& u, const protocol& p,
                                    int back);
[[nodiscard]] maybe_wish draw_fold(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_review(kit& k, const view& v, ui_state& u, const offered_test& test);

} // namespace qb
