// Day and time of the start, what stands against them, and the plan as a whole.
// The host works out what the draft comes to; here it is only shown and stepped.
#include "app/patient/screens/choose_pages.hpp"

#include <algorithm>
#include <charconv>

namespace qb {

namespace {

namespace page = choose_page;

constexpr int minutes_in_day = 24 * 60;
constexpr int stride = 15; // minutes; a press of the stepper

int minute_of(const ui_state& u) {
  const std::string text = draft_of(u, draft::minute);
  int out = 0;
  std::from_chars(text.data(), text.data() + text.size(), out);
  return std::clamp(out, 0, minutes_in_day - 1);
}

std::string clock_words(int minute) {
  return clock_text(at(civil_date{}, minute / 60, minute % 60));
}

// Why a rule needs its time, with that time in it: "Plain food comes first, for 24 h".
std::string reason(const view& v, const protocol& p, const std::string& rule) {
  const std::string key = "choose.why." + rule;
  if (const preparation_window* w = find_window(p, rule)) {
    if (v.t.has(key)) return v.t(key, {{"span", span_words(v, w->from)}});
  }
  if (const washout* w = find_washout(p, rule)) {
    if (v.t.has(key)) return v.t(key, {{"span", span_words(v, w->days)}});
  }
  return rule_words(v, p, rule);
}

// One remark and one reason: the page has to be taken in at a glance.
void show_obstacles(kit& k, const view& v, const protocol& p) {
  const plan_preview& pre = v.preview;
  if (!pre.problem.empty()) {
    notice(k, "problem", notice_kind::needs_you, v.t("choose.start.missing"));
    return;
  }
  if (pre.broken.empty()) return;
  const auto worst = std::max_element(
      pre.broken.begin(), pre.broken.end(),
      [](const broken_rule& a, const broken_rule& b) { return a.later_by < b.later_by; });
  notice(k, "too-soon", notice_kind::needs_you,
         v.t("choose.start.too-soon", {{"start", pre.earliest_text}}));
  // With the practice banner above, both steppers matter more on this leaf than the reason.
  if (!v.practice) quiet_text(k, "reason", reason(v, p, worst->rule));
}

struct start_presses {
  int day{0};
  int time{0};
  bool twice{false};
  bool earliest{false};
  bool on{false};
  bool back{false};
};

void apply_presses(const view& v, ui_state& u, const start_presses& did, civil_date day) {
  if (did.day != 0)
    u.text[draft::date] = date_text(std::max(today(v), plus_days(day, std::chrono::days{did.day})));
  if (did.time != 0) {
    const int minute = minute_of(u);
    // From an odd minute to the next full quarter of an hour.
    const int down = (minute - 1) / stride * stride;
    const int up = (minute / stride + 1) * stride;
    u.text[draft::minute] =
        std::to_string(std::clamp(did.time < 0 ? down : up, 0, minutes_in_day - stride));
  }
  if (did.day != 0 || did.time != 0 || did.earliest) u.text.erase(draft::fold);
  if (did.earliest) u.text["plan.use_earliest"] = "yes";
}

} // namespace

maybe_wish draw_start(kit& k, const view& v, ui_state& u, const protocol& p, int back_page) {
  const auto parsed = parse_date(draft_of(u, draft::date));
  const civil_date day = parsed ? *parsed : today(v);
  const int minute = minute_of(u);
  start_presses did;
  const auto content = [&] {
    headline(k, "title", v.t("choose.start.title"));
    show_obstacles(k, v, p); // above what changes it, so that it is never on another leaf
    did.day = stepper(k, "day", v.t("choose.start.day"), day_words(v, day), day <= today(v));
    did.time = stepper(k, "time", v.t("choose.start.time"), clock_words(minute), minute == 0,
                       minute >= minutes_in_day - stride);
    if (v.preview.possible) paragraph(k, "advice", v.t("choose.start.advice"));
  };
  const auto actions = [&] {
    if (v.preview.possible) {
      did.on = primary_button(k, "next", v.t("choose.start.next"));
    } else if (v.preview.twofold && v.preview.broken.empty()) {
      did.twice = primary_button(k, "next", v.t("common.next"));
    } else {
      // The host takes the next time there is for one that the clocks jump over.
      const auto& next = v.preview.next_that_exists;
      did.earliest = primary_button(k, "use-earliest",
                                    next ? v.t("choose.start.take", {{"time", clock_text(*next)}})
                                         : v.t("choose.start.use-earliest"));
    }
    const bool moving = !u.open.empty();
    did.back = quiet_button(k, "back", v.t(moving ? "common.cancel" : "common.back"));
  };
  auto out = framed_page(k, v, "choose-start", content, actions);
  apply_presses(v, u, did, day);
  if (did.on) u.page = page::review;
  if (did.twice) u.page = page::fold;
  if (did.back && !u.open.empty()) {
    open_side(u, "");
  } else if (did.back) {
    u.page = back_page;
  }
  return out;
}

maybe_wish draw_fold(kit& k, const view& v, ui_state& u) {
  const std::string chosen = draft_of(u, draft::fold);
  const std::vector<choice> folds{{"first", v.t("choose.fold.first"), ""},
                                  {"second", v.t("choose.fold.second"), ""}};
  std::optional<std::size_t> picked;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("choose.fold.title", {{"time", clock_words(minute_of(u))}}));
    picture(k, "picture", picture_of::clock, v.t("choose.fold.picture"), true);
    const auto day = parse_date(draft_of(u, draft::date));
    paragraph(k, "why", v.t("choose.fold.why", {{"day", day_words(v, day ? *day : today(v))}}));
    if (auto c = choice_list(k, "fold", folds, chosen)) picked = c;
  };
  const auto actions = [&] {
    if (chosen.empty()) {
      waiting_button(k, "next", v.t("choose.pick-one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-fold", content, actions);
  if (picked) u.text[draft::fold] = folds.at(*picked).key;
  // Too soon or not is known only now: the start's page says so, or the plan is shown.
  if (on) u.page = v.preview.possible ? page::review : page::start;
  if (back) u.page = page::start;
  return out;
}

maybe_wish draw_review(kit& k, const view& v, ui_state& u, const offered_test& test) {
  bool use = false;
  bool back = false;
  const bool possible = v.preview.possible.has_value();
  const auto content = [&] {
    headline(k, "title", v.t("choose.review.title"));
    if (!possible) {
      notice(k, "gone", notice_kind::needs_you, v.t("choose.review.gone"));
      return;
    }
    timeline(k, "plan", plan_moments(v, u, test.test, *v.preview.possible));
  };
  const auto actions = [&] {
    if (possible) use = primary_button(k, "use-plan", v.t("choose.review.use"));
    back = secondary_button(k, "change-start", v.t("choose.review.change"));
  };
  auto out = framed_page(k, v, "choose-review", content, actions);
  if (back) u.page = page::start;
  if (use && possible) {
    open_side(u, "");
    return wish{
        payload{plan_made{test.canonical_text, draft_of(u, draft::form), *v.preview.possible}}};
  }
  return out;
}

} // namespace qb
