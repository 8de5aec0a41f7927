// Handing the record over to a folder or a drive: where to, that it is being written, and what was
// written there. "Safely written" is said only of what was synced, read back and found complete.
#include "app/patient/screens/places.hpp"

namespace qb {

namespace {

maybe_wish draw_where(kit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("hand-over.title"));
    if (v.trouble.empty()) picture(k, "picture", picture_of::post, v.t("hand-over.picture"), true);
    paragraph(k, "what", v.t("hand-over.what"));
    picked = place_menu(k, v);
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "hand-over", content, actions);
  if (back) u.open.clear();
  if (picked) return wish{hand_over{v.places.at(*picked)}};
  return out;
}

} // namespace

maybe_wish draw_hand_over(kit& k, const view& v, ui_state& u) {
  if (v.writing_to) return draw_writing(k, v);
  if (v.written.page != "hand-over") return draw_where(k, v, u);
  bool back = false;
  bool have = false;
  const bool erases = v.shared && v.lab.kiosk && v.lab.kiosk->erase_after_handover;
  const auto content = [&] {
    headline(k, "title", v.t("hand-over.done-title"));
    if (erases) {
      paragraph(k, "shared", v.t("shared.confirm"));
      paragraph(k, "shared-until", v.t("shared.waits", {{"at", when(v, v.shared->until)}}));
    }
    show_written(k, v, v.written);
  };
  const auto actions = [&] {
    if (erases) have = primary_button(k, "have-it", v.t("shared.have-it"));
    back = erases ? quiet_button(k, "back", v.t("shared.not-yet"))
                  : primary_button(k, "back", v.t("common.done"));
  };
  auto out = framed_page(k, v, "hand-over", content, actions);
  if (have) return wish{erase_test{}};
  if (!back) return out;
  u.open.clear();
  return wish{files_seen{}};
}

} // namespace qb
