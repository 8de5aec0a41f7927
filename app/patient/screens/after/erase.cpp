// Erasing the test: what goes, what stays, and a second deliberate answer before it is done.
// Nothing here can be taken back, so the large button keeps the test, on both pages.
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/screens/reach.hpp"

namespace qb::inline screens {

namespace {

constexpr const char* all_tick = "erase-all";
constexpr const char* undo_tick = "erase-undo";

void leave_erasing(ui_state& u) {
  u.drafts.ticked.clear();
  u.nav.close_side();
}

// What goes, in this device's case: a shared one keeps no copies, and others' tests are not told
// of.
void say_gone(toolkit& k, const view& v) {
  const bool others_device = v.lab.kiosk.has_value();
  paragraph(k, "gone", v.t(others_device ? "erase.gone.shared" : "erase.gone"));
  if (v.others && !others_device) paragraph(k, "others", v.t("erase.others"));
  paragraph(k, "stays", v.t("erase.stays"));
}

// What the laboratory has of it, as far as this device knows.
void say_handed(toolkit& k, const view& v, const ui_state& u) {
  if (!v.s.exported_at) {
    if (v.s.grid) notice(k, "unhanded", notice_kind::needs_you, v.t("erase.unhanded"));
    return;
  }
  const std::string at = when(v, v.s.exported_at->at.wall);
  const std::string& to = u.drafts.handed_to;
  if (to.empty()) {
    paragraph(k, "handed", v.t("erase.handed", {{"at", at}}));
  } else if (to == v.t("places.here")) {
    notice(k, "handed", notice_kind::needs_you, v.t("erase.handed.here"));
  } else {
    paragraph(k, "handed", v.t("erase.handed.drive", {{"at", at}, {"place", to}}));
  }
}

// A test that is planned and not begun can be called off and its answers kept.
bool can_call_off(const view& v) {
  return v.now.what == step::prepare || v.now.what == step::gate;
}

maybe_wish draw_meaning(toolkit& k, const view& v, ui_state& u) {
  bool keep = false;
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("erase.title"));
    say_gone(k, v);
    say_handed(k, v, u);
    if (filled_tubes(v) > 0) paragraph(k, "tubes", v.t("erase.tubes"));
    if (can_call_off(v)) notice(k, "instead", notice_kind::note, v.t("erase.instead"));
    strong(k, "undo", v.t("erase.undo"));
  };
  const auto actions = [&] {
    keep = primary_button(k, "keep", v.t("erase.keep"));
    on = quiet_button(k, "erase-on", v.t("erase.on"));
  };
  auto out = framed_page(k, v, "erase", content, actions);
  if (keep) leave_erasing(u);
  if (on) {
    u.drafts.ticked.clear();
    u.nav.page = erase_page::sure;
  }
  return out;
}

maybe_wish draw_sure(toolkit& k, const view& v, ui_state& u) {
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

maybe_wish draw_erase(toolkit& k, const view& v, ui_state& u) {
  return u.nav.page_in<erase_page>() == erase_page::sure ? draw_sure(k, v, u)
                                                         : draw_meaning(k, v, u);
}

void ask_to_erase(ui_state& u) {
  u.nav.open_side(side_page::erase, erase_page::sure);
  u.drafts.ticked.clear();
}

maybe_wish draw_erased(toolkit& k, const view& v, ui_state& u) {
  bool done = false;
  bool earlier = false;
  // On a shared device it is most likely somebody else's.
  const bool others = v.others && !v.lab.kiosk;
  const auto content = [&] {
    headline(k, "title", v.t("erased.title"));
    paragraph(k, "what", v.t("erased.what"));
    if (v.tubes_gone) {
      strong(k, "tubes", v.t("erased.tubes", {{"tel", telephone_words(v)}}));
      outside_line(k, v);
    }
    paragraph(k, "stays", v.t("erase.stays"));
    quiet_text(k, "traces", v.t("erased.traces"));
    if (others) paragraph(k, "others", v.t("erased.others"));
  };
  const auto actions = [&] {
    done = primary_button(k, "done", v.t("common.done"));
    if (others) earlier = quiet_button(k, "open-earlier", v.t("erased.open"));
  };
  auto out = framed_page(k, v, "erased", content, actions);
  if (done) u.nav.close_side();
  if (earlier) return wish{open_earlier{}};
  return out;
}

} // namespace qb::inline screens
