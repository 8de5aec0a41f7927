// Something of the preparation was not kept: what, when, in the person's own words if they like.
// It is thanked for, and what it means is said honestly.
#include "app/patient/screens/plan_words.hpp"

#include <algorithm>
#include <charconv>

namespace qb {

namespace {

constexpr int when_page = 1;
constexpr int words_page = 2;

constexpr const char* rule_key = "slip.rule";
constexpr const char* at_key = "slip.at"; // milliseconds since 1970
constexpr const char* own_words_key = "slip.words";
constexpr const char* told_key = "slip.told"; // "yes" once "tell" was pressed

using std::chrono::minutes;
constexpr minutes stride{15};

// The choices are the protocol's own windows, then what no window names.
std::vector<choice> choices_of(const view& v) {
  std::vector<choice> out;
  for (const preparation_window& w : v.s.test->windows) {
    const std::string key = "slip.what." + w.why.rule;
    out.push_back({w.why.rule, v.t.has(key) ? v.t(key) : w.text, ""});
  }
  out.push_back({"medicine", v.t("slip.what.medicine"), ""});
  out.push_back({"other", v.t("slip.what.other"), ""});
  return out;
}

instant this_minute(const view& v) {
  return std::chrono::floor<minutes>(v.at.wall);
}

instant chosen_time(const view& v, const ui_state& u) {
  const std::string text = draft_of(u, at_key);
  std::int64_t ms = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), ms);
  if (text.empty() || error != std::errc{}) return this_minute(v);
  return std::min(from_unix_ms(ms), this_minute(v));
}

void put_time(const view& v, ui_state& u, instant t) {
  u.text[at_key] = std::to_string(to_unix_ms(std::min(t, this_minute(v))));
}

void forget(ui_state& u) {
  for (const char* key : {rule_key, at_key, own_words_key, told_key})
    u.text.erase(key);
}

maybe_wish draw_what(kit& k, const view& v, ui_state& u) {
  const auto choices = choices_of(v);
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.title"));
    if (auto c = choice_list(k, "slip", choices, draft_of(u, rule_key))) picked = c;
    notice(k, "low-sugar", notice_kind::note, v.t("slip.low-sugar"));
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("slip.nothing")); };
  auto out = framed_page(k, v, "slip", content, actions);
  if (picked) {
    u.text[rule_key] = choices.at(*picked).key;
    u.page = when_page;
  }
  if (back) {
    forget(u);
    open_side(u, "");
  }
  return out;
}

maybe_wish draw_when(kit& k, const view& v, ui_state& u) {
  const instant t = chosen_time(v, u);
  const bool is_today = date_of(v.z.civil_at(t)) == today(v);
  constexpr std::chrono::hours day{24};
  int days = 0;
  int time = 0;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.when-title"));
    days = stepper(k, "slip-day", v.t("slip.day"),
                   v.t(is_today ? "slip.today" : "slip.before",
                       {{"day", day_words(v, date_of(v.z.civil_at(t)))}}),
                   this_minute(v) - t > 2 * day, is_today);
    time = stepper(k, "slip-time", v.t("slip.time"), clock_of(v, t), false, t >= this_minute(v));
    quiet_text(k, "about", v.t("slip.about"));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("common.next"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "slip-when", content, actions);
  if (days != 0) put_time(v, u, t + days * day);
  if (time != 0) {
    const instant quarter = std::chrono::floor<minutes>(t) - t.time_since_epoch() % stride;
    const bool whole = quarter == t;
    put_time(v, u, time > 0 ? quarter + stride : whole ? quarter - stride : quarter);
  }
  if (on) {
    put_time(v, u, t);
    u.page = words_page;
  }
  if (back) u.page = 0;
  return out;
}

maybe_wish draw_words(kit& k, const view& v, ui_state& u) {
  const auto choices = choices_of(v);
  const std::string rule = draft_of(u, rule_key);
  const auto what =
      std::find_if(choices.begin(), choices.end(), [&](const choice& c) { return c.key == rule; });
  std::string& own = u.text[own_words_key];
  const instant t = chosen_time(v, u);
  bool tell = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.check-title"));
    facts(k, "slip",
          {{v.t("slip.what"), what == choices.end() ? rule : what->title},
           {v.t("slip.when"), when(v, t)}});
    (void)text_field(k, "slip-words",
                     {v.t("slip.words"), v.t("slip.words.hint"), "", text_kind::plain, 200}, own);
  };
  const auto actions = [&] {
    tell = primary_button(k, "tell", v.t("slip.tell"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "slip-words", content, actions);
  if (back) {
    u.text.erase(told_key);
    u.page = when_page;
  }
  if (tell) {
    u.text[told_key] = "yes";
    return wish{payload{slip_told{rule, t, how_known::told, own}}};
  }
  return out;
}

// Whether what was told stands in the record: thanks are for that only.
bool is_recorded(const view& v, const ui_state& u) {
  const std::string rule = draft_of(u, rule_key);
  const instant t = chosen_time(v, u);
  return std::any_of(v.s.slips.begin(), v.s.slips.end(),
                     [&](const told_slip& s) { return s.what.rule == rule && s.what.when == t; });
}

maybe_wish draw_thanks(kit& k, const view& v, ui_state& u) {
  bool done = false;
  bool move = false;
  const bool may_move = !v.s.grid && !v.s.drink_start;
  const auto content = [&] {
    headline(k, "title", v.t("slip.thanks"));
    paragraph(k, "means", v.t("slip.means"));
    if (may_move) paragraph(k, "move-words", v.t("slip.move-words"));
    paragraph(k, "call", v.t("slip.call"));
    if (!v.practice) laboratory_facts(k, v);
  };
  const auto actions = [&] {
    done = primary_button(k, "done", v.t("common.done"));
    if (may_move) move = secondary_button(k, "open-choose", v.t("slip.move"));
  };
  auto out = framed_page(k, v, "slip-thanks", content, actions);
  if (done || move) {
    forget(u);
    open_side(u, move ? "choose" : "");
  }
  return out;
}

} // namespace

maybe_wish draw_slip(kit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.test);
  if (draft_of(u, rule_key).empty()) return draw_what(k, v, u);
  // Thanks do not hang on a page that is turned: once told and in the record, they are due.
  if (draft_of(u, told_key) == "yes" && is_recorded(v, u)) return draw_thanks(k, v, u);
  if (u.page == when_page) return draw_when(k, v, u);
  if (u.page >= words_page) return draw_words(k, v, u);
  return draw_what(k, v, u);
}

} // namespace qb
