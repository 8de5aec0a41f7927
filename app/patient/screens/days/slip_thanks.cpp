// What a slip means, said as it is and without blame: how much of the rule is left, what the test
// asks and needs, and whom to tell.
#include "app/patient/screens/days/slip_pages.hpp"
#include "app/patient/screens/reach.hpp"
#include "core/session/slip_meaning.hpp"

namespace qb::inline screens {

namespace {

// Before which moment what is left counts: the start, or the end of a window that ends earlier.
instant counted_to(const view& v, const slip_meaning& m) {
  for (const planned_window& w : v.s.planned->what.windows) {
    if (w.rule == m.rule && w.until != v.s.planned->what.start) return w.until;
  }
  return m.start;
}

// From when on all of it would be kept: a day where days are counted.
std::string moment_words(const view& v, const slip_meaning& m) {
  return m.in_days ? day_words(v, date_of(v.z.civil_at(*m.full_from))) : when(v, *m.full_from);
}

std::string left_words(const view& v, const slip_meaning& m) {
  const std::string kept = span_in_words(*m.kept, m.in_days);
  if (m.in_days) return v.t("living.means.days", {{"kept", kept}, {"start", when(v, m.start)}});
  return v.t("living.means.left", {{"kept", kept},
                                   {"name", rule_words(v, *v.s.test, m.rule)},
                                   {"until", when(v, counted_to(v, m))}});
}

void show_meaning(toolkit& k, const view& v, const slip_meaning& m) {
  if (m.rule.empty()) {
    paragraph(k, "means", v.t(m.weight ? "living.means.ask" : "living.means.outside"));
    return;
  }
  paragraph(k, "means", left_words(v, m));
  if (!m.weight) {
    paragraph(k, "full", v.t("living.means.full"));
    return;
  }
  const bool some_least = m.least > duration{0} && m.least < m.asked;
  paragraph(k, "asks",
            v.t(some_least ? "living.means.asks" : "living.means.asks-only",
                {{"asked", span_in_words(m.asked, m.in_days)},
                 {"least", span_in_words(m.least, m.in_days)}}));
  if (*m.weight == consequence::review)
    notice(k, "review", notice_kind::needs_you, v.t("living.means.review"));
}

} // namespace

maybe_wish draw_slip_thanks(toolkit& k, const view& v, ui_state& u, const reported_slip& told) {
  const slip_meaning m = meaning_of(v.s, told, v.at, v.z);
  const bool may_move = !v.s.grid && !v.s.drink_start;
  const bool in_the_test = v.s.grid && told.when >= v.s.grid->anchor.wall;
  bool done = false;
  bool move = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.thanks"));
    if (in_the_test) return calling_paragraph(k, v, "means", "mending.slip-in-test");
    show_meaning(k, v, m);
    if (may_move && m.full_from)
      paragraph(k, "move-words", v.t("living.means.from", {{"at", moment_words(v, m)}}));
    if (m.weight == consequence::note) strong(k, "tell", v.t("living.means.tell"));
    if (m.weight && !v.practice) laboratory_facts(k, v);
  };
  const auto actions = [&] {
    done = primary_button(k, "done", v.t("common.done"));
    if (may_move && m.weight) move = secondary_button(k, "open-choose", v.t("slip.move"));
  };
  auto out = framed_page(k, v, "slip-thanks", content, actions);
  if (done || move) {
    forget_slip(u);
    u.nav.open_side(move ? side_page::choose : side_page::none);
  }
  return out;
}

} // namespace qb::inline screens
