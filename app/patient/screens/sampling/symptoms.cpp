// How the person feels at a sample: one symptom a page, then a comment. Nothing is preselected,
// the last score is not shown, and leaving one out is not a 0. Answers survive an interruption.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/limits.hpp"

namespace qb {

namespace {

constexpr const char* skipped = "skip";

std::string score_key(sample_number n, const std::string& id) {
  return "score." + number_text(n) + "." + id;
}

std::string comment_key(sample_number n) {
  return "score." + number_text(n) + ".comment";
}

// The first symptom without an answer, or nothing.
const symptom* next_asked(const view& v, const ui_state& u, sample_number n) {
  for (const symptom& s : v.s.test->symptoms) {
    const auto given = u.text.find(score_key(n, s.id));
    if (given == u.text.end() || given->second.empty()) return &s;
  }
  return nullptr;
}

void forget(const view& v, ui_state& u, sample_number n) {
  for (const symptom& s : v.s.test->symptoms)
    u.text[score_key(n, s.id)].clear();
}

maybe_wish one_symptom(toolkit& k, const view& v, ui_state& u, sample_number n,
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
  if (back) forget(v, u, n);
  if (press) u.text[score_key(n, asked.id)] = press->skip ? skipped : std::to_string(press->value);
  return out;
}

reported_symptoms told(const view& v, ui_state& u, sample_number n) {
  reported_symptoms out{n, {}, u.text[comment_key(n)]};
  for (const symptom& s : v.s.test->symptoms) {
    const std::string& given = u.text[score_key(n, s.id)];
    symptom_score one{s.id, std::nullopt};
    if (given != skipped) one.score = std::atoi(given.c_str());
    out.scores.push_back(std::move(one));
  }
  return out;
}

} // namespace

maybe_wish draw_symptoms(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.scorer) return draw_scorer(k, v, u);
  const sample_number n = *v.now.sample;
  if (const symptom* asked = next_asked(v, u, n)) return one_symptom(k, v, u, n, *asked);
  bool done = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("symptoms.check"));
    std::vector<fact> rows;
    for (const symptom& s : v.s.test->symptoms) {
      const std::string& given = u.text[score_key(n, s.id)];
      rows.push_back({s.text, given == skipped ? v.t("symptoms.skipped") : given});
    }
    facts(k, "scores", rows);
    field_view field;
    field.label = v.t("symptoms.comment");
    field.longest = longest_note;
    text_field(k, "comment", field, u.text[comment_key(n)]);
  };
  const auto actions = [&] {
    done = primary_button(k, "symptoms-done", v.t("symptoms.done"));
    back = quiet_button(k, "back", v.t("symptoms.change"));
  };
  auto out = framed_page(k, v, "symptoms-check", content, actions, page_kind::timed);
  if (back) forget(v, u, n);
  if (!done) return out;
  wish w{payload{told(v, u, n)}};
  forget(v, u, n);
  u.text[comment_key(n)].clear();
  return w;
}

} // namespace qb
