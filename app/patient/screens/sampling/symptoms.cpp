// How the person feels at a sample, or after the tubes: one symptom a page, then a comment. Nothing
// is preselected, the last score is not shown, and leaving one out is not a 0. Answers survive an
// interruption. What belongs to no tube is waited for, and can be put off at any moment.
#include "app/patient/screens/clock_words.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <utility>

namespace qb::inline screens {

namespace {

// The first symptom without an answer, or nothing.
const symptom* next_asked(const view& v, const sample_draft& draft) {
  for (const symptom& s : v.s.test->symptoms) {
    if (draft.scores.count(s.id) == 0) return &s;
  }
  return nullptr;
}

// What is scored: a tube, or a moment after them.
struct asked_moment {
  std::optional<sample_number> tube{};
  score_time after{score_time::after_last}; // where it is no tube
};

std::string title_of(const view& v, const asked_moment& at, const symptom& asked) {
  if (!at.tube) return v.t("symptoms.title.after", {{"what", asked.text}});
  return v.t("symptoms.title", {{"n", number_text(*at.tube)}, {"what", asked.text}});
}

std::string question_of(const view& v, const asked_moment& at) {
  if (!at.tube && at.after == score_time::later) return v.t("symptoms.since-tubes");
  return v.t(at.tube == sample_number(1) ? "symptoms.now" : "symptoms.since");
}

// What a page of scores answers.
struct scored_page {
  maybe_wish unwell;
  bool done{false};
  bool put_off{false};
};

scored_page one_symptom(toolkit& k, const view& v, sample_draft& draft, const asked_moment& at,
                        const symptom& asked) {
  std::optional<score_press> press;
  scored_page out;
  bool back = false;
  const bool first = &asked == &v.s.test->symptoms.front();
  const auto content = [&] {
    headline(k, "title", title_of(v, at, asked));
    paragraph(k, "question", question_of(v, at));
    score_view s;
    s.name = v.t("symptoms.scale");
    s.least = v.t("symptoms.least");
    s.most = v.t("symptoms.most");
    s.skip = v.t("symptoms.skip");
    if (auto p = score(k, "score", s)) press = p;
  };
  const auto actions = [&] {
    if (!first) back = quiet_button(k, "back", v.t("common.back"));
    if (first && !at.tube) out.put_off = quiet_button(k, "not-now", v.t("symptoms.not-now"));
  };
  out.unwell = framed_page(k, v, "symptoms-" + asked.id, content, actions, page_kind::timed);
  if (back) draft.scores.clear();
  if (press) draft.scores[asked.id] = press->skip ? std::nullopt : std::optional(press->value);
  return out;
}

std::vector<symptom_score> told(const view& v, const sample_draft& draft) {
  std::vector<symptom_score> out;
  for (const symptom& s : v.s.test->symptoms)
    out.push_back({s.id, draft.scores.at(s.id)});
  return out;
}

// All that was scored, once more, with room for a few words.
scored_page check_scores(toolkit& k, const view& v, sample_draft& draft) {
  scored_page out;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("symptoms.check"));
    std::vector<fact> rows;
    for (const symptom& s : v.s.test->symptoms) {
      const std::optional<int> given = draft.scores.at(s.id);
      rows.push_back({s.text, given ? std::to_string(*given) : v.t("symptoms.skipped")});
    }
    facts(k, "scores", rows);
    field_view field;
    field.label = v.t("symptoms.comment");
    field.longest = longest_note;
    text_field(k, "comment", field, draft.comment);
  };
  const auto actions = [&] {
    out.done = primary_button(k, "symptoms-done", v.t("symptoms.done"));
    back = quiet_button(k, "back", v.t("symptoms.change"));
  };
  out.unwell = framed_page(k, v, "symptoms-check", content, actions, page_kind::timed);
  if (back) draft.scores.clear();
  return out;
}

scored_page draw_scores(toolkit& k, const view& v, sample_draft& draft, const asked_moment& at) {
  if (const symptom* asked = next_asked(v, draft)) return one_symptom(k, v, draft, at, *asked);
  return check_scores(k, v, draft);
}

sample_draft& draft_of(ui_state& u, score_time t) {
  return u.drafts.after.at(static_cast<std::size_t>(t));
}

wish put_off(ui_state& u, score_time t) {
  draft_of(u, t) = {};
  return wish{payload{reported_symptoms_after{t, {}, ""}}};
}

wish given(const view& v, ui_state& u, score_time t) {
  const sample_draft draft = std::exchange(draft_of(u, t), {});
  return wish{payload{reported_symptoms_after{t, told(v, draft), draft.comment}}};
}

// How long it is until the first scores after the tubes.
quarter_view ring(const view& v) {
  const auto span = duration{*v.s.test->symptom_times.after_last};
  quarter_view q;
  q.left = std::clamp(static_cast<float>(v.now.to_due->count()) / static_cast<float>(span.count()),
                      0.0F, 1.0F);
  q.figure = count_down(*v.now.to_due);
  q.above = v.t("rest.until");
  q.below = when(v, v.at.wall + *v.now.to_due);
  return q;
}

} // namespace

maybe_wish draw_symptoms(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.scorer) return draw_scorer(k, v, u);
  const sample_number n = *v.now.sample;
  sample_draft& draft = u.drafts.samples[n];
  const scored_page page = draw_scores(k, v, draft, {n});
  if (!page.done) return page.unwell;
  wish w{payload{reported_symptoms{n, told(v, draft), draft.comment}}};
  u.drafts.samples.erase(n);
  return w;
}

maybe_wish draw_rest(toolkit& k, const view& v, ui_state& u) {
  bool jump = false;
  bool skip = false;
  const auto content = [&] {
    headline(k, "title", v.t("rest.title"));
    quarter(k, "quarter", ring(v));
    quiet_text(k, "what", v.t("rest.what"));
  };
  const auto actions = [&] {
    if (!v.practice) {
      skip = quiet_button(k, "not-now", v.t("rest.skip"));
      return;
    }
    const int pressed =
        button_pair(k, "jump", v.t("practice.jump.short"), "not-now", v.t("rest.skip.short"));
    jump = pressed == 1;
    skip = pressed == 2;
  };
  auto out = framed_page(k, v, "rest", content, actions, page_kind::timed);
  if (jump) return wish{jump_ahead{}};
  if (skip) return put_off(u, score_time::after_last);
  return out;
}

maybe_wish draw_symptoms_after(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.scorer) return draw_scorer(k, v, u);
  const score_time t = score_time::after_last;
  const scored_page page = draw_scores(k, v, draft_of(u, t), {std::nullopt, t});
  if (page.put_off) return put_off(u, t);
  return page.done ? given(v, u, t) : page.unwell;
}

maybe_wish draw_scores_later(toolkit& k, const view& v, ui_state& u) {
  const score_time t = score_time::later;
  // Given meanwhile, or their day is over.
  if (v.now.after != t || *v.now.to_due > duration{0}) {
    u.nav.close_side();
    return std::nullopt;
  }
  if (!v.s.scorer) return draw_scorer(k, v, u);
  const scored_page page = draw_scores(k, v, draft_of(u, t), {std::nullopt, t});
  if (page.put_off || page.done) u.nav.close_side();
  return page.done ? given(v, u, t) : page.unwell;
}

} // namespace qb::inline screens
