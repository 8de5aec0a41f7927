// Something told was wrong: which tube, what is right, and why. The first stays in the record, and
// the times of the test do not move.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// As in the keys of sentences.
const char* key_of(right_what what) {
  switch (what) {
  case right_what::time: return "time";
  case right_what::tube: return "tube";
  case right_what::score: return "score";
  case right_what::drink: return "drink";
  }
  QB_BELIEVE(false);
  return "time";
}

// Tubes that it can be about.
std::vector<sample_number> tubes_of(const view& v, right_what what) {
  std::vector<sample_number> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    const bool fits = what == right_what::score
                          ? v.s.samples[i].symptoms && !v.s.samples[i].symptom_events.empty()
                          : v.s.samples[i].taken.has_value();
    if (fits) out.push_back(sample_number::from_index(i));
  }
  return out;
}

struct pressed {
  bool on{false};
  bool back{false};
};

void on_or_back(toolkit& k, const view& v, pressed& p, const std::string& words) {
  p.on = primary_button(k, "right-on", words);
  p.back = quiet_button(k, "back", v.t("common.back"));
}

// Scores that belong to no tube and were given: they can be wrong as those of a tube.
std::vector<score_time> given_after(const view& v, right_what what) {
  std::vector<score_time> out;
  for (const score_time t : both_score_times) {
    if (what == right_what::score && v.s.of(t).given()) out.push_back(t);
  }
  return out;
}

// "tube 4", or what belongs to none.
std::string scored_words(const view& v, const ui_state& u) {
  const later_draft& at = u.drafts.later;
  if (at.after) return v.t(std::string("right.after.") + key_of(*at.after));
  return v.t("right.at-tube", {{"n", number_text(*at.tube)}});
}

maybe_wish which_tube(toolkit& k, const view& v, ui_state& u,
                      const std::vector<sample_number>& tubes) {
  pressed p;
  int by = 0;
  std::optional<score_time> picked;
  const auto content = [&] {
    headline(k, "title", v.t(std::string("right.which.") + key_of(u.drafts.right.what)));
    by = stepper(k, "right-tube", v.t("tell.tube"), number_text(*u.drafts.later.tube),
                 *u.drafts.later.tube == tubes.front(), *u.drafts.later.tube == tubes.back());
    for (const score_time t : given_after(v, u.drafts.right.what)) {
      const std::string key = key_of(t);
      if (quiet_button(k, "right-" + key, v.t("right.it-is." + key))) picked = t;
    }
    quiet_text(k, "kept", v.t("right.kept"));
  };
  const auto actions = [&] {
    on_or_back(k, v, p, v.t("right.this", {{"n", number_text(*u.drafts.later.tube)}}));
  };
  auto out = framed_page(k, v, "right-tube", content, actions, page_kind::guided);
  const auto at = std::find(tubes.begin(), tubes.end(), *u.drafts.later.tube);
  if (by > 0 && at + 1 != tubes.end()) u.drafts.later.tube = *(at + 1);
  if (by < 0 && at != tubes.begin()) u.drafts.later.tube = *(at - 1);
  if (p.on || picked) u.nav.page = right_page::right;
  if (p.on || picked) u.drafts.right.minutes = 0;
  u.drafts.later.after = picked;
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
  u.drafts.right.emptied = picked == "emptied";
  u.drafts.right.minutes = 0;
  u.nav.page = right_page::right;
  return out;
}

// The recorded time that is put right, and the event that told of it.
struct recorded_time {
  std::int64_t seq{0};
  instant was;
  std::string question;
};

recorded_time time_to_right(const view& v, const ui_state& u) {
  const right_draft& right = u.drafts.right;
  if (right.what == right_what::drink) {
    const bool emptied = right.emptied && v.s.drink_end;
    const noted_moment& m = emptied ? *v.s.drink_end : *v.s.drink_start;
    return {m.seq, m.at.wall, v.t(emptied ? "right.time.emptied" : "right.time.began")};
  }
  const taken_breath& t = *v.s.of(*u.drafts.later.tube).taken;
  const bool twice = !right.reason.empty();
  return {
      t.seq, t.closed,
      v.t(twice ? "right.time.twice" : "right.time", {{"n", number_text(*u.drafts.later.tube)}})};
}

corrected correction(const view& v, const ui_state& u, const std::string& why);

