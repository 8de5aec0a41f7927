// A breath that was really taken while nobody pressed: which tube, and at what time.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// Tubes that could be told: not closed yet and due before now.
std::vector<sample_number> open_tubes(const view& v) {
  std::vector<sample_number> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    const bool past = !v.s.grid || due_on_wall(v.s, n, v.at) <= v.at.wall;
    if (!v.s.samples[i].taken && past) out.push_back(n);
  }
  return out;
}

// The tube closed near that time, by the laboratory's bound.
std::optional<sample_number> near_reported(const view& v, const ui_state& u, instant closed) {
  if (!v.s.grid) return std::nullopt;
  return too_close_to(v.s, *u.drafts.later.tube, v.s.grid->at(v.at).length - (v.at.wall - closed));
}

maybe_wish tell_it(ui_state& u, instant closed) {
  u.nav.close_side();
  return wish{payload{reported_breath{*u.drafts.later.tube, closed, u.drafts.later.how}}};
}

// Two closings close together are asked about, and taken as they are told.
maybe_wish ask_close(toolkit& k, const view& v, ui_state& u) {
  const instant closed = reported_instant(v, u);
  const auto near = near_reported(v, u, closed);
  if (!near) {
    u.nav.page = tell_page::known;
    return std::nullopt;
  }
  bool yes = false;
  bool change = false;
  const auto content = [&] {
    headline(k, "title", v.t("tell.close.title"));
    paragraph(k, "what",
              v.t("tell.close.what", {{"n", number_text(*u.drafts.later.tube)},
                                      {"at", when(v, closed)},
                                      {"other", number_text(*near)},
                                      {"then", when(v, v.s.of(*near).taken->closed)}}));
  };
  const auto actions = [&] {
    yes = primary_button(k, "close-yes", v.t("tell.close.yes"));
    change = secondary_button(k, "close-change", v.t("tell.close.change"));
  };
  auto out = framed_page(k, v, "tell-close", content, actions, page_kind::guided);
  if (change) u.nav.page = tell_page::known;
  return yes ? tell_it(u, closed) : out;
}

void step_tube(ui_state& u, const std::vector<sample_number>& tubes, int by) {
  const auto at = std::find(tubes.begin(), tubes.end(), *u.drafts.later.tube);
  const auto i = (at - tubes.begin()) + by;
  if (i >= 0 && i < static_cast<std::ptrdiff_t>(tubes.size()))
    u.drafts.later.tube = tubes[static_cast<std::size_t>(i)];
}

} // namespace

void open_tell(const view& v, ui_state& u, sample_number n, std::chrono::minutes ago) {
  u.nav.open_side(side_page::tell, tell_page::known);
  u.drafts.later.tube = n;
  u.drafts.later.minutes_ago = static_cast<int>(ago.count());
  u.drafts.later.opened = v.at.wall;
}

maybe_wish draw_tell(toolkit& k, const view& v, ui_state& u) {
  const auto tubes = open_tubes(v);
  if (!u.drafts.later.tube && !tubes.empty())
    open_tell(v, u, tubes.back(), std::chrono::minutes{1});
  const tell_page shown = u.nav.page_in<tell_page>();
  if (shown == tell_page::close && u.drafts.later.tube) return ask_close(k, v, u);
  bool told = false;
  bool guessed = false;
  bool back = false;
  int other = 0;
  int minutes = 0;
  const instant closed = reported_instant(v, u);
  const auto content = [&] {
    headline(k, "title",
             u.drafts.later.tube ? v.t("tell.title", {{"n", number_text(*u.drafts.later.tube)}})
                                 : v.t("tell.none"));
    if (!u.drafts.later.tube) return;
    if (shown == tell_page::which && tubes.size() > 1)
      other = stepper(k, "tell-tube", v.t("tell.tube"), number_text(*u.drafts.later.tube),
                      *u.drafts.later.tube == tubes.front(), *u.drafts.later.tube == tubes.back());
    minutes = stepper(k, "tell-minutes", v.t.counted("tell.ago", u.drafts.later.minutes_ago),
                      when(v, closed), false, u.drafts.later.minutes_ago == 0);
  };
  const auto actions = [&] {
    if (u.drafts.later.tube) {
      told = primary_button(k, "tell-read", v.t("tell.read"));
      guessed = secondary_button(k, "tell-guess", v.t("tell.guess"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "tell", content, actions, page_kind::guided);
  if (other != 0 && u.drafts.later.tube) step_tube(u, tubes, other);
  u.drafts.later.minutes_ago = std::max(0, u.drafts.later.minutes_ago - minutes);
  if (back) u.nav.close_side();
  if ((told || guessed) && u.drafts.later.tube) {
    u.drafts.later.how = told ? how_known::told : how_known::estimated;
    if (near_reported(v, u, closed)) {
      u.nav.page = tell_page::close; // asked about first
      return out;
    }
    return tell_it(u, closed);
  }
  return out;
}

} // namespace qb::inline screens
