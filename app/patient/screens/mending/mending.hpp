// Pages on which something is told later or put right, and what they share.
#pragma once

#include "app/patient/screens/screens.hpp"

namespace qb::inline screens {

// Opens that side page at that page of it and keeps the moment, so that a time that is told does
// not move while it is read.
void open_timed(const view& v, ui_state& u, side_page which, any_page at = {});
// The time that stands on such a page.
[[nodiscard]] instant reported_instant(const view& v, const ui_state& u);

// Opens the page on which a drink begun unseen is told, or what became of the drink (nothing: it
// is asked).
void open_reported_drink(const view& v, ui_state& u);
void open_drink_trouble(const view& v, ui_state& u, std::optional<drink_mishap> what);

// Opens the page on which something told of a tube, or a time of the drink, is put right.
void open_put_right(const view& v, ui_state& u, right_what what);

// Opens the page on which the last of a tube's two breaths is told: the last closing counts.
void open_blown_twice(const view& v, ui_state& u, sample_number n);

// How the person knows better: one of a few reasons, or own words on a page behind them: the
// last two pages of `put_right`.
struct asked_reason {
  maybe_wish unwell;  // the one wish such a page can make itself
  std::string reason; // once one is given
  bool back{false};
};
[[nodiscard]] asked_reason ask_reason(toolkit& k, const view& v, ui_state& u);

// What can have gone wrong with the breath of that tube, each a row that tells it with one press;
// and where something was told, that nothing did. Empty while no test is planned.
struct spoil_row {
  std::string id; // of the protocol's; "taken-back" for the last
  choice shown;
  bool again{false}; // the tube is blown again
};
[[nodiscard]] std::vector<spoil_row> spoil_rows(const view& v, sample_number n);
// The fact of such a row, and the page that follows: the breath again, or that it is written down.
[[nodiscard]] wish tell_spoil(const view& v, ui_state& u, sample_number n, const std::string& id);
// Says once for all of those rows that lead to it that the tube is blown again.
void say_blown_again(toolkit& k, const view& v, const std::vector<spoil_row>& rows);
// The same for any tube that was closed; and that it was told.
[[nodiscard]] maybe_wish draw_earlier_spoil(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_spoil_told(toolkit& k, const view& v, ui_state& u);

// The tube that was closed last; nothing while none was.
[[nodiscard]] std::optional<sample_number> latest_closed(const view& v);

// Who gives the scores is asked before the first one.
[[nodiscard]] maybe_wish draw_scorer(toolkit& k, const view& v, ui_state& u);

} // namespace qb::inline screens
