// Nothing can be recorded: the times that are known, and how the test goes on with paper. Before
// the drink it does not go on.
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

namespace {

std::string why_words(const view& v) {
  switch (*v.on_paper) {
  case paper_why::newer: return v.t("on-paper.newer");
  case paper_why::unreadable: return v.t("on-paper.unreadable");
  case paper_why::not_written: return v.t("on-paper.not-written");
  }
  QB_BELIEVE(false);
  return "";
}

// The tubes that are still to be blown, each with its time.
std::vector<fact> times_left(const view& v) {
  std::vector<fact> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    if (v.s.samples[i].taken || is_missed(v.s, n, v.at)) continue;
    out.push_back(
        {v.t("on-paper.tube", {{"n", number_text(n)}}), when(v, due_on_wall(v.s, n, v.at)), false});
  }
  return out;
}

void say_how_to_go_on(toolkit& k, const view& v) {
  const bool drunk = v.s.drink_start.has_value();
  if (!drunk) notice(k, "closed", notice_kind::needs_you, v.t("on-paper.closed"));
  paragraph(k, "how", v.t(drunk ? "on-paper.blow" : "on-paper.drunk"));
  if (!v.s.planned) {
    paragraph(k, "no-times", v.t("on-paper.no-times"));
    return;
  }
  facts(k, "times", times_left(v));
  if (!v.s.grid) quiet_text(k, "planned", v.t("on-paper.planned"));
}

} // namespace

maybe_wish draw_on_paper(toolkit& k, const view& v, ui_state&) {
  bool again = false;
  bool anew = false;
  const bool may_begin = !v.s.planned || v.s.ended;
  const auto content = [&] {
    headline(k, "title", v.t("on-paper.title"));
    paragraph(k, "why", why_words(v));
    if (!v.s.ended) say_how_to_go_on(k, v);
    laboratory_facts(k, v);
  };
  const auto actions = [&] {
    again = secondary_button(k, "try-again", v.t("on-paper.try-again"));
    if (may_begin) anew = quiet_button(k, "begin-anew", v.t("on-paper.anew"));
  };
  auto out = framed_page(k, v, "on-paper", content, actions, page_kind::guided);
  if (again) return wish{open_earlier{}};
  if (anew) return wish{begin_anew{}};
  return out;
}

} // namespace qb::inline screens
