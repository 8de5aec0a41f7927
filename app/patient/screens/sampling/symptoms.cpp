// How the person feels at a sample: one symptom a page, then a comment. Nothing is preselected,
// the last score is not shown, and leaving one out is not a 0. Answers survive an interruption.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/limits.hpp"

namespace qb {

namespace {

// The first symptom without an answer, or nothing.
const symptom* next_asked(const view& v, const sample_draft& draft) {
  for (const symptom& s : v.s.test->symptoms) {
    if (draft.scores.count(s.id) == 0) return &s;
  }
  return nullptr;
}

maybe_wish one_symptom(toolkit& k, const view& v, sample_draft& draft, sample_number n,
                       const symptom& asked) {
  std::optional<score_press> press;
  bool back = false;
  const bool first = &asked == &v.s.test->symptoms.front();
  const bool baseline = n == sample_number(1);
  const auto content = [&] {
    headline(k, "title", v.t("symptoms.title", {{"n", number_text(n)}, {"what", asked.text}}));
    paragraph(k, "question", v.t(baseline ? "symptoms.now" : "symptoms.since"));
    score_view s;
    s.name = v.t("symptoms.scale");
    s.least = v.t("symptoms.least");
    s.most = v.t("symptoms.most");
    s.skip = v.t("symptoms.skip");
    if (auto p = score(k, "score", s)) press = p;
  };
  const auto actions = [&] {
    if (!first) back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "symptoms-" + asked.id, content, actions, page_kind::timed);
  if (back) draft.scores.clear();
  if (press) draft.scores[asked.id] = press->skip ? std::nullopt : std::optional(press->value);
  return out;
}

reported_symptoms told(const view& v, const sample_draft& draft, sample_number n) {
  reported_symptoms out{n, {}, draft.comment};
  for (const symptom& s : v.s.test->symptoms)
    out.scores.push_back({s.id, draft.scores.at(s.id)});
  return out;
}

} // namespace

maybe_wish draw_symptoms(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.scorer) return draw_scorer(k, v, u);
  const sample_number n = *v.now.sample;
  sample_draft& draft = u.drafts.samples[n];
  if (const symptom* asked = next_asked(v, draft)) return one_symptom(k, v, draft, n, *asked);
  bool done = false;
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
    done = primary_button(k, "symptoms-done", v.t("symptoms.done"));
    back = quiet_button(k, "back", v.t("symptoms.change"));
  };
  auto out = framed_page(k, v, "symptoms-check", content, actions, page_kind::timed);
  if (back) draft.scores.clear();
  if (!done) return out;
  wish w{payload{told(v, draft, n)}};
  u.drafts.samples.erase(n);
  return w;
}

} // namespace qb
