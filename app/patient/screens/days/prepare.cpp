// The days before: what holds now and until when, what comes next, and the one thing to do.
// Rarer things stand on a second page, so that the first stays calm.
#include "app/patient/screens/days/diet.hpp"
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/sheet/prepared_plan.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

constexpr duration one_day = std::chrono::days{1}; // what people call the day before

bool within_a_day(const view& v) {
  return v.s.planned->what.start - v.at.wall <= one_day;
}

// A rule as the headline's order: "Eat plain food only".
std::string order_words(const view& v, const std::string& rule) {
  const std::string key = "prepare.now." + rule;
  return v.t.has(key) ? v.t(key) : rule_words(v, *v.s.test, rule);
}

std::string title_of(const view& v) {
  if (!v.now.holding.empty()) {
    const planned_window& now = v.now.holding.front();
    return v.t("prepare.until",
               {{"what", order_words(v, now.rule)}, {"until", when(v, now.until)}});
  }
  const instant until = v.now.next ? v.now.next->from : v.s.planned->what.start;
  return v.t("prepare.nothing", {{"until", when(v, until)}});
}

// "21 h 30" that is not broken over two lines.
std::string unbroken(std::string text) {
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 2))
    text.replace(at, 1, "\u00A0");
  return text;
}

// How long, in a sentence: whole hours without their minutes.
std::string left_words(const view& v, duration left) {
  const auto hours = std::chrono::floor<std::chrono::hours>(left);
  if (hours.count() == 0 || left - hours >= std::chrono::minutes{1}) return count_down(left);
  return v.t.counted("prepare.hours", hours.count());
}

// What comes next, and the start. How long until then is a large figure where there is room, else
// all of it is a line of running words.
void show_times(toolkit& k, const view& v, bool roomy) {
  const instant start = v.s.planned->what.start;
  const std::string left = count_down(start - v.at.wall);
  std::vector<fact> rows;
  if (v.now.next && v.now.next->from < start) {
    const std::string at = when(v, v.now.next->from);
    const std::string words = rule_words(v, *v.s.test, v.now.next->rule);
    rows.push_back({v.t("prepare.from", {{"at", at}}), words});
    if (!roomy) paragraph(k, "next", v.t("prepare.then", {{"at", at}, {"what", words}}));
  }
  if (!roomy) {
    paragraph(k, "start",
              v.t("prepare.start-in", {{"at", start_words(v, start)},
                                       {"left", unbroken(left_words(v, start - v.at.wall))}}));
    return;
  }
  rows.push_back({v.t("prepare.start"), start_words(v, start)});
  facts(k, "times", rows);
  if (within_a_day(v)) big_figure(k, "countdown", v.t("prepare.countdown"), left);
}

// The device shows another zone than the plan was made in: the plan keeps its moment.
bool is_elsewhere(const view& v) {
  return !v.s.planned->what.zone_name.empty() && v.s.planned->what.zone_name != v.z.name();
}

// Something told since the plan was made waits for somebody's word.
bool somebody_to_ask(const view& v) {
  const auto open = [&](const caution& c) {
    const noted_caution* told = find_noted_caution(v.s, c.why.rule);
    return told != nullptr && is_open(*v.s.test, c, told->what);
  };
  const auto unsettled = [&](const washout& w) {
    const noted_washout* told = find_noted_washout(v.s, w.why.rule);
    return told != nullptr && is_open(w, told->what);
  };
  const protocol& p = *v.s.test;
  return std::any_of(p.cautions.begin(), p.cautions.end(), open) ||
         std::any_of(p.washouts.begin(), p.washouts.end(), unsettled);
}

void show_now(toolkit& k, const view& v) {
  headline(k, "title", title_of(v));
  if (somebody_to_ask(v)) notice(k, "ask", notice_kind::needs_you, v.t("living.ask.waits"));
  if (reminders_of(v.s) == reminders_state::old)
    notice(k, "reminders", notice_kind::note, v.t("living.reminders.old"));
  const auto rows = rows_of_now(v);
  if (v.now.holding.empty())
    picture(k, "picture", picture_of::calendar, v.t("prepare.picture"), true);
  facts(k, "now", rows);
  if (is_elsewhere(v))
    notice(k, "zone", notice_kind::note,
           v.t("living.zone", {{"zone", v.s.planned->what.zone_name}}));
  show_times(k, v, !within_a_day(v));
  // Last, since the smallest window may turn a leaf for it: the time must be seen at once.
  quiet_text(k, "medicines", v.t("living.now.unsure"));
}

struct prepare_presses {
  bool evening{false};
  bool morning{false};
  bool start{false};
  bool confirm{false};
  bool jump{false};
  bool foods{false};
  bool slip{false};
  bool more{false};
  bool ask{false};
  bool reminders{false};
};

// One thing to do now: confirm what has just begun, else the list that is due, else the start.
void draw_main_action(toolkit& k, const view& v, const std::optional<std::string>& confirm,
                      prepare_presses& did) {
  if (somebody_to_ask(v)) {
    did.ask = primary_button(k, "open-ask", v.t("living.ask.open"));
  } else if (confirm) {
    did.confirm = primary_button(k, "confirm-" + *confirm, v.t("living.confirm." + *confirm));
  } else if (!may_start_early(v.s, v.at)) {
    return;
  } else if (v.at.wall >= morning_begins(v) && !morning_list_done(v) && !v.practice) {
    did.morning = primary_button(k, "open-morning", v.t("living.morning.open"));
  } else if (!evening_list_done(v)) {
    did.evening = primary_button(k, "open-evening", v.t("prepare.evening"));
  } else {
    did.start = primary_button(k, "open-gate", v.t("prepare.ready"));
  }
}

