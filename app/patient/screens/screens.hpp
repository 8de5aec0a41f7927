// The screens, one a file, and which of them is shown.
// Each is a function of the kit, the view and the few things of the ui state; see view.hpp.
#pragma once

#include "app/patient/kit/elements.hpp"
#include "app/patient/screens/view.hpp"

namespace qb {

// Draws the screen that fits and answers the wish, if one was made.
[[nodiscard]] maybe_wish draw_screen(kit& k, const view& v, ui_state& u);

// The screens by the step of the test.
[[nodiscard]] maybe_wish draw_agree(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_who(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_choose(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_prepare(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_sugar(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_symptoms(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_red_flags(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_breathe(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_breath(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_unsure(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_label(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_drink(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_wait(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_unwell(kit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_finish(kit& k, const view& v, ui_state& u);

// Side pages, opened by name (ui_state::open).
[[nodiscard]] maybe_wish draw_timeline(kit& k, const view& v, ui_state& u);     // "timeline"
[[nodiscard]] maybe_wish draw_slip(kit& k, const view& v, ui_state& u);         // "slip"
[[nodiscard]] maybe_wish draw_evening(kit& k, const view& v, ui_state& u);      // "evening"
[[nodiscard]] maybe_wish draw_morning(kit& k, const view& v, ui_state& u);      // "morning"
[[nodiscard]] maybe_wish draw_foods(kit& k, const view& v, ui_state& u);        // "foods"
[[nodiscard]] maybe_wish draw_low_sugar(kit& k, const view& v, ui_state& u);    // "low-sugar"
[[nodiscard]] maybe_wish draw_call_off(kit& k, const view& v, ui_state& u);     // "call-off"
[[nodiscard]] maybe_wish draw_history(kit& k, const view& v, ui_state& u);      // "history"
[[nodiscard]] maybe_wish draw_reminders(kit& k, const view& v, ui_state& u);    // "reminders"
[[nodiscard]] maybe_wish draw_labels_ahead(kit& k, const view& v, ui_state& u); // "labels"
[[nodiscard]] maybe_wish draw_return(kit& k, const view& v, ui_state& u);       // "return"
[[nodiscard]] maybe_wish draw_label_again(kit& k, const view& v, ui_state& u);  // "label-again"
[[nodiscard]] maybe_wish draw_put_right(kit& k, const view& v, ui_state& u);    // "put-right"
[[nodiscard]] maybe_wish draw_broken(kit& k, const view& v, ui_state& u);       // "broken"
[[nodiscard]] maybe_wish draw_drink_told(kit& k, const view& v, ui_state& u);   // "drink-told"
[[nodiscard]] maybe_wish draw_no_baseline(kit& k, const view& v, ui_state& u);  // "no-baseline"
[[nodiscard]] maybe_wish draw_drink_trouble(kit& k, const view& v,
                                            ui_state& u);                      // "drink-trouble"
[[nodiscard]] maybe_wish draw_drink_again(kit& k, const view& v, ui_state& u); // "drink-again"
[[nodiscard]] maybe_wish draw_drink_part(kit& k, const view& v, ui_state& u);  // "drink-part"
[[nodiscard]] maybe_wish draw_mishap(kit& k, const view& v, ui_state& u);      // "mishap"
[[nodiscard]] maybe_wish draw_tell(kit& k, const view& v, ui_state& u);        // "tell"
[[nodiscard]] maybe_wish draw_comment(kit& k, const view& v, ui_state& u);     // "comment"
[[nodiscard]] maybe_wish draw_copy(kit& k, const view& v, ui_state& u);        // "copy"
[[nodiscard]] maybe_wish draw_pack(kit& k, const view& v, ui_state& u);        // "pack"
[[nodiscard]] maybe_wish draw_code(kit& k, const view& v, ui_state& u);        // "code"
[[nodiscard]] maybe_wish draw_hand_over(kit& k, const view& v, ui_state& u);   // "hand-over"
[[nodiscard]] maybe_wish draw_papers(kit& k, const view& v, ui_state& u);      // "papers"
[[nodiscard]] maybe_wish draw_erase(kit& k, const view& v, ui_state& u);       // "erase"
[[nodiscard]] maybe_wish draw_erased(kit& k, const view& v, ui_state& u);      // "erased"

} // namespace qb
