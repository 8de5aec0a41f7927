// Erasing the test: what goes, what stays, and a second deliberate answer before it is done.
// Nothing here can be taken back, so the large button keeps the test, on both pages.
#include "app/patient/screens/plan_words.hpp"

namespace qb {

namespace {

constexpr const char* all_tick = "erase-all";
constexpr const char* undo_tick = "erase-undo";

void leave_erasing(ui_state& u) {
  u.ticked.clear();
  open_side(u, "");
}

maybe_wish draw_meaning(kit& k, const view& v, ui_state& u) {
  bool keep = false;
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("erase.title"));
    paragraph(k, "gone", v.t("erase.gone"));
    paragraph(k, "stays", v.t("erase.stays"));
    if (v.s.exported_at) {
      paragraph(k, "handed", v.t("erase.handed", {{"at", when(v, v.s.exported_at->at.wall)}}));
    } else if (v.s.grid) {
      notice(k, "unhanded", notice_kind::needs_you, v.t("erase.unhanded"));
    }
    strong(k, "undo", v.t("erase.undo"));
  };
  const auto actions = [&] {
    keep = primary_button(k, "keep", v.t("erase.keep"));
    on = quiet_button(k, "erase-on", v.t("erase.on"));
  };
  auto out = framed_page(k, v, "erase", content, actions);
  if (keep) leave_erasing(u);
  if (on) {
    u.ticked.clear();
    u.page = 1;
  }
  return out;
}

maybe_wish draw_sure(kit& k, const view& v, ui_state& u) {
  std::string turned;
  bool keep = false;
  bool erase = false;
  const auto row = [&](const char* tick, const char* words) {
    if (check_row(k, tick, v.t(words), is_ticked(u, tick))) turned = tick;
  };
  const auto content = [&] {
    headline(k, "title", v.t("erase.sure"));
    if (v.s.person)
      facts(k, "who",
            {{v.t("return.name"), v.s.person->name}, {v.t("return.kit"), v.s.person->kit_number}});
    row(all_tick, "erase.all");
    row(undo_tick, "erase.knows");
  };
  const auto actions = [&] {
    keep = primary_button(k, "keep", v.t("erase.keep"));
    if (is_ticked(u, all_tick) && is_ticked(u, undo_tick)) {
      erase = secondary_button(k, "erase-now", v.t("erase.now"));
    } else {
      quiet_text(k, "tick-both", v.t("erase.tick"));
    }
  };
  auto out = framed_page(k, v, "erase-sure", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (keep) leave_erasing(u);
  if (erase) return wish{erase_test{}};
  return out;
}

} // namespace

maybe_wish draw_erase(kit& k, const view& v, ui_state& u) {
  return u.page == 1 ? draw_sure(k, v, u) : draw_meaning(k, v, u);
}

maybe_wish draw_erased(kit& k, const view& v, ui_state& u) {
  bool done = false;
  const auto content = [&] {
    headline(k, "title", v.t("erased.title"));
    paragraph(k, "what", v.t("erased.what"));
    paragraph(k, "stays", v.t("erase.stays"));
  };
  const auto actions = [&] { done = primary_button(k, "done", v.t("common.done")); };
  auto out = framed_page(k, v, "erased", content, actions);
  if (done) open_side(u, "");
  return out;
}

} // namespace qb
