// Reminders outside this device: an ordinary alarm clock, a calendar file for a phone, a page to
// print. This device may be off, empty or in another room when the time comes.
#include "app/patient/screens/places.hpp"
#include "app/patient/screens/plan_words.hpp"
#include "core/sheet/calendar.hpp"

namespace qb::inline screens {

namespace {

// The alarms that are still to come, as rows to set a clock by.
std::vector<moment> alarm_rows(const view& v, const prepared_plan& p) {
  std::vector<moment> out;
  for (const second_alarm& a : second_alarms(p)) {
    if (a.at <= v.at.wall) continue;
    const std::string at = clock_of(v, a.step_begins);
    const std::string words = a.rule == start_step
                                  ? v.t("reminders.alarm.start", {{"at", at}})
                                  : v.t("reminders.alarm.step", {{"what", a.words}, {"at", at}});
    out.push_back({when(v, a.at), words, moment_state::next});
  }
  return out;
}

// What is known of files written before.
void show_state(toolkit& k, const view& v, bool called_off) {
  const reminders_state known = reminders_of(v.s);
  if (known == reminders_state::old)
    notice(k, "old", notice_kind::needs_you,
           v.t(called_off ? "reminders.called-off" : "reminders.old"));
  if (known == reminders_state::fresh)
    notice(k, "fresh", notice_kind::note, v.t("reminders.fresh"));
}

maybe_wish draw_alarms(toolkit& k, const view& v, ui_state& u, const prepared_plan& p) {
  bool on = false;
  bool back = false;
  const std::vector<moment> rows = alarm_rows(v, p);
  const auto content = [&] {
    headline(k, "title", v.t("reminders.title"));
    show_state(k, v, false);
    paragraph(k, "why", v.t("reminders.why"));
    timeline(k, "alarm", rows);
    if (rows.empty()) paragraph(k, "none", v.t("reminders.none"));
  };
  const auto actions = [&] {
    on = primary_button(k, "files",
                        v.t(reminders_of(v.s) == reminders_state::old ? "reminders.files-anew"
                                                                      : "reminders.files"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "reminders", content, actions);
  if (on) u.nav.page = reminders_page::files;
  if (back) u.nav.close_side();
  return out;
}

maybe_wish draw_places(toolkit& k, const view& v, ui_state& u, bool called_off) {
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("reminders.where"));
    if (called_off) show_state(k, v, true);
    paragraph(k, "what", v.t(called_off ? "reminders.what-back" : "reminders.what"));
    picked = place_menu(k, v);
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "reminders-where", content, actions);
  if (back && called_off) u.nav.close_side();
  if (back) u.nav.page = reminders_page::alarms;
  if (picked) return wish{write_reminder_files{v.places.at(*picked)}};
  return out;
}

maybe_wish draw_written(toolkit& k, const view& v, ui_state& u, bool called_off) {
  bool done = false;
  const auto content = [&] {
    headline(k, "title", v.t("reminders.written"));
    show_written(k, v, v.written);
    heading(k, "phone-title", v.t("reminders.phone-title"));
    paragraph(k, "phone", v.t("reminders.phone"));
    paragraph(k, "open", v.t(called_off ? "reminders.open-back" : "reminders.open"));
    if (called_off) return;
    heading(k, "page-title", v.t("reminders.page-title"));
    paragraph(k, "page", v.t("reminders.page"));
  };
  const auto actions = [&] { done = primary_button(k, "done", v.t("common.done")); };
  auto out = framed_page(k, v, "reminders-written", content, actions);
  if (done) {
    u.nav.close_side();
    return wish{files_seen{}};
  }
  return out;
}

} // namespace

maybe_wish draw_reminders(toolkit& k, const view& v, ui_state& u) {
  const auto p = prepared_plan_of(v.s);
  if (!p) { // nothing to be reminded of: the page gives way to the test's own screen
    u.nav.close_side();
    return std::nullopt;
  }
  if (v.writing_to) return draw_writing(k, v);
  if (v.written.page == side_page::reminders) return draw_written(k, v, u, p->called_off);
  const bool files = u.nav.page_in<reminders_page>() == reminders_page::files;
  if (p->called_off || files) return draw_places(k, v, u, p->called_off);
  return draw_alarms(k, v, u, *p);
}

} // namespace qb::inline screens
