// The program was off and is back: for whom, for how long, and what passed meanwhile.
#include "app/patient/screens/reach.hpp"

namespace qb::inline screens {

namespace {

std::string off_words(const view& v) {
  return v.off < std::chrono::minutes{1} ? v.t("return.moment") : length_in_words(v.off);
}

// Whether the device restarted with a clock that cannot be right, as one that begins in 1970.
bool off_unknown(const view& v) {
  constexpr std::int64_t one_look = 3; // a restart, a zone and the return are told at once
  for (const noted_clock_change& c : v.s.clock_changes) {
    const bool now = !v.s.resumes.empty() && c.seq + one_look > v.s.resumes.back();
    if (!now || c.what.what != clock_change::kind::rebooted || !c.before) continue;
    if (c.at.wall - c.before->wall < between(*c.before, c.at).at_least) return true;
  }
  return false;
}

// The tube that is due now, else the last one whose time went by while the program was off. After
// the end nothing is due any more.
std::optional<sample_number> due_tube(const view& v) {
  if (v.now.what == step::finish) return std::nullopt;
  const bool now = v.now.what == step::breathe && v.now.to_due && *v.now.to_due <= duration{0};
  return now ? v.now.sample : v.due_while_off;
}

} // namespace

maybe_wish draw_return(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  bool not_mine = false;
  // A test that is not over is called about: another one must not be begun beside it.
  const bool may_leave = v.lab.kiosk && v.now.what == step::finish;
  const auto content = [&] {
    headline(k, "title", v.t("return.title"));
    if (const auto n = due_tube(v))
      notice(k, "due", notice_kind::needs_you,
             v.t("return.missed",
                 {{"n", number_text(*n)}, {"due", when(v, due_on_wall(v.s, *n, v.at))}}));
    if (v.s.person)
      facts(k, "who",
            {{v.t("return.name"), v.s.person->name}, {v.t("return.kit"), v.s.person->kit_number}});
    paragraph(k, "kept",
              off_unknown(v) ? v.t("return.kept.unknown")
                             : v.t("return.kept", {{"off", off_words(v)}}));
    quiet_text(k, "other", v.t("return.other", {{"tel", telephone_words(v)}}));
    outside_line(k, v);
  };
  const auto actions = [&] {
    on = primary_button(k, "go-on", v.t("return.go-on"));
    if (may_leave) not_mine = quiet_button(k, "not-mine", v.t("shared.not-mine"));
  };
  auto out = framed_page(k, v, "return", content, actions, page_kind::timed);
  if (on) u.nav.close_side();
  if (not_mine) return wish{begin_anew{}};
  return out;
}

} // namespace qb::inline screens
