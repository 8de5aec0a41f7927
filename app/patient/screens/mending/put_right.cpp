// Something told was wrong: which tube, what is right, and why. The first stays in the record, and
// the times of the test do not move.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

#include <algorithm>
#include <cstdlib>

namespace qb {

namespace {

constexpr const char* what_key = "draft.right.what";
constexpr const char* value_key = "draft.right.value"; // minutes, a tube's number, or a score
constexpr const char* symptom_key = "draft.right.symptom";
constexpr const char* moment_key = "draft.right.moment"; // of the drink: "began" or "emptied"
constexpr const char* why_key = "draft.right.why";       // a reason that is known; else it is asked
constexpr const char* opened_key = "opened.right";
constexpr const char* skipped = "skip";

// Tubes that it can be about.
std::vector<sample_number> tubes_of(const view& v, const std::string& what) {
  std::vector<sample_number> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    const bool fits = what == "score"
                          ? v.s.samples[i].symptoms && !v.s.samples[i].symptom_events.empty()
                          : v.s.samples[i].taken.has_value();
    if (fits) out.push_back(sample_number::from_index(i));
  }
  return out;
}

int number_in(const ui_state& u, const char* key) {
  const auto at = u.text.find(key);
  return at == u.text.end() ? 0 : std::atoi(at->second.c_str());
}

struct pressed {
  bool on{false};
  bool back{false};
};

void on_or_back(toolkit& k, const view& v, pressed& p, const std::string& words) {
  p.on = primary_button(k, "right-on", words);
  p.back = quiet_button(k, "back", v.t("common.back"));
}

maybe_wish which_tube(toolkit& k, const view& v, ui_state& u,
                      const std::vector<sample_number>& tubes) {
  pressed p;
  int by = 0;
  const auto content = [&] {
    headline(k, "title", v.t("right.which." + u.text[what_key]));
    by = stepper(k, "right-tube", v.t("tell.tube"), number_text(*u.chosen),
                 *u.chosen == tubes.front(), *u.chosen == tubes.back());
    quiet_text(k, "kept", v.t("right.kept"));
  };
  const auto actions = [&] {
    on_or_back(k, v, p, v.t("right.this", {{"n", number_text(*u.chosen)}}));
  };
  auto out = framed_page(k, v, "right-tube", content, actions, page_kind::guided);
  const auto at = std::find(tubes.begin(), tubes.end(), *u.chosen);
  if (by > 0 && at + 1 != tubes.end()) u.chosen = *(at + 1);
  if (by < 0 && at != tubes.begin()) u.chosen = *(at - 1);
  if (p.on) u.nav.page = right_page::right;
  if (p.on) u.text[value_key] = u.text[what_key] == "tube" ? "" : "0";
  if (p.back) u.nav.close_side();
  return out;
}

// Whether the drink's beginning or its end was told wrong.
maybe_wish which_moment(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  std::string picked;
  const auto content = [&] {
    headline(k, "title", v.t("right.which.drink"));
    std::vector<choice> choices{{"began", v.t("right.drink.began"), ""}};
    if (v.s.drink_end) choices.push_back({"emptied", v.t("right.drink.emptied"), ""});
    if (const auto at = choice_list(k, "right", choices, "")) picked = choices.at(*at).key;
    quiet_text(k, "kept", v.t("right.kept"));
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "right-drink", content, actions, page_kind::guided);
  if (back) u.nav.close_side();
  if (picked.empty()) return out;
  u.text[moment_key] = picked;
  u.text[value_key] = "0";
  u.nav.page = right_page::right;
  return out;
}

// The recorded time that is put right, and the event that told of it.
struct recorded_time {
  std::int64_t seq{0};
  instant was;
  std::string question;
};

recorded_time time_to_right(const view& v, ui_state& u) {
  const std::string what = u.text[what_key];
  if (what == "drink") {
    const bool emptied = u.text[moment_key] == "emptied" && v.s.drink_end;
    const noted_moment& m = emptied ? *v.s.drink_end : *v.s.drink_start;
    return {m.seq, m.at.wall, v.t(emptied ? "right.time.emptied" : "right.time.began")};
  }
  const taken_breath& t = *v.s.of(*u.chosen).taken;
  const bool twice = !u.text[why_key].empty();
  return {t.seq, t.closed,
          v.t(twice ? "right.time.twice" : "right.time", {{"n", number_text(*u.chosen)}})};
}

corrected correction(const view& v, ui_state& u, const std::string& why);

// The recorded time, moved a minute at a press.
maybe_wish right_minute(toolkit& k, const view& v, ui_state& u) {
  pressed p;
  const recorded_time wrong = time_to_right(v, u);
  const bool drink = u.text[what_key] == "drink";
  const int minutes = number_in(u, value_key);
  const instant to = wrong.was + std::chrono::minutes{minutes};
  int by = 0;
  const auto content = [&] {
    headline(k, "title", wrong.question);
    by = stepper(k, "right-time", v.t(drink ? "right.time.drink" : "right.time.label"), when(v, to),
                 false, to + std::chrono::minutes{1} > v.at.wall);
    quiet_text(k, "was", v.t("right.was", {{"at", when(v, wrong.was)}}));
  };
  const auto actions = [&] {
    if (minutes == 0) waiting_button(k, "right-waits", v.t("right.change-first"));
    p.on = minutes != 0 && primary_button(k, "right-on", v.t("right.on"));
    p.back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "right-time", content, actions, page_kind::guided);
  const std::string known = u.text[why_key];
  u.text[value_key] = std::to_string(minutes + by);
  if (p.back && known.empty()) u.nav.page = right_page::which;
  if (p.back && !known.empty()) u.nav.close_side();
  if (!p.on) return out;
  u.nav.page = right_page::why;
  if (known.empty()) return out;
  u.nav.close_side();
  return wish{payload{correction(v, u, known)}};
}

maybe_wish right_other(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  std::string picked;
  const auto content = [&] {
    headline(k, "title", v.t("right.other", {{"n", number_text(*u.chosen)}}));
    std::vector<choice> choices;
    for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
      const auto n = sample_number::from_index(i);
      if (n == *u.chosen) continue;
      choices.push_back({"other-" + number_text(n), v.t("label.tube", {{"n", number_text(n)}}),
                         v.s.of(n).taken ? v.t("right.swapped") : ""});
    }
    if (const auto at = choice_list(k, "right", choices, ""))
      picked = choices.at(*at).key.substr(std::string("other-").size());
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "right-other", content, actions, page_kind::guided);
  if (!picked.empty()) u.text[value_key] = picked;
  if (!picked.empty()) u.nav.page = right_page::why;
  if (back) u.nav.page = right_page::which;
  return out;
}

