// Everything is ready and it is early: wait, or start now and know what is cut short.
// What is short comes from the findings, so that the laboratory later reads the same.
#include "app/patient/screens/gate_pages.hpp"

#include <algorithm>

namespace qb {

namespace {

// One rule a start now would cut short.
struct short_rule {
  std::string rule;
  duration kept;
  duration asked;
  bool review; // under the least that is accepted
};

std::vector<short_rule> shortfall_of(const view& v) {
  std::vector<short_rule> out;
  for (const finding& f : preparation_findings(v.s, v.at.wall, v.z)) {
    const preparation_window* w = find_window(*v.s.test, f.rule);
    if (w == nullptr || f.figures.empty()) continue; // something told: the intro speaks of it
    const duration kept = std::max(duration{0}, duration{std::chrono::seconds{f.figures.front()}});
    out.push_back({f.rule, kept, w->from, f.weight == consequence::review});
  }
  return out;
}

// Under the least, only that is shown: it is what the laboratory has to be asked about.
void show_shortfall(kit& k, const view& v, const std::vector<short_rule>& rules, bool review) {
  std::vector<fact> rows;
  for (const short_rule& r : rules) {
    if (review && !r.review) continue;
    const bool begun = r.kept >= std::chrono::minutes{1};
    const std::string kept = length_in_words(std::chrono::floor<std::chrono::minutes>(r.kept));
    rows.push_back({rule_words(v, *v.s.test, r.rule),
                    v.t("gate.early.kept", {{"kept", begun ? kept : v.t("gate.early.not-yet")},
                                            {"asked", length_in_words(r.asked)}}),
                    r.review});
  }
  if (!rows.empty()) facts(k, "short", rows);
}

maybe_wish draw_early(kit& k, const view& v, ui_state& u) {
  const instant start = v.s.planned->what.start;
  bool now = false;
  bool jump = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.early.title", {{"start", start_words(v, start)}}));
    big_figure(k, "countdown", v.t("gate.left"), count_down(start - v.at.wall));
    paragraph(k, "rest", v.t("gate.early.rest"));
  };
  const auto actions = [&] {
    if (v.practice) jump = secondary_button(k, "jump", v.t("practice.jump"));
    now = secondary_button(k, "start-now", v.t("gate.early.now"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-early", content, actions);
  if (back) u.page = gate_page::things;
  if (now) u.page = gate_page::agreed;
  if (jump) return wish{jump_ahead{}};
  return out;
}

maybe_wish draw_agreed(kit& k, const view& v, ui_state& u) {
  const instant start = v.s.planned->what.start;
  const std::vector<short_rule> rules = shortfall_of(v);
  const bool review =
      std::any_of(rules.begin(), rules.end(), [](const short_rule& r) { return r.review; });
  bool wait = false;
  bool go = false;
  const auto content = [&] {
    headline(k, "title", v.t(review ? "gate.early.not" : "gate.early.sure"));
    if (review) {
      notice(k, "review", notice_kind::needs_you, v.t("gate.early.review"));
      show_shortfall(k, v, rules, review);
      laboratory_facts(k, v);
      return;
    }
    paragraph(k, "note", v.t("gate.early.note"));
    show_shortfall(k, v, rules, review);
    strong(k, "laboratory", v.t("gate.early.call", {{"tel", v.lab.telephone}}));
  };
  const auto actions = [&] {
    wait = primary_button(k, "wait", v.t("gate.early.wait", {{"start", when(v, start)}}));
    go = secondary_button(k, "ready", v.t(review ? "gate.early.they-agreed" : "gate.early.go"));
  };
  auto out = framed_page(k, v, "gate-early-sure", content, actions);
  if (wait) u.page = gate_page::time;
  if (go) return pass_gate(u);
  return out;
}

// The planned time has come while waiting.
maybe_wish draw_now(kit& k, const view& v, ui_state& u) {
  bool ready = false;
  bool unwell = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.now.title"));
    picture(k, "picture", picture_of::gate, v.t("gate.picture"), true);
    paragraph(k, "what", v.t("gate.now.what"));
  };
  const auto actions = [&] {
    ready = primary_button(k, "ready", v.t("gate.ready"));
    unwell = secondary_button(k, "not-well", v.t("gate.well.no"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-now", content, actions);
  if (unwell) u.page = gate_page::not_well;
  if (back) u.page = gate_page::things;
  if (ready) return pass_gate(u);
  return out;
}

} // namespace

maybe_wish draw_gate_time(kit& k, const view& v, ui_state& u) {
  if (v.at.wall >= v.s.planned->what.start) return draw_now(k, v, u);
  return u.page == gate_page::agreed ? draw_agreed(k, v, u) : draw_early(k, v, u);
}

} // namespace qb
