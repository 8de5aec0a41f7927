// "Start now": every rule against this very moment. What is kept is said calmly, what is not with
// its figures and the laboratory's number; starting anyway is the person's choice and is recorded.
#include "app/patient/screens/gate/gate_pages.hpp"
#include "core/base/text.hpp"
#include "core/session/limits.hpp"
#include "core/session/slip_meaning.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using page = gate_page;
using checks_list = std::vector<rule_check>;

bool any_of(const checks_list& all, bool (*what)(const rule_check&)) {
  return std::any_of(all.begin(), all.end(), what);
}

// What the laboratory alone can set up: nobody's agreement opens the gate.
bool shuts(const view& v, const rule_check& c) {
  const bool whose = c.rule == v.s.test->age_why.rule || c.rule == v.s.test->kit_why.rule;
  return whose && needs_agreement(c);
}

std::string name_words(const view& v, const rule_check& c) {
  const std::string key = "living.rule." + c.rule;
  return v.t.has(key) ? v.t(key) : c.name;
}

// "10 h of 12 h", "not answered".
std::string kept_words(const view& v, const rule_check& c) {
  if (c.unanswered) return v.t("living.check.unanswered");
  if (!c.kept)
    return v.t(c.standing == rule_standing::open ? "living.check.open" : "living.check.no");
  return v.t("gate.early.kept", {{"kept", span_in_words(*c.kept, c.in_days)},
                                 {"asked", span_in_words(c.asked, c.in_days)}});
}

// Where somebody has to agree, only that is shown: it is what the laboratory has to be asked about.
void show_not_kept(toolkit& k, const view& v, const checks_list& all, bool review) {
  std::vector<fact> rows;
  for (const rule_check& c : all) {
    const bool shown = review ? needs_agreement(c) : is_not_kept(c);
    if (shown) rows.push_back({name_words(v, c), kept_words(v, c), review});
  }
  facts(k, "short", rows);
}

// From when a start later than this one would have the least: only of what goes on until the start.
std::optional<instant> least_reached(const view& v, const rule_check& c) {
  if (c.standing != rule_standing::below_least || !c.kept || c.in_days) return std::nullopt;
  const plan& what = v.s.planned->what;
  const bool up_to_start =
      std::any_of(what.windows.begin(), what.windows.end(), [&](const planned_window& w) {
        return w.rule == c.rule && w.until == what.start;
      });
  return up_to_start ? std::optional<instant>(v.at.wall + (c.least - *c.kept)) : std::nullopt;
}

void show_least(toolkit& k, const view& v, const checks_list& all) {
  for (const rule_check& c : all) {
    const auto from = least_reached(v, c);
    if (!from) continue;
    paragraph(k, "least-" + c.rule,
              v.t("gate.early.least",
                  {{"least", span_in_words(c.least, c.in_days)}, {"at", when(v, *from)}}));
  }
}

wish start_now(ui_state& u, const checks_list& all, const std::string& agreed) {
  reported_ready told{gate_checks(), {}, agreed, {}};
  if (!agreed.empty()) told.said_by = u.drafts.gate_releaser;
  for (const rule_check& c : all) {
    if (is_not_kept(c)) told.not_kept.push_back(c.rule);
  }
  u.drafts.ticked.clear();
  u.drafts.gate_adviser.clear();
  u.drafts.gate_releaser.reset();
  u.nav.close_side();
  return payload{std::move(told)};
}

