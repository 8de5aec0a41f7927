// Copy to the paper sheet, one row a page, in large type: a normal ending, not a fallback.
#include "app/patient/screens/shared.hpp"

#include "core/sheet/sheet.hpp"

#include <algorithm>

namespace qb {

maybe_wish draw_copy(toolkit& k, const view& v, ui_state& u) {
  bool next = false;
  bool back = false;
  bool close = false;
  const std::vector<sheet_row> rows = sheet_of(v.s, v.at, v.z).rows;
  const std::size_t last = rows.size() - 1;
  const std::size_t shown = std::min(u.nav.page_in<copy_page>().row, last);
  const sheet_row& row = rows.at(shown);
  copy_row card;
  card.number = number_text(row.number);
  card.time = row.closed.empty() ? v.t("copy.not-taken") : row.closed;
  for (std::size_t i = 0; i < v.s.test->symptoms.size(); ++i)
    card.scores.push_back({v.s.test->symptoms[i].text, row.scores.at(i)});
  card.note = row.comment;
  const auto content = [&] {
    headline(k, "title", v.t("copy.title", {{"n", card.number}}));
    copy_card(k, "copy", v.t("copy.tube"), card);
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

} // namespace qb
