// Day and time of the start, what stands against them, and the plan as a whole.
// The shell works out what the draft comes to; here it is only shown and stepped.
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/session/going_on.hpp"
#include "core/sheet/prepared_plan.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using page = plan_page;

constexpr int minutes_in_day = 24 * 60;
constexpr int stride = 15; // minutes; a press of the stepper

int minute_of(const ui_state& u) {
  return std::clamp(u.drafts.plan.minute.value_or(0), 0, minutes_in_day - 1);
}

std::string clock_words(int minute) {
  return clock_text(at(civil_date{}, minute / 60, minute % 60));
}

// What stands against a start, by how much: "3 days too soon".
std::string short_of(const view& v, const broken_rule& b) {
  if (b.later_by) return v.t("choose.start.by", {{"span", span_up_words(v, *b.later_by)}});
  const std::string key = "choose.start.never." + b.rule;
  return v.t(v.t.has(key) ? key : "choose.start.never");
}

// One remark above what changes it, so that it is never on another leaf.
void show_obstacle(toolkit& k, const view& v, const protocol& p) {
  const plan_preview& pre = v.preview;
  if (pre.earliest_text.empty()) {
    const std::string key = "choose.start.none." + pre.earliest_rule;
    notice(k, "no-start", notice_kind::needs_you,
           v.t(v.t.has(key) ? key : "choose.start.none",
               {{"what", rule_words(v, p, pre.earliest_rule)}}));
  } else if (!pre.problem.empty()) {
    notice(k, "problem", notice_kind::needs_you, v.t("choose.start.missing"));
  } else if (!pre.broken.empty()) {
    notice(k, "too-soon", notice_kind::needs_you,
           v.t(pre.too_soon ? "choose.start.too-soon" : "choose.start.does-not-fit",
               {{"start", pre.earliest_text}}));
  }
}

// The reasons in words: of a start that does not work each rule, of one that does what binds it.
void show_reasons(toolkit& k, const view& v, const protocol& p) {
  const plan_preview& pre = v.preview;
  if (!pre.broken.empty()) {
    std::vector<fact> rows;
    for (const broken_rule& b : pre.broken)
      rows.push_back({rule_words(v, p, b.rule), short_of(v, b)});
    facts(k, "broken", rows);
    return;
  }
  if (!pre.possible) return;
  if (!pre.earliest_rule.empty() && !pre.earliest_text.empty())
    paragraph(k, "binding",
              v.t("choose.start.binding",
                  {{"start", pre.earliest_text}, {"what", rule_words(v, p, pre.earliest_rule)}}));
  quiet_text(k, "post",
             v.t("choose.start.post", {{"day", day_words(v, pre.possible->post_on_or_before)}}));
}

struct start_presses {
  int day{0};
  int time{0};
  bool twice{false};
  bool earliest{false};
  bool hours{false};
  bool on{false};
  ways_back ways;
};

void apply_presses(const view& v, ui_state& u, const start_presses& did, civil_date day) {
  if (did.day != 0)
    u.drafts.plan.date = std::max(today(v), plus_days(day, std::chrono::days{did.day}));
  if (did.time != 0) {
    const int minute = minute_of(u);
    // From an odd minute to the next full quarter of an hour.
    const int down = (minute - 1) / stride * stride;
    const int up = (minute / stride + 1) * stride;
    u.drafts.plan.minute = std::clamp(did.time < 0 ? down : up, 0, minutes_in_day - stride);
  }
  if (did.day != 0 || did.time != 0 || did.earliest) u.drafts.plan.which = fold::unasked;
  if (did.earliest) u.drafts.plan.use_earliest = true;
}

// Nothing is planned now, because the person called it off.
bool is_called_off(const view& v) {
  return !v.s.planned && !v.s.earlier_plans.empty() && v.s.earlier_plans.back().called_off;
}

} // namespace

void offer_anew(ui_state& u) {
  u.drafts.plan.date.reset();
  u.drafts.plan.minute.reset();
  u.drafts.plan.which = fold::unasked;
}

