// How the person feels at a sample: one symptom a page, then a comment. Nothing is preselected,
// the last score is not shown, and leaving one out is not a 0.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

maybe_wish one_symptom(kit& k, const view& v, ui_state& u, const symptom& asked) {
  std::optional<score_press> press;
  bool back = false;
  const bool baseline = *v.now.sample == sample_number(1);
  const auto content = [&] {
    headline(k, "title", asked.text);
    paragraph(k, "question", v.t(baseline ? "symptoms.now" : "symptoms.since"));
    score_view s;
    s.name = v.t("symptoms.scale");
    s.least = v.t("symptoms.least");
    s.most = v.t("symptoms.most");
    s.skip = v.t("symptoms.skip");
    if (auto p = score(k, "score", s)) press = p;
  };
  const auto actions = [&] {
    if (!u.scores.empty()) back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "symptoms-" + asked.id, content, actions, page_kind::timed);
  if (back) u.scores.pop_back();
  if (press) {
    symptom_score given{asked.id, std::nullopt};
    if (!press->skip) given.score = press->value;
    u.scores.push_back(std::move(given));
  }
  return out;
}

} // namespace

maybe_wish draw_symptoms(kit& k, const view& v, ui_state& u) {
  const auto& asked = v.s.test->symptoms;
  if (u.scores.size() < asked.size()) return one_symptom(k, v, u, asked[u.scores.size()]);
  bool done = false;
  bool back = false;
  std::string& words = u.text["symptoms.comment"];
  const auto content = [&] {
    headline(k, "title", v.t("symptoms.check"));
    std::vector<fact> rows;
    for (std::size_t i = 0; i < asked.size(); ++i)
      rows.push_back({asked[i].text, u.scores[i].score ? std::to_string(*u.scores[i].score)
                                                       : v.t("symptoms.skipped")});
    facts(k, "scores", rows);
    field_view field;
    field.label = v.t("symptoms.comment");
    text_field(k, "comment", field, words);
  };
  const auto actions = [&] {
    done = primary_button(k, "symptoms-done", v.t("symptoms.done"));
    back = quiet_button(k, "back", v.t("symptoms.change"));
  };
  auto out = framed_page(k, v, "symptoms-check", content, actions, page_kind::timed);
  if (back) u.scores.clear();
  if (done) {
    symptoms_told told{*v.now.sample, u.scores, words};
    words.clear();
    return wish{payload{std::move(told)}};
  }
  return out;
}

} // namespace qb
