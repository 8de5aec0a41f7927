// Written as text, since exact decimals are not among the whole numbers our JSON values hold.
#include "app/lab/render/case_json.hpp"

#include "app/lab/render/judge_json.hpp"
#include "core/base/json.hpp"

#include <fmt/format.h>

namespace qb::lab {

namespace {

std::string quoted(const std::string& text) {
  return json::canonical(json::value(text));
}

std::string text_or_null(const std::string& text) {
  return text.empty() ? "null" : quoted(text);
}

std::string number_or_null(const std::optional<exact>& n) {
  return n ? n->text() : "null";
}

std::string number_or_null(const std::optional<int>& n) {
  return n ? fmt::format("{}", *n) : "null";
}

std::string seconds_or_null(const std::optional<duration>& d) {
  if (!d) return "null";
  return fmt::format("{}", std::chrono::duration_cast<std::chrono::seconds>(*d).count());
}

std::string moment(const test_case& c, const std::optional<instant>& t) {
  if (!t) return "null";
  if (c.paper) return quoted(civil_text(c.place.civil_at(*t)));
  const auto local = rfc3339(*t, c.place);
  return quoted(local ? *local : rfc3339_utc(*t));
}

// {…} of names and values that are JSON already, joined.
template <typename List, typename Write>
std::string listed(const List& all, Write write) {
  std::string out = "[";
  for (const auto& one : all)
    out += (out.size() == 1 ? "" : ",") + write(one);
  return out + "]";
}

std::string gases_json(const std::optional<case_gases>& g) {
  if (!g) return "null";
  return fmt::format(R"({{"h2_ppm":{},"ch4_ppm":{},"co2_pct":{},"measured_at":{},)"
                     R"("corrected":{},"h2_judged_ppm":{},"ch4_judged_ppm":{}}})",
                     number_or_null(g->raw.h2_ppm), number_or_null(g->raw.ch4_ppm),
                     number_or_null(g->raw.co2_pct), text_or_null(g->raw.measured_at), g->corrected,
                     number_or_null(g->h2), number_or_null(g->ch4));
}

std::string tube_json(const test_case& c, const case_tube& t) {
  std::string scores = "{";
  for (std::size_t i = 0; i < c.test.symptoms.size(); ++i)
    scores += fmt::format("{}{}:{}", i == 0 ? "" : ",", quoted(c.test.symptoms[i].id),
                          i < t.scores.size() ? number_or_null(t.scores[i]) : "null");
  return fmt::format(R"({{"number":{},"due":{},"closed":{},"how":{},"standing":"{}","late_s":{},)"
                     R"("minute":{},"gases":{},"scores":{}}},"comment":{},"in_curve":{},)"
                     R"("left_out":{},"other_readings":{}}})",
                     t.number, moment(c, t.due), moment(c, t.closed), text_or_null(t.how),
                     standing_text(t.standing), seconds_or_null(t.late), number_or_null(t.minute),
                     gases_json(t.gases), scores, text_or_null(t.comment), t.in_curve,
                     text_or_null(t.left_out),
                     listed(t.other_gases, [](const case_gases& g) { return gases_json(g); }));
}

std::string aside_json(const std::optional<override_of>& o) {
  if (!o) return "null";
  return fmt::format(R"({{"by":{},"reason":{},"at":"{}"}})", quoted(o->by), quoted(o->reason),
                     rfc3339_utc(o->at));
}

std::string finding_json(const case_finding& f) {
  const auto numbers = [](const std::vector<std::int64_t>& all) {
    return listed(all, [](std::int64_t n) { return fmt::format("{}", n); });
  };
  const std::string tube = f.what.sample ? fmt::format("{}", f.what.sample->value()) : "null";
  return fmt::format(R"({{"rule":{},"name":{},"source":{},"consequence":"{}","tube":{},)"
                     R"("words":{},"events":{},"figures":{},"set_aside":{}}})",
                     quoted(f.what.rule), quoted(f.name), text_or_null(f.source),
                     consequence_text(f.weight), tube, quoted(f.what.words), numbers(f.what.events),
                     numbers(f.what.figures), aside_json(f.aside));
}

std::string rise_json(const symptom_rise& r) {
  return fmt::format(R"({{"symptom":{},"points":{},"first_minute":{},"worst_minute":{}}})",
                     quoted(r.id), r.points, r.first_minute.text(), r.worst_minute.text());
}

const char* symptom_text(symptom_answer a) {
  switch (a) {
  case symptom_answer::rose: return "rose";
  case symptom_answer::did_not_rise: return "did-not-rise";
  case symptom_answer::not_known: return "not-known";
  }
  QB_BELIEVE(false);
  return "";
}

const char* record_key(const test_case& c) {
  if (c.log) return "log";
  return c.code ? "code" : "paper";
}

std::string test_id_json(const test_case& c) {
  if (c.log) return quoted(c.log->test_id);
  return c.code ? quoted(c.code->test_id) : std::string("null");
}

// What was checked of log and code, and what that shows.
std::string evidence_of_case(const kept_case& kept) {
  const std::string code = kept.what.code ? json::canonical(seal_json(kept.seal)) : "null";
  return fmt::format(R"("signature":{},"code_seal":{},"code_beside":{},)",
                     kept.log ? json::canonical(evidence_json(kept.signature)) : "null", code,
                     json::canonical(beside_json(kept.beside)));
}

std::string person_json(const test_case& c) {
  if (!c.log) return "null";
  const std::string born =
      c.log->birth_date ? quoted(date_text(*c.log->birth_date)) : std::string("null");
  return fmt::format(R"({{"name":{},"birth_date":{},"doctor":{}}})", text_or_null(c.log->name),
                     born, text_or_null(c.log->doctor));
}

const char* zero_key(time_zero z) {
  switch (z) {
  case time_zero::tube_1_closed: return "tube-1-closed";
  case time_zero::drink_start: return "drink-start";
  case time_zero::drink_end: return "drink-end";
  }
  QB_BELIEVE(false);
  return "";
}

std::string conclusion_json(const test_case& c) {
  if (!c.concluded) return "null";
  return fmt::format(R"({{"words":{},"by":{},"at":"{}","since":{}}})", quoted(c.concluded->words),
                     quoted(c.concluded->by), rfc3339_utc(c.concluded->at),
                     listed(c.since, quoted));
}

} // namespace

std::string case_json(const kept_case& kept, const lab_profile& profile) {
  const test_case& c = kept.what;
  std::string out =
      fmt::format(R"({{"format":"quarterbreath-report","version":1,"kit":{},"rehearsal":{},)"
                  R"("draft":{},"laboratory":{},"person":{},"test":{},"test_title":{},)"
                  R"("times_from":"{}","test_id":{},"matches_own_record":{},)",
                  quoted(c.kit), kept.rehearsal, is_draft(c), quoted(profile.id), person_json(c),
                  quoted(c.test.id), quoted(c.test.title), record_key(c), test_id_json(c),
                  c.log ? fmt::format("{}", c.log->matches_itself) : std::string("null"));
  out += evidence_of_case(kept);
  out += fmt::format(R"("time_zero":{{"asked":"{}","used":"{}","at":{}}},"precision_min":{},)"
                     R"("drink_start":{},"drink_end":{},"co2_reference_tenths_pct":{},)",
                     zero_key(c.asked), zero_key(c.zero), moment(c, c.zero_at), c.precision.text(),
                     moment(c, c.drink_start), moment(c, c.drink_end),
                     number_or_null(profile.receiving.co2_reference_tenths));
  out += R"("tubes":)" + listed(c.tubes, [&](const case_tube& t) { return tube_json(c, t); });
  out += R"(,"findings":)" + listed(c.findings, finding_json);
  out += R"(,"cannot_be_used":)" + listed(c.cannot_be_used, quoted);
  out += R"(,"judgement":)";
  if (is_judged(c)) {
    out += "{";
    append_judgement(c.judged, c.test.id, true, out);
    out += "}";
  } else {
    out += "null";
  }
  out += fmt::format(R"(,"symptoms":{{"answer":"{}","rises":{}}},"gas":"{}","axes":{},)"
                     R"("conclusion":{},"as_of":"{}"}})",
                     symptom_text(c.axes.symptoms), listed(c.rises, rise_json),
                     answer_text(c.axes.gas), quoted(c.axes.words), conclusion_json(c),
                     rfc3339_utc(c.as_of));
  return out + "\n";
}

} // namespace qb::lab
