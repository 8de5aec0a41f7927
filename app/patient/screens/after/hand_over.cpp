// Handing the record over to a folder or a drive: where to, that it is being written, and what was
// written there. "Safely saved" is said only of what was synced, read back and found complete.
#include "app/patient/screens/places.hpp"
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/screens/reach.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// What is in the files and who can read them, for the places there are.
void say_what(toolkit& k, const view& v) {
  const bool locked = !v.lab.seal_to.empty();
  const bool folder =
      std::any_of(v.places.begin(), v.places.end(), [](const export_place& p) { return !p.drive; });
  paragraph(k, "what",
            v.t(!locked  ? "hand-over.what"
                : folder ? "hand-over.locked-drive"
                         : "hand-over.locked"));
  if (!locked) paragraph(k, "names", v.t("hand-over.names"));
  if (locked && folder) paragraph(k, "names", v.t("hand-over.names-folder"));
}

maybe_wish draw_where(toolkit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool code = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("hand-over.title"));
    say_what(k, v);
    picked = place_menu(k, v);
  };
  const auto actions = [&] {
    if (v.s.grid) code = quiet_button(k, "open-code", v.t("code.no-drive"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "hand-over", content, actions);
  if (back) u.nav.close_side();
  if (code) u.nav.open_side(side_page::code);
  if (picked) return wish{hand_over{v.places.at(*picked)}};
  return out;
}

// What goes with the test and is needed after it, each a press away; answers the page pressed.
side_page say_first(toolkit& k, const view& v) {
  paragraph(k, "first", v.t("shared.first"));
  const bool copy = quiet_button(k, "open-copy", v.t("finish.copy"));
  const bool pack = quiet_button(k, "open-pack", v.t("finish.pack"));
  return copy ? side_page::copy : pack ? side_page::pack : side_page::none;
}

// A file on a drive or a device is not with the laboratory.
void say_where_it_is(toolkit& k, const view& v) {
  show_written(k, v, v.written);
  strong(k, "bring",
         v.t(v.written.to.drive ? "hand-over.bring-drive" : "hand-over.bring",
             {{"tel", telephone_words(v)}}));
  outside_line(k, v);
}

// On a device that erases: the large button keeps, for what is pressed twice must not erase.
maybe_wish draw_before_erasing(toolkit& k, const view& v, ui_state& u) {
  side_page open = side_page::none;
  bool have = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("hand-over.done-title"));
    if (filled_tubes(v) > 0) {
      const side_page pressed = say_first(k, v);
      if (pressed != side_page::none) open = pressed;
    }
    say_where_it_is(k, v);
    paragraph(k, "shared", v.t("shared.confirm"));
    paragraph(k, "shared-until", v.t("shared.waits", {{"at", when(v, v.shared->until)}}));
  };
  const auto actions = [&] {
    back = primary_button(k, "back", v.t("shared.not-yet"));
    have = quiet_button(k, "have-it", v.t("shared.have-it"));
  };
  auto out = framed_page(k, v, "hand-over-written", content, actions);
  if (!have && !back && open == side_page::none) return out;
  u.nav.open_side(open);
  if (have) ask_to_erase(u);
  return wish{files_seen{}};
}

} // namespace

maybe_wish draw_hand_over(toolkit& k, const view& v, ui_state& u) {
  if (v.writing_to) return draw_writing(k, v);
  if (v.written.page != side_page::hand_over) return draw_where(k, v, u);
  if (v.shared && v.lab.kiosk && v.lab.kiosk->erase_after_handover)
    return draw_before_erasing(k, v, u);
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("hand-over.done-title"));
    say_where_it_is(k, v);
  };
  const auto actions = [&] { back = primary_button(k, "back", v.t("common.done")); };
  auto out = framed_page(k, v, "hand-over-written", content, actions);
  if (!back) return out;
  u.nav.close_side();
  return wish{files_seen{}};
}

} // namespace qb::inline screens
