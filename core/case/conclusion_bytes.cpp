// Field by field, from the case alone.
#include "core/case/conclusion_bytes.hpp"

#include "core/base/json.hpp"

namespace qb::inline cases {

namespace {

using json::array;
using json::object;
using json::text_or_null;
using json::value;

value person_of(const test_case& c) {
  if (!c.log) return nullptr;
  return object{{"name", text_or_null(c.log->name)},
                {"birth_date", c.log->birth_date ? value(date_text(*c.log->birth_date)) : value()}};
}

value conclusion_of(const conclusion& entry) {
  return object{{"number", entry.number},
                {"kind", conclusion_kind_text(entry.kind)},
                {"words", entry.words},
                {"by", entry.by},
                {"at", rfc3339_utc(entry.at)},
                {"reason", text_or_null(entry.reason)},
                {"lack", text_or_null(entry.lack)}};
}

value exact_text(const std::optional<exact>& n) {
  return n ? value(n->text()) : value();
}

value tubes_of(const test_case& c) {
  array out;
  for (const case_tube& t : c.tubes)
    out.push_back(object{{"number", t.number},
                         {"minute", exact_text(t.minute)},
                         {"h2_ppm", exact_text(t.gases ? t.gases->h2 : std::nullopt)},
                         {"ch4_ppm", exact_text(t.gases ? t.gases->ch4 : std::nullopt)},
                         {"in_curve", t.in_curve}});
  return out;
}

value set_aside_in(const test_case& c) {
  array out;
  for (const case_finding& f : c.findings)
    if (f.aside)
      out.push_back(object{{"rule", f.what.rule},
                           {"tube", f.what.sample ? f.what.sample->value() : 0},
                           {"by", f.aside->by},
                           {"reason", f.aside->reason}});
  return out;
}

value judgement_of(const test_case& c) {
  if (!is_judged(c)) return nullptr;
  array out;
  for (const judged_criterion& j : c.judged.criteria)
    out.push_back(object{
        {"criterion", j.by->id}, {"answer", answer_text(j.says.what)}, {"reason", j.reason}});
  return out;
}

} // namespace

std::string conclusion_bytes(const test_case& c, const received_kit& received,
                             const std::string& laboratory, const conclusion& entry) {
  const auto basis = json::parse(basis_text(basis_in(c, received)));
  QB_BELIEVE(basis.has_value());
  const object whole{{"format", "quarterbreath-conclusion"},
                     {"version", 1},
                     {"kit", c.kit},
                     {"test_id", text_or_null(entry.mark.test)},
                     {"test", c.test.id},
                     {"laboratory", laboratory},
                     {"person", person_of(c)},
                     {"conclusion", conclusion_of(entry)},
                     {"record", *basis},
                     {"set_aside", set_aside_in(c)},
                     {"tubes", tubes_of(c)},
                     {"judgement", judgement_of(c)}};
  return json::canonical(whole) + "\n";
}

} // namespace qb::inline cases