prepare_presses draw_actions(toolkit& k, const view& v, const std::optional<std::string>& confirm) {
  prepare_presses did;
  draw_main_action(k, v, confirm, did);
  if (v.practice) did.jump = secondary_button(k, "jump", v.t("practice.jump"));
  if (v.practice) {
    did.more = quiet_button(k, "other-things", v.t("prepare.more"));
    return did;
  }
  if (has_foods(v) && !confirm) did.foods = secondary_button(k, "open-foods", v.t("living.foods"));
  const int pair =
      button_pair(k, "open-slip", v.t("living.slip"), "other-things", v.t("living.more"));
  did.slip = pair == 1;
  did.more = pair == 2;
  if (reminders_of(v.s) == reminders_state::old)
    did.reminders = quiet_button(k, "open-reminders", v.t("living.reminders.open"));
  return did;
}

maybe_wish draw_now(toolkit& k, const view& v, ui_state& u) {
  prepare_presses did;
  const auto confirm = confirmable_now(v);
  // What is to be done now stands on every leaf.
  auto out = framed_page(
      k, v, "prepare", [&] { show_now(k, v); }, [&] { did = draw_actions(k, v, confirm); },
      page_kind::guided);
  if (did.evening) u.nav.open_side(side_page::evening);
  if (did.morning) u.nav.open_side(side_page::morning);
  if (did.start) u.nav.open_side(side_page::gate);
  if (did.slip) u.nav.open_side(side_page::slip);
  if (did.foods) u.nav.open_side(side_page::foods);
  if (did.ask) u.nav.open_side(side_page::choose);
  if (did.reminders) u.nav.open_side(side_page::reminders);
  if (did.more) u.nav.page = prepare_page::more;
  if (did.jump) return wish{jump_ahead{}};
  if (did.confirm) return wish{payload{reported_checklist{*confirm, {}}}};
  return out;
}

std::vector<choice> other_things(const view& v) {
  std::vector<choice> out;
  const auto add = [&](const std::string& id) {
    const std::string detail = "prepare." + id + ".detail";
    out.push_back({id, v.t("prepare." + id), v.t.has(detail) ? v.t(detail) : ""});
  };
  add("plan");
  if (v.practice) out.push_back({"slip", v.t("living.slip"), ""});
  out.push_back({"low", v.t("living.low.open"), ""});
  if (has_foods(v)) out.push_back({"foods", v.t("living.foods"), ""});
  add("move");
  out.push_back({"off", v.t("living.off.open"), ""});
  if (!v.s.earlier_plans.empty()) out.push_back({"history", v.t("living.history"), ""});
  add("sugar");
  add("medicines");
  add("details");
  add("list");
  add("reminders");
  out.push_back({"papers", v.t("papers.open"), v.t("papers.detail")});
  if (v.at.wall >= morning_begins(v)) out.push_back({"morning", v.t("living.morning.open"), ""});
  if (may_start_early(v.s, v.at)) add("ready");
  if (v.can_practise) add("practise");
  out.push_back({"erase", v.t("erase.open"), ""});
  if (v.practice) out.push_back({"leave", v.t("practice.leave"), ""});
  return out;
}

maybe_wish draw_more(toolkit& k, const view& v, ui_state& u) {
  const std::vector<choice> choices = other_things(v);
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("prepare.more-title"));
    if (auto c = menu_list(k, "other", choices)) picked = c;
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "prepare-more", content, actions);
  if (back || picked) u.nav.page = prepare_page::now;
  if (!picked) return out;
  const std::string& what = choices.at(*picked).key;
  if (what == "plan") u.nav.open_side(side_page::timeline);
  if (what == "slip") u.nav.open_side(side_page::slip);
  if (what == "move" || what == "medicines") u.nav.open_side(side_page::choose);
  if (what == "medicines") ask_medicines_again(u, *v.s.test);
  if (what == "sugar") choose_another_sugar(u);
  if (what == "details") u.nav.open_side(side_page::who);
  if (what == "list") u.nav.open_side(side_page::evening);
  if (what == "reminders") u.nav.open_side(side_page::reminders);
  if (what == "papers") u.nav.open_side(side_page::papers);
  if (what == "morning") u.nav.open_side(side_page::morning);
  if (what == "low") u.nav.open_side(side_page::low_sugar);
  if (what == "foods") u.nav.open_side(side_page::foods);
  if (what == "off") u.nav.open_side(side_page::call_off);
  if (what == "history") u.nav.open_side(side_page::history);
  if (what == "erase") u.nav.open_side(side_page::erase);
  if (what == "ready") u.nav.open_side(side_page::gate);
  if (what == "practise") return wish{begin_practice{}};
  if (what == "leave") return wish{leave_practice{}};
  return out;
}

} // namespace

maybe_wish draw_prepare(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  return u.nav.page_in<prepare_page>() == prepare_page::more ? draw_more(k, v, u)
                                                             : draw_now(k, v, u);
}

} // namespace qb::inline screens