maybe_wish draw_all_kept(toolkit& k, const view& v, ui_state& u, const checks_list& all) {
  bool ready = false;
  bool list = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.check.good"));
    picture(k, "picture", picture_of::gate, v.t("gate.picture"), true);
    paragraph(k, "what", v.t("living.check.next"));
  };
  const auto actions = [&] {
    ready = primary_button(k, "ready", v.t("living.check.on"));
    list = secondary_button(k, "all-rules", v.t("living.check.list"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-check", content, actions);
  if (list) u.nav.page = page::rules;
  if (back) u.nav.page = page::things;
  if (ready) return start_now(u, all, "");
  return out;
}

struct short_presses {
  bool wait{false};
  bool go{false};
  bool list{false};
};

// Waiting helps where the plan's own start is still to come; else a later start has to be chosen.
short_presses draw_short_actions(toolkit& k, const view& v, bool review, bool shut) {
  short_presses did;
  const instant start = v.s.planned->what.start;
  did.wait = shut ? primary_button(k, "back", v.t("common.back"))
             : v.at.wall < start
                 ? primary_button(k, "wait",
                                  v.t(review ? "gate.early.wait" : "gate.early.best",
                                      {{"start", when(v, start)}}))
                 : primary_button(k, "open-choose", v.t("gate.move"));
  if (!shut)
    did.go = review ? secondary_button(k, "they-agreed", v.t("living.check.they-agreed"))
                    : secondary_button(k, "ready", v.t("gate.early.go"));
  did.list = quiet_button(k, "all-rules", v.t("living.check.list"));
  return did;
}

maybe_wish draw_short(toolkit& k, const view& v, ui_state& u, const checks_list& all) {
  const bool review = any_of(all, needs_agreement);
  const bool shut =
      std::any_of(all.begin(), all.end(), [&](const rule_check& c) { return shuts(v, c); });
  short_presses did;
  const auto content = [&] {
    headline(k, "title",
             v.t(shut     ? "gate.stop.well"
                 : review ? "gate.early.not"
                          : "living.check.tell"));
    if (review)
      notice(k, "review", notice_kind::needs_you,
             v.t(shut ? "living.check.shut" : "gate.early.review"));
    show_not_kept(k, v, all, review);
    if (review && !shut) show_least(k, v, all);
    laboratory_facts(k, v);
  };
  const auto actions = [&] { did = draw_short_actions(k, v, review, shut); };
  auto out = framed_page(k, v, "gate-check-short", content, actions);
  if (did.list) u.nav.page = page::rules;
  if (did.wait && shut) {
    u.nav.page = page::things;
  } else if (did.wait && v.at.wall < v.s.planned->what.start) {
    u.nav.page = page::time;
  } else if (did.wait) {
    u.nav.open_side(side_page::choose);
  }
  if (did.go && review) u.nav.page = page::agreed;
  if (did.go && !review) return start_now(u, all, "");
  return out;
}

// Those who may agree to a start with all of this: of each medicine whom the protocol names. A rule
// of food or time is the laboratory's to waive, or the doctor's who asked for the test.
std::vector<releaser> may_agree_to(const view& v, const checks_list& all) {
  std::vector<releaser> out;
  for (const releaser who : {releaser::laboratory, releaser::doctor}) {
    const bool counts = std::all_of(all.begin(), all.end(), [&](const rule_check& c) {
      const washout* w = find_washout(*v.s.test, c.rule);
      return w == nullptr || !needs_agreement(c) || word_counts(*w, word_for::going_on, who);
    });
    if (counts) out.push_back(who);
  }
  return out;
}

maybe_wish draw_agreed(toolkit& k, const view& v, ui_state& u, const checks_list& all) {
  std::string& who = u.drafts.gate_adviser;
  auto& said_by = u.drafts.gate_releaser;
  const std::vector<releaser> may = may_agree_to(v, all);
  if (said_by && std::find(may.begin(), may.end(), *said_by) == may.end()) said_by.reset();
  bool ready = false;
  bool back = false;
  std::optional<std::size_t> picked;
  const auto content = [&] {
    headline(k, "title", v.t("living.agreed"));
    picked = choice_list(k, "releaser", releaser_choices(v, may), said_by ? key_of(*said_by) : "");
    (void)text_field(k, "gate-who",
                     {v.t("living.gate.who.label"), v.t("living.gate.who.hint"), "",
                      text_kind::plain, longest_who},
                     who);
    paragraph(k, "recorded", v.t("living.agreed.recorded"));
  };
  const auto actions = [&] {
    if (!said_by || trimmed(who).empty()) {
      waiting_button(k, "ready", v.t("living.gate.who.wait"));
    } else {
      ready = primary_button(k, "ready", v.t("living.agreed.start"));
    }
    back = secondary_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-agreed", content, actions);
  if (picked) said_by = may.at(*picked);
  if (back) u.nav.page = page::check;
  if (ready) {
    const std::string by = trimmed(who);
    return start_now(u, all, by);
  }
  return out;
}

// What is known of a rule: its figures, or what was answered.
std::string standing_words(const view& v, const rule_check& c) {
  if (c.kept || is_not_kept(c)) return kept_words(v, c);
  if (find_washout(*v.s.test, c.rule) != nullptr) return v.t("living.check.none");
  if (find_caution(*v.s.test, c.rule) == nullptr) return v.t("living.check.yes");
  const noted_caution* told = find_noted_caution(v.s, c.rule);
  const bool no = told == nullptr || told->what.answer == caution_answer::no;
  return no ? v.t("common.no") : v.t("living.check.go-on");
}

void show_group(toolkit& k, const view& v, const checks_list& all, const std::string& key,
                bool (*belongs)(const rule_check&)) {
  std::vector<fact> rows;
  for (const rule_check& c : all) {
    if (!belongs(c)) continue;
    rows.push_back({name_words(v, c), standing_words(v, c), needs_agreement(c)});
  }
  if (rows.empty()) return;
  heading(k, key + "-title", v.t("living.check." + key));
  facts(k, key, rows);
}

maybe_wish draw_rules(toolkit& k, const view& v, ui_state& u, const checks_list& all) {
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.check.rules"));
    show_group(k, v, all, "not-kept", is_not_kept);
    show_group(k, v, all, "by-record",
               [](const rule_check& c) { return c.standing == rule_standing::by_record; });
    show_group(k, v, all, "on-word",
               [](const rule_check& c) { return c.standing == rule_standing::on_word; });
  };
  const auto actions = [&] { back = primary_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "gate-rules", content, actions);
  if (back) u.nav.page = page::check;
  return out;
}

} // namespace

maybe_wish draw_gate_check(toolkit& k, const view& v, ui_state& u) {
  const checks_list all = readiness_now(v.s, v.at);
  const page shown = u.nav.page_in<page>();
  if (shown == page::rules) return draw_rules(k, v, u, all);
  if (!any_of(all, is_not_kept)) return draw_all_kept(k, v, u, all);
  const bool shut =
      std::any_of(all.begin(), all.end(), [&](const rule_check& c) { return shuts(v, c); });
  if (shown == page::agreed && !shut) return draw_agreed(k, v, u, all);
  return draw_short(k, v, u, all);
}

} // namespace qb::inline screens