// The recorded time, moved a minute at a press.
maybe_wish right_minute(toolkit& k, const view& v, ui_state& u) {
  pressed p;
  const recorded_time wrong = time_to_right(v, u);
  const bool drink = u.drafts.right.what == right_what::drink;
  const int minutes = u.drafts.right.minutes;
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
  const std::string known = u.drafts.right.reason;
  u.drafts.right.minutes = minutes + by;
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
  std::optional<sample_number> picked;
  const auto content = [&] {
    headline(k, "title", v.t("right.other", {{"n", number_text(*u.drafts.later.tube)}}));
    std::vector<choice> choices;
    std::vector<sample_number> others;
    for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
      const auto n = sample_number::from_index(i);
      if (n == *u.drafts.later.tube) continue;
      others.push_back(n);
      choices.push_back({"other-" + number_text(n), v.t("label.tube", {{"n", number_text(n)}}),
                         v.s.of(n).taken ? v.t("right.swapped") : ""});
    }
    if (const auto at = choice_list(k, "right", choices, "")) picked = others.at(*at);
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "right-other", content, actions, page_kind::guided);
  if (picked) u.drafts.right.other = picked;
  if (picked) u.nav.page = right_page::why;
  if (back) u.nav.page = right_page::which;
  return out;
}

// Which symptom, then its score; the first score is not shown, as nowhere.
maybe_wish right_mark(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  std::optional<std::size_t> picked;
  std::optional<score_press> press;
  std::string& id = u.drafts.right.symptom;
  const auto content = [&] {
    if (id.empty()) {
      headline(k, "title", v.t("right.symptom", {{"when", scored_words(v, u)}}));
      std::vector<choice> choices;
      for (const symptom& s : v.s.test->symptoms)
        choices.push_back({s.id, s.text, ""});
      picked = choice_list(k, "right", choices, "");
      return;
    }
    headline(k, "title", v.t("right.score", {{"when", scored_words(v, u)}}));
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
  if (press) u.drafts.right.score = press->skip ? std::nullopt : std::optional(press->value);
  if (press) u.nav.page = right_page::why;
  if (back && id.empty()) u.nav.page = right_page::which;
  if (back) id.clear();
  return out;
}

corrected correction(const view& v, const ui_state& u, const std::string& why) {
  const right_draft& right = u.drafts.right;
  if (right.what == right_what::time || right.what == right_what::drink) {
    const recorded_time wrong = time_to_right(v, u);
    const instant to = wrong.was + std::chrono::minutes{right.minutes};
    return {wrong.seq, right_time{to, how_known::told}, why};
  }
  if (const auto after = u.drafts.later.after; after && right.what == right_what::score)
    return {v.s.of(*after).events.back(), right_score{right.symptom, right.score}, why};
  const sample_state& t = v.s.of(*u.drafts.later.tube);
  if (right.what == right_what::tube) return {t.taken->seq, right_tube{*right.other}, why};
  return {t.symptom_events.back(), right_score{right.symptom, right.score}, why};
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
  u.drafts.later.minutes_ago = 0;
  u.drafts.later.opened = v.at.wall;
}

instant reported_instant(const view& v, const ui_state& u) {
  const later_draft& later = u.drafts.later;
  return later.opened.value_or(v.at.wall) - std::chrono::minutes{later.minutes_ago};
}

void open_put_right(const view& v, ui_state& u, right_what what) {
  const auto tubes = tubes_of(v, what);
  if (what != right_what::drink && tubes.empty()) return;
  u.nav.open_side(side_page::put_right);
  u.drafts.later.tube = tubes.empty() ? std::nullopt : std::optional(tubes.back());
  u.drafts.later.after.reset();
  u.drafts.right = {};
  u.drafts.right.what = what;
}

void open_blown_twice(const view& v, ui_state& u, sample_number n) {
  open_put_right(v, u, right_what::time);
  u.drafts.later.tube = n;
  u.nav.page = right_page::right;
  u.drafts.right.reason = v.t("right.why.twice");
}

std::optional<sample_number> latest_closed(const view& v) {
  for (std::size_t i = v.s.samples.size(); i-- > 0;) {
    if (v.s.samples[i].taken) return sample_number::from_index(i);
  }
  return std::nullopt;
}

maybe_wish draw_put_right(toolkit& k, const view& v, ui_state& u) {
  const right_what what = u.drafts.right.what;
  const auto tubes = tubes_of(v, what);
  const bool drink = what == right_what::drink && v.s.drink_start;
  const bool known = u.drafts.later.tube &&
                     std::find(tubes.begin(), tubes.end(), *u.drafts.later.tube) != tubes.end();
  if (!known && !drink) { // closed anew meanwhile, or put right elsewhere
    u.nav.close_side();
    return std::nullopt;
  }
  const right_page shown = u.nav.page_in<right_page>();
  if (shown == right_page::which) return drink ? which_moment(k, v, u) : which_tube(k, v, u, tubes);
  if (shown != right_page::right) return why(k, v, u);
  if (what == right_what::time || drink) return right_minute(k, v, u);
  return what == right_what::tube ? right_other(k, v, u) : right_mark(k, v, u);
}

} // namespace qb::inline screens
