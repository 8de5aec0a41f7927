// Copy to the paper sheet, one row a page, in large type: a normal ending, not a fallback.
#include "app/patient/screens/shared.hpp"

#include "core/sheet/sheet.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// `at`: when, as the sheet has it; empty where there was nothing.
template <typename Row>
copy_row card_of(const view& v, std::string name, const std::string& at, const Row& row) {
  copy_row card{std::move(name), at.empty() ? v.t("copy.not-taken") : at, {}, row.comment};
  for (std::size_t i = 0; i < v.s.test->symptoms.size(); ++i)
    card.scores.push_back({v.s.test->symptoms[i].text, row.scores.at(i)});
  return card;
}

copy_row card_of(const view& v, const sheet_row& row) {
  return card_of(v, number_text(row.number), row.closed, row);
}

// Scores that belong to no tube have a row of their own below the tubes.
copy_row card_of(const view& v, const sheet_after& row) {
  return card_of(v, paper_row_of(row.what), row.given, row);
}

} // namespace

maybe_wish draw_copy(toolkit& k, const view& v, ui_state& u) {
  bool next = false;
  bool back = false;
  bool close = false;
  const sheet_text sheet = sheet_of(v.s, v.at, v.z);
  const std::size_t last = sheet.rows.size() + sheet.after.size() - 1;
  const std::size_t shown = std::min(u.nav.page_in<copy_page>().row, last);
  const bool is_tube = shown < sheet.rows.size();
  const copy_row card = is_tube ? card_of(v, sheet.rows[shown])
                                : card_of(v, sheet.after.at(shown - sheet.rows.size()));
  const auto content = [&] {
    headline(k, "title", v.t("copy.title", {{"n", card.number}}));
    copy_card(k, "copy", v.t(is_tube ? "copy.tube" : "copy.row"), card);
  };
  const auto actions = [&] {
    if (shown < last) {
      next = primary_button(k, "copy-next", v.t("copy.next"));
    } else {
      close = primary_button(k, "copy-done", v.t("copy.done"));
    }
    back = quiet_button(k, "back", v.t(shown > 0 ? "copy.previous" : "common.back"));
  };
  auto out = framed_page(k, v, "copy", content, actions);
  if (next) u.nav.page = copy_page{shown + 1};
  if (back && shown > 0) {
    u.nav.page = copy_page{shown - 1};
  } else if (back || close) {
    u.nav.close_side();
  }
  return out;
}

} // namespace qb::inline screens
