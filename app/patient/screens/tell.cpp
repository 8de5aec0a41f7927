// A breath that was really taken while nobody pressed: which tube, and how many minutes ago.
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb {

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

} // namespace

maybe_wish draw_tell(kit& k, const view& v, ui_state& u) {
  const auto tubes = open_tubes(v);
  if (!u.chosen && !tubes.empty()) u.chosen = tubes.back();
  bool told = false;
  bool guessed = false;
  bool back = false;
  int other = 0;
  int minutes = 0;
  const instant closed = v.at.wall - std::chrono::minutes{u.minutes_ago};
  const auto content = [&] {
    headline(k, "title",
             u.chosen ? v.t("tell.title", {{"n", number_text(*u.chosen)}}) : v.t("tell.none"));
    if (!u.chosen) return;
    if (tubes.size() > 1)
      other = stepper(k, "tell-tube", v.t("tell.tube"), number_text(*u.chosen),
                      *u.chosen == tubes.front(), *u.chosen == tubes.back());
    minutes = stepper(k, "tell-minutes", v.t.counted("tell.ago", u.minutes_ago),
                      clock_of(v, closed), false, u.minutes_ago == 0);
  };
  const auto actions = [&] {
    if (u.chosen) {
      told = primary_button(k, "tell-read", v.t("tell.read"));
      guessed = secondary_button(k, "tell-guess", v.t("tell.guess"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "tell", content, actions, page_kind::guided);
  if (other != 0 && u.chosen) {
    const auto at = std::find(tubes.begin(), tubes.end(), *u.chosen);
    const auto i = (at - tubes.begin()) + other;
    if (i >= 0 && i < static_cast<std::ptrdiff_t>(tubes.size()))
      u.chosen = tubes[static_cast<std::size_t>(i)];
  }
  u.minutes_ago = std::max(0, u.minutes_ago - minutes);
  if (back) u.open.clear();
  if ((told || guessed) && u.chosen) {
    u.open.clear();
    return wish{
        payload{breath_told{*u.chosen, closed, told ? how_known::told : how_known::estimated}}};
  }
  return out;
}

} // namespace qb
