// The pages of "who" that are about the kit's code and about whom its test is for.
// Apart from who.cpp because a kit code decides more than a line on a label: it picks the test.
#pragma once

#include "app/patient/screens/plan_words.hpp"

#include <vector>

namespace qb::inline screens {

// The line of the kit's code, as the outline names it.
inline constexpr const char* kit_code_line = "who.code";

// Whether the kit question asks for a code now, not for a number without one.
[[nodiscard]] bool asks_for_code(const ui_state& u);

// The kit's code was told and is the one in the drafts.
[[nodiscard]] bool reported_code(const view& v, const ui_state& u);

// What the code page answers beside its wish.
struct code_page_result {
  maybe_wish wished;
  bool told{false}; // the wish tells the kit
  bool back{false}; // to the question before
};

// Asks for the code; an expired kit's page takes its place. A wish of `reported_kit` puts the
// number into the drafts.
[[nodiscard]] code_page_result draw_kit_code(toolkit& k, const view& v, ui_state& u);

// A plan stands, and the kit told is for another test.
[[nodiscard]] bool kit_differs_from_plan(const view& v);
[[nodiscard]] maybe_wish draw_kit_differs(toolkit& k, const view& v);

// The tests this person may be offered: the kit's, or all where no kit says.
[[nodiscard]] std::vector<const offered_test*> tests_of_kit(const view& v);

// Somebody born then is of the age of none of those tests today.
[[nodiscard]] bool age_fits_none(const view& v, civil_date birth);

// Says so kindly. Sets `wrong` where the date is to be written anew, `leave` to leave a correction.
[[nodiscard]] maybe_wish draw_age_stop(toolkit& k, const view& v, const ui_state& u,
                                       civil_date birth, bool& wrong, bool& leave);

} // namespace qb::inline screens
