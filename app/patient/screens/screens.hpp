// The screens, one a file, and which of them is shown.
// Each is a function of the toolkit, the view and the few things of the ui state; see view.hpp.
#pragma once

#include "app/patient/screens/view.hpp"
#include "app/patient/ui/elements.hpp"

namespace qb::inline screens {

// Draws the screen that fits and answers the wish, if one was made.
[[nodiscard]] maybe_wish draw_screen(toolkit& k, const view& v, ui_state& u);

// The screens by the step of the test.
[[nodiscard]] maybe_wish draw_agree(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_who(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_choose(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_prepare(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_held(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_sugar(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_symptoms(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_rest(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_symptoms_after(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_scores_later(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_red_flags(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_breathe(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_breath(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_unsure(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_label(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_drink(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_wait(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_unwell(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_finish(toolkit& k, const view& v, ui_state& u);

// Instead of all of them, while nothing can be recorded.
[[nodiscard]] maybe_wish draw_on_paper(toolkit& k, const view& v, ui_state& u);

// Side pages (side_page).
[[nodiscard]] maybe_wish draw_timeline(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_slip(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_evening(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_morning(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_foods(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_low_sugar(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_call_off(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_history(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_reminders(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_labels_ahead(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_return(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_salvaged(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_label_again(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_put_right(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_broken(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_reported_drink(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_no_baseline(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_drink_trouble(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_drink_again(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_drink_part(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_mishap(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_tell(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_comment(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_copy(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_pack(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_code(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_hand_over(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_papers(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_erase(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_erased(toolkit& k, const view& v, ui_state& u);

} // namespace qb::inline screens
