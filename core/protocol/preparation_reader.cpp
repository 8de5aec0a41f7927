// Strict reading of preparation and questions, with the ranges that catch a slip of the hand.
#include "core/protocol/preparation_reader.hpp"

#include "core/base/text.hpp"
#include "core/protocol/plausible.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline protocols {

namespace {

using json::fields;

constexpr std::int64_t most_minutes_before = 20160; // two weeks
// What the smallest window (360 by 640) shows of each without cutting it, in characters.
constexpr std::size_t name_size = 40;
constexpr std::size_t question_size = 90; // the longest line a page has room for
constexpr std::size_t text_size = 240;
constexpr std::size_t which_size = 120;
constexpr std::size_t subject_size = 60; // also of whom to ask
constexpr std::size_t ask_size = 160;
constexpr std::size_t recognise_size = 120; // number: longest of a list of several

void read_subjects(fields& f, preparation_window& out, rule_reader& rules) {
  rules.each(f, "subjects", 0, most_rules, [&](fields& s) {
    slip_subject one{rules.id_text(s, "id"), s.text("text", subject_size)};
    for (const slip_subject& other : out.subjects) {
      if (other.id == one.id) s.refuse("id", "\"" + one.id + "\" twice", "each subject once");
    }
    out.subjects.push_back(std::move(one));
  });
}

preparation_window read_window(fields& f, rule_reader& rules) {
  using std::chrono::minutes;
  preparation_window out;
  out.why = rules.ref(f);
  out.from = minutes{f.integer("from_min", 1, most_minutes_before)};
  out.until = minutes{f.integer("until_min", 0, most_minutes_before)};
  out.least = minutes{f.integer("least_min", 0, most_minutes_before)};
  out.least_source = rules.source_id(f, "least_source");
  out.name = f.text("name", name_size);
  out.text = f.text("text", text_size);
  out.eat = f.optional_texts("eat", 0, most_rules);
  out.drink = f.optional_texts("drink", 0, most_rules);
  read_subjects(f, out, rules);
  if (!f.failed() && out.until >= out.from)
    f.refuse("until_min", fmt::format("{}", out.until.count()), "fewer minutes than from_min",
             refusal_kind::out_of_range);
  if (!f.failed() && out.least > out.asked())
    f.refuse("least_min", fmt::format("{}", out.least.count()), "no more than the window is long",
             refusal_kind::out_of_range);
  return out;
}

// A list of those among the first of `names` that may say something; the names are in the order of
// `releaser`.
std::vector<releaser> read_releasers(fields& f, const char* key,
                                     const std::vector<std::string>& names, const char* expected) {
  std::vector<releaser> out;
  for (const std::string& text : f.texts(key, 0, names.size())) {
    const auto at = std::find(names.begin(), names.end(), text);
    const auto who = static_cast<releaser>(at - names.begin());
    if (at == names.end())
      f.refuse(key, json::shown(text), expected);
    else if (std::find(out.begin(), out.end(), who) != out.end())
      f.refuse(key, "\"" + text + "\" twice", "each of them once");
    else
      out.push_back(who);
  }
  return out;
}

// Who may agree; from version 2 on.
void read_who_agrees(fields& f, rule_reader& rules, washout& out) {
  static const std::vector<std::string> names{"doctor", "laboratory", "pharmacist", "person"};
  if (rules.version() == 1) return;
  out.may_agree =
      read_releasers(f, "may_agree", names, "a list of doctor, laboratory, pharmacist and person");
  out.agree_source = rules.source_id(f, "agree_source");
}

washout read_washout(fields& f, rule_reader& rules) {
  static const std::vector<std::string> kinds{"medicine", "course", "happening"};
  washout out;
  out.why = rules.ref(f);
  out.kind = static_cast<washout_kind>(f.choice("kind", kinds));
  out.days = std::chrono::days{f.integer("days", 1, most_rule_days)};
  out.least = std::chrono::days{f.integer("least_days", 0, most_rule_days)};
  out.least_source = rules.source_id(f, "least_source");
  out.name = f.text("name", name_size);
  out.question = f.text("question", question_size);
  out.which = f.text("which", which_size);
  out.text = f.text("text", text_size);
  read_who_agrees(f, rules, out);
  if (!f.failed() && out.least > out.days)
    f.refuse("least_days", fmt::format("{}", out.least.count()), "no more than days",
             refusal_kind::out_of_range);
  return out;
}

// What version 2 has beside version 1: where "not sure" leads, how a state is recognised and told
// from another, and on whose word the test may go on.
void read_caution_2(fields& f, const std::vector<std::string>& leads, caution& out) {
  constexpr std::size_t most_signs = 8;
  out.unsure_leads = static_cast<leads_to>(f.choice("unsure_leads_to", leads));
  out.recognise = f.texts("recognise", 0, most_signs);
  for (const std::string& one : out.recognise) {
    if (character_count(one) > recognise_size)
      f.refuse("recognise", fmt::format("{} characters of text", character_count(one)),
               fmt::format("1 to {} characters each", recognise_size), refusal_kind::out_of_range);
  }
  out.is_not = f.optional_text("is_not", text_size).value_or("");
  static const std::vector<std::string> names{"doctor", "laboratory"};
  out.may_release = read_releasers(f, "may_release", names, "a list of doctor and laboratory");
}

caution read_caution(fields& f, rule_reader& rules) {
  static const std::vector<std::string> leads{"ask-first", "not-this-test"};
  caution out;
  out.why = rules.ref(f);
  out.leads = static_cast<leads_to>(f.choice("leads_to", leads));
  out.name = f.text("name", name_size);
  out.question = f.text("question", question_size);
  out.text = f.text("text", text_size);
  out.whom = f.text("whom", subject_size);
  out.ask = f.text("ask", ask_size);
  if (rules.version() > 1) read_caution_2(f, leads, out);
  return out;
}

} // namespace

void read_preparation(const json::value& v, protocol& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("preparation"));
  rules.each(f, "windows", 1, most_rules,
             [&](fields& w) { out.windows.push_back(read_window(w, rules)); });
  rules.each(f, "washouts", 0, most_rules,
             [&](fields& w) { out.washouts.push_back(read_washout(w, rules)); });
  up.absorb(f.finish());
}

void read_questions(fields& f, protocol& out, rule_reader& rules) {
  rules.each(f, "cautions", 0, most_rules,
             [&](fields& c) { out.cautions.push_back(read_caution(c, rules)); });
  rules.each(f, "morning", 0, most_rules,
             [&](fields& c) { out.morning.push_back(read_caution(c, rules)); });
}

} // namespace qb::inline protocols