maybe_wish draw_start(toolkit& k, const view& v, ui_state& u, const protocol& p,
                      const page_behind& back_page) {
  const civil_date day = u.drafts.plan.date.value_or(today(v));
  const int minute = minute_of(u);
  start_presses did;
  bool reminders = false;
  bool erase = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.start.title"));
    if (is_called_off(v)) notice(k, "called-off", notice_kind::note, v.t("living.off.was"));
    show_obstacle(k, v, p);
    did.day = stepper(k, "day", v.t("choose.start.day"), day_words(v, day), day <= today(v));
    did.time = stepper(k, "time", v.t("choose.start.time"), clock_words(minute), minute == 0,
                       minute >= minutes_in_day - stride);
    show_reasons(k, v, p);
    if (v.preview.earliest_text.empty()) laboratory_facts(k, v);
  };
  const auto actions = [&] {
    if (v.preview.possible) {
      did.on = primary_button(k, "next", v.t("choose.start.next"));
    } else if (v.preview.twofold && v.preview.broken.empty()) {
      did.twice = primary_button(k, "next", v.t("common.next"));
    } else if (v.preview.earliest_text.empty()) {
      did.hours = primary_button(k, "change-hours", v.t("choose.start.hours"));
    } else {
      // The shell takes the next time there is for one that the clocks jump over.
      const auto& next = v.preview.next_that_exists;
      did.earliest = primary_button(k, "use-earliest",
                                    next ? v.t("choose.start.take", {{"time", clock_text(*next)}})
                                         : v.t("choose.start.use-earliest"));
    }
    if (is_called_off(v) && reminders_of(v.s) == reminders_state::old)
      reminders = quiet_button(k, "open-reminders", v.t("living.reminders.back"));
    if (is_called_off(v)) erase = quiet_button(k, "open-erase", v.t("erase.open"));
    did.ways = draw_ways_back(k, v, u, back_page.has_value());
  };
  auto out = framed_page(k, v, "choose-start", content, actions);
  if (reminders) u.nav.open_side(side_page::reminders);
  if (erase) u.nav.open_side(side_page::erase);
  apply_presses(v, u, did, day);
  if (did.on) u.nav.page = page::review;
  if (did.twice) u.nav.page = page::fold;
  if (did.hours) u.nav.page = page::hours;
  if (did.ways.back) u.nav.page = *back_page;
  if (did.ways.cancel) leave_choosing(u);
  return out;
}

maybe_wish draw_fold(toolkit& k, const view& v, ui_state& u) {
  const fold chosen = u.drafts.plan.which;
  const std::string key = chosen == fold::first ? "first" : chosen == fold::second ? "second" : "";
  const std::vector<choice> folds{{"first", v.t("choose.fold.first"), ""},
                                  {"second", v.t("choose.fold.second"), ""}};
  std::optional<std::size_t> picked;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.fold.title", {{"time", clock_words(minute_of(u))}}));
    picture(k, "picture", picture_of::clock, v.t("choose.fold.picture"), true);
    const civil_date day = u.drafts.plan.date.value_or(today(v));
    paragraph(k, "why", v.t("choose.fold.why", {{"day", day_words(v, day)}}));
    if (auto c = choice_list(k, "fold", folds, key)) picked = c;
  };
  const auto actions = [&] {
    if (chosen == fold::unasked) {
      waiting_button(k, "next", v.t("choose.pick-one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-fold", content, actions);
  if (picked) u.drafts.plan.which = *picked == 0 ? fold::first : fold::second;
  // Too soon or not is known only now: the start's page says so, or the plan is shown.
  if (on) u.nav.page = v.preview.possible ? page::review : page::start;
  if (back) u.nav.page = page::start;
  return out;
}

namespace {

payload plan_of(const view& v, const ui_state& u, const offered_test& test) {
  return plan_made{test.canonical_text, u.drafts.plan.form, *v.preview.possible};
}

} // namespace

maybe_wish draw_review(toolkit& k, const view& v, ui_state& u, const offered_test& test) {
  bool use = false;
  bool back = false;
  const bool possible = v.preview.possible.has_value();
  const auto content = [&] {
    headline(k, "title", v.t("choose.review.title"));
    if (!possible) {
      notice(k, "gone", notice_kind::needs_you, v.t("choose.review.gone"));
      return;
    }
    timeline(k, "plan", plan_moments(v, test.test, *v.preview.possible));
  };
  const auto actions = [&] {
    if (possible) use = primary_button(k, "use-plan", v.t("choose.review.use"));
    back = secondary_button(k, "change-start", v.t("choose.review.change"));
  };
  auto out = framed_page(k, v, "choose-review", content, actions);
  if (back) u.nav.page = page::start;
  if (use && possible && wants_trying_said(v.s)) {
    u.nav.page = page::trying;
    return out;
  }
  if (use && possible) {
    leave_choosing(u);
    return wish{plan_of(v, u, test)};
  }
  return out;
}

maybe_wish draw_trying(toolkit& k, const view& v, ui_state& u, const offered_test& test) {
  bool trying = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("trying.title"));
    strong(k, "sugar", v.t("trying.sugar"));
    paragraph(k, "what", v.t("trying.what"));
  };
  const auto actions = [&] {
    if (v.preview.possible) trying = secondary_button(k, "only-trying", v.t("trying.yes"));
    back = primary_button(k, "back", v.t("trying.back"));
  };
  auto out = framed_page(k, v, "choose-trying", content, actions);
  if (back) u.nav.page = page::review;
  if (!trying) return out;
  leave_choosing(u);
  return wish{record_all{{reported_checklist{trying_list, {}}, plan_of(v, u, test)}}};
}

} // namespace qb::inline screens
