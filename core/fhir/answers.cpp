// What was asked and told, as one QuestionnaireResponse. The linkIds are the rules' ids, with an
// ending where one rule is told of in several ways, so that none stands twice.
#include "core/fhir/resources.hpp"

#include "core/session/readiness.hpp"

#include <fmt/core.h>
#include <map>

namespace qb::fhir {

namespace {

// An item with its answers; without any where nobody answered.
value item(const std::string& link, const std::string& text, array answers) {
  return object{{"linkId", link}, {"text", clean(text)}, {"answer", std::move(answers)}};
}

value group(const std::string& link, const std::string& text, array items) {
  if (items.empty()) return {};
  return object{{"linkId", link}, {"text", text}, {"item", std::move(items)}};
}

// One answer in words; nothing where there are none.
value in_words(const std::string& words, array more = {}) {
  if (clean(words).empty()) return {};
  return object{{"valueString", clean(words)}, {"item", std::move(more)}};
}

value at_moment(const making& m, instant t) {
  return object{{"valueDateTime", moment(m, t)}};
}

// A further item with one answer; nothing where there is no answer.
value further(const std::string& link, const std::string& text, value answer) {
  return answer.is_null() ? value() : item(link, text, array{std::move(answer)});
}

value caution_item(const std::string& rule, const std::string& question,
                   const noted_caution* told) {
  if (told == nullptr) return item(rule, question, {});
  const reported_caution& t = told->what;
  const bool asked = t.outcome != asked_outcome::not_asked;
  return item(rule, question,
              {in_words(key_of(t.answer),
                        {further(rule + ".outcome", "What was said by whoever was asked",
                                 asked ? in_words(key_of(t.outcome)) : value()),
                         further(rule + ".who", "Who was asked", in_words(t.who)),
                         further(rule + ".words", "In the person's words", in_words(t.words))})});
}

array cautions(const making& m, const std::vector<caution>& asked) {
  array out;
  for (const caution& c : asked)
    out.push_back(caution_item(c.why.rule, c.question, find_noted_caution(m.s, c.why.rule)));
  return out;
}

// Answers to questions that the test of this plan does not ask: another was planned before.
array other_cautions(const making& m) {
  array out;
  for (const noted_caution& t : m.s.cautions)
    if (!m.s.test || find_caution(*m.s.test, t.what.rule) == nullptr)
      out.push_back(caution_item(t.what.rule, t.what.rule, &t));
  return out;
}

value washout_item(const std::string& rule, const std::string& question,
                   const noted_washout* told) {
  if (told == nullptr) return item(rule, question, {});
  const answered_washout& t = told->what.what;
  array more;
  if (t.on)
    more.push_back(item(rule + ".on", "On which day", {object{{"valueDate", date_text(*t.on)}}}));
  more.push_back(item(rule + ".agreed", "Somebody agreed to go on in spite of it",
                      {object{{"valueBoolean", t.agreed}}}));
  more.push_back(further(rule + ".who", "Who agreed", in_words(told->what.who)));
  if (!told->what.who.empty())
    more.push_back(
        further(rule + ".said-by", "What they are", in_words(words_of(told->what.said_by))));
  return item(rule, question, {in_words(washout_key(t.answer), std::move(more))});
}

array washouts(const making& m) {
  array out;
  if (m.s.test)
    for (const washout& w : m.s.test->washouts)
      out.push_back(washout_item(w.why.rule, w.question, find_noted_washout(m.s, w.why.rule)));
  for (const noted_washout& t : m.s.washouts)
    if (!m.s.test || find_washout(*m.s.test, t.what.what.rule) == nullptr)
      out.push_back(washout_item(t.what.what.rule, t.what.what.rule, &t));
  return out;
}

std::string name_of(const making& m, const std::string& rule) {
  return m.s.test ? name_of_rule(*m.s.test, rule) : rule;
}

array beginnings(const making& m) {
  array out;
  for (const report_beginning& b : m.told.beginnings)
    out.push_back(
        item(b.rule + ".begun", b.name + ": confirmed as it began", {at_moment(m, b.at)}));
  return out;
}

value slip_answer(const making& m, const reported_slip& t) {
  const std::string link = t.rule + ".slip";
  return in_words(t.subject.empty() ? "not kept" : t.subject,
                  {further(link + ".when", "When it was", at_moment(m, t.when)),
                   further(link + ".how", "How the time is known", in_words(key_of(t.how))),
                   further(link + ".words", "In the person's words", in_words(t.words))});
}

array slips(const making& m) {
  std::map<std::string, array> by_rule;
  for (const noted_slip& t : m.s.slips)
    by_rule[t.what.rule].push_back(slip_answer(m, t.what));
  array out;
  for (auto& [rule, answers] : by_rule)
    out.push_back(
        item(rule + ".slip", name_of(m, rule) + ": told as not kept", std::move(answers)));
  return out;
}

array each_in_words(const std::vector<std::string>& texts) {
  array out;
  for (const std::string& text : texts)
    out.push_back(in_words(text));
  return out;
}

array gate(const making& m) {
  array out;
  if (!m.s.ready) return out;
  out.push_back(item("gate.passed", "The start was confirmed", {at_moment(m, m.s.ready->at.wall)}));
  out.push_back(item("gate.checks", "What was confirmed", each_in_words(m.s.ready_checks)));
  if (!m.s.ready_not_kept.empty())
    out.push_back(item("gate.not-kept", "Rules shown as not kept, and started all the same",
                       each_in_words(m.s.ready_not_kept)));
  out.push_back(further("gate.agreed", "Who agreed to that", in_words(m.s.ready_agreed)));
  return out;
}

array warning_signs(const making& m) {
  array out;
  for (std::size_t i = 0; i < m.s.samples.size(); ++i) {
    const auto& asked = m.s.samples[i].red_flags;
    if (!asked) continue;
    array there = asked->present.empty() ? array{in_words("none")} : each_in_words(asked->present);
    out.push_back(item(fmt::format("warning-signs.{}", i + 1),
                       fmt::format("Warning signs, asked at tube {}", i + 1), std::move(there)));
  }
  return out;
}

array during(const making& m) {
  array out = warning_signs(m);
  array unwell;
  for (const std::int64_t seq : m.s.unwell_events)
    unwell.push_back(at_moment(m, event_of(m, seq).at.wall));
  if (!unwell.empty())
    out.push_back(item("unwell", "The person said that they felt unwell", std::move(unwell)));
  if (m.s.ended) {
    value when = at_moment(m, m.s.ended->at.wall);
    when.set("item", array{further("ended.reason", "Why", in_words(m.s.ended_reason))});
    out.push_back(item("ended", "The test was ended early", {std::move(when)}));
  }
  array comments;
  for (const auto& [seq, words] : m.s.comments)
    comments.push_back(in_words(words));
  if (!comments.empty()) out.push_back(item("comments", "Comments", std::move(comments)));
  return out;
}

} // namespace

resource answers_of(const making& m) {
  value out = begin(m, "QuestionnaireResponse", "answers");
  out.set("identifier", identifier("answers", test_of(m)));
  out.set("status", m.s.ready ? "completed" : "in-progress");
  out.set("subject", reference(m, "patient"));
  const clock_reading& last = m.s.ready ? m.s.ready->at : *m.s.last_reading;
  out.set("authored", moment(m, last.wall));
  out.set("author", reference(m, "patient"));
  array items;
  const auto add = [&](const char* link, const char* text, array those) {
    items.push_back(group(link, text, std::move(those)));
  };
  if (m.s.test) {
    add("cautions", "Asked before the plan", cautions(m, m.s.test->cautions));
    add("morning", "Asked in the morning of the test", cautions(m, m.s.test->morning));
  }
  add("other-cautions", "Asked for another test that was planned before", other_cautions(m));
  add("washouts", "Medicines and examinations before the test", washouts(m));
  add("beginnings", "Beginnings that were confirmed", beginnings(m));
  add("slips", "What was told as not kept", slips(m));
  add("gate", "The start", gate(m));
  add("during", "During the test", during(m));
  out.set("item", std::move(items));
  return {"answers", std::move(out)};
}

} // namespace qb::fhir