// Which symptom, then its score; the first score is not shown, as nowhere.
maybe_wish right_mark(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  std::optional<std::size_t> picked;
  std::optional<score_press> press;
  std::string& id = u.text[symptom_key];
  const auto content = [&] {
    if (id.empty()) {
      headline(k, "title", v.t("right.symptom", {{"n", number_text(*u.chosen)}}));
      std::vector<choice> choices;
      for (const symptom& s : v.s.test->symptoms)
        choices.push_back({s.id, s.text, ""});
      picked = choice_list(k, "right", choices, "");
      return;
    }
    headline(k, "title", v.t("right.score", {{"n", number_text(*u.chosen)}}));
    score_view s;
    s.name = v.t("symptoms.scale");
    s.least = v.t("symptoms.least");
    s.most = v.t("symptoms.most");
    s.skip = v.t("symptoms.skip");
    press = score(k, "score", s);
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, id.empty() ? "right-symptom" : "right-score", content, actions,
                         page_kind::guided);
  if (picked) id = v.s.test->symptoms.at(*picked).id;
  if (press) u.text[value_key] = press->skip ? skipped : std::to_string(press->value);
  if (press) u.nav.page = right_page::why;
  if (back && id.empty()) u.nav.page = right_page::which;
  if (back) id.clear();
  return out;
}

corrected correction(const view& v, ui_state& u, const std::string& why) {
  const std::string what = u.text[what_key];
  if (what == "time" || what == "drink") {
    const recorded_time wrong = time_to_right(v, u);
    const instant to = wrong.was + std::chrono::minutes{number_in(u, value_key)};
    return {wrong.seq, right_time{to, how_known::told}, why};
  }
  const sample_state& t = v.s.of(*u.chosen);
  if (what == "tube")
    return {t.taken->seq, right_tube{sample_number(number_in(u, value_key))}, why};
  right_score to{u.text[symptom_key], std::nullopt};
  if (u.text[value_key] != skipped) to.score = number_in(u, value_key);
  return {t.symptom_events.back(), to, why};
}

maybe_wish why(toolkit& k, const view& v, ui_state& u) {
  asked_reason asked = ask_reason(k, v, u);
  if (asked.back) u.nav.page = right_page::right;
  if (asked.reason.empty()) return asked.unwell;
  u.nav.close_side();
  return wish{payload{correction(v, u, asked.reason)}};
}

} // namespace

void open_timed(const view& v, ui_state& u, side_page which, any_page at) {
  u.nav.open_side(which, std::move(at));
  u.minutes_ago = 0;
  u.text[opened_key] = std::to_string(to_unix_ms(v.at.wall));
}

instant reported_instant(const view& v, const ui_state& u) {
  const auto kept = u.text.find(opened_key);
  const bool none = kept == u.text.end() || kept->second.empty();
  const instant opened = none ? v.at.wall : from_unix_ms(std::atoll(kept->second.c_str()));
  return opened - std::chrono::minutes{u.minutes_ago};
}

void open_put_right(const view& v, ui_state& u, const std::string& what) {
  const auto tubes = tubes_of(v, what);
  if (what != "drink" && tubes.empty()) return;
  u.nav.open_side(side_page::put_right);
  u.chosen = tubes.empty() ? std::nullopt : std::optional(tubes.back());
  u.text[what_key] = what;
  u.text[symptom_key].clear();
  u.text[why_key].clear();
}

void open_blown_twice(const view& v, ui_state& u, sample_number n) {
  open_put_right(v, u, "time");
  u.chosen = n;
  u.nav.page = right_page::right;
  u.text[value_key] = "0";
  u.text[why_key] = v.t("right.why.twice");
}

std::optional<sample_number> latest_closed(const view& v) {
  for (std::size_t i = v.s.samples.size(); i-- > 0;) {
    if (v.s.samples[i].taken) return sample_number::from_index(i);
  }
  return std::nullopt;
}

maybe_wish draw_put_right(toolkit& k, const view& v, ui_state& u) {
  const std::string what = u.text[what_key];
  const auto tubes = tubes_of(v, what);
  const bool drink = what == "drink" && v.s.drink_start;
  const bool known = u.chosen && std::find(tubes.begin(), tubes.end(), *u.chosen) != tubes.end();
  if (!known && !drink) { // closed anew meanwhile, or put right elsewhere
    u.nav.close_side();
    return std::nullopt;
  }
  const right_page shown = u.nav.page_in<right_page>();
  if (shown == right_page::which) return drink ? which_moment(k, v, u) : which_tube(k, v, u, tubes);
  if (shown != right_page::right) return why(k, v, u);
  if (what == "time" || drink) return right_minute(k, v, u);
  return what == "tube" ? right_other(k, v, u) : right_mark(k, v, u);
}

} // namespace qb
