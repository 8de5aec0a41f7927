// Field by field; the judgement is put by whoever judges a bare curve.
#include "app/lab/render/report_json.hpp"

#include "app/lab/render/finding_json.hpp"
#include "app/lab/render/judge_json.hpp"
#include "core/base/json_writer.hpp"
#include "core/receiving/specimens.hpp"

namespace qb::lab {

namespace {

using json::array;
using json::list_of;
using json::object;
using json::text_or_null;
using json::value;

value number_or_null(const std::optional<exact>& n) {
  return n ? value(json::decimal{n->text()}) : value();
}

value number_or_null(const std::optional<int>& n) {
  return n ? value(*n) : value();
}

value seconds_or_null(const std::optional<duration>& d) {
  if (!d) return nullptr;
  return std::int64_t{std::chrono::duration_cast<std::chrono::seconds>(*d).count()};
}

value moment(const test_case& c, const std::optional<instant>& t) {
  if (!t) return nullptr;
  if (c.paper) return civil_text(c.place.civil_at(*t));
  const auto local = rfc3339(*t, c.place);
  return local ? *local : rfc3339_utc(*t);
}

// Of a figure that the reading is only below or above.
value range_key(reading_range is) {
  if (is == reading_range::within) return nullptr;
  return is == reading_range::below ? "less-than" : "more-than";
}

value gases_json(const std::optional<case_gases>& g) {
  if (!g) return nullptr;
  return object{{"h2_ppm", number_or_null(g->raw.h2_ppm)},
                {"ch4_ppm", number_or_null(g->raw.ch4_ppm)},
                {"co2_pct", number_or_null(g->raw.co2_pct)},
                {"h2_is", range_key(g->raw.h2_is)},
                {"ch4_is", range_key(g->raw.ch4_is)},
                {"co2_is", range_key(g->raw.co2_is)},
                {"marked_invalid", g->raw.invalid},
                {"measured_at", text_or_null(g->raw.measured_at)},
                {"run", text_or_null(g->raw.of.run)},
                {"analyser", text_or_null(g->raw.of.analyser)},
                {"calibration", text_or_null(g->raw.of.calibration)},
                {"control", text_or_null(g->raw.of.control)},
                {"taken_in_by", text_or_null(g->raw.by)},
                {"taken_in", g->raw.taken_in ? value(rfc3339_utc(*g->raw.taken_in)) : value()},
                {"corrected", g->corrected},
                {"h2_judged_ppm", number_or_null(g->h2)},
                {"ch4_judged_ppm", number_or_null(g->ch4)}};
}

object scores_json(const test_case& c, const std::vector<std::optional<int>>& scores) {
  object out;
  for (std::size_t i = 0; i < c.test.symptoms.size(); ++i)
    out.emplace_back(c.test.symptoms[i].id,
                     i < scores.size() ? number_or_null(scores[i]) : value());
  return out;
}

value after_json(const test_case& c, const case_after& t) {
  return object{{"when", key_of(t.what)},
                {"given", moment(c, t.given)},
                {"minute", json::decimal{t.minute.text()}},
                {"scores", scores_json(c, t.scores)},
                {"comment", text_or_null(t.comment)}};
}

value tube_json(const test_case& c, const case_tube& t) {
  array others;
  for (const case_gases& g : t.other_gases)
    others.push_back(gases_json(g));
  return object{{"number", t.number},
                {"due", moment(c, t.due)},
                {"closed", moment(c, t.closed)},
                {"how", text_or_null(t.how)},
                {"standing", standing_text(t.standing)},
                {"late_s", seconds_or_null(t.late)},
                {"minute", number_or_null(t.minute)},
                {"gases", gases_json(t.gases)},
                {"scores", scores_json(c, t.scores)},
                {"comment", text_or_null(t.comment)},
                {"in_curve", t.in_curve},
                {"left_out", text_or_null(t.left_out)},
                {"undecided_by", text_or_null(t.undecided_by)},
                {"other_readings", std::move(others)}};
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

value symptoms_json(const test_case& c) {
  array rises;
  for (const symptom_rise& r : c.rises)
    rises.push_back(object{{"symptom", r.id},
                           {"points", r.points},
                           {"first_minute", json::decimal{r.first_minute.text()}},
                           {"worst_minute", json::decimal{r.worst_minute.text()}}});
  return object{{"answer", symptom_text(c.axes.symptoms)}, {"rises", std::move(rises)}};
}

const char* record_key(const test_case& c) {
  if (c.log) return "log";
  return c.code ? "code" : "paper";
}

value test_id_json(const test_case& c) {
  if (c.log) return c.log->test_id;
  return c.code ? value(c.code->test_id) : value();
}

value person_json(const test_case& c) {
  if (!c.log) return nullptr;
  return object{{"name", text_or_null(c.log->name)},
                {"birth_date", c.log->birth_date ? value(date_text(*c.log->birth_date)) : value()},
                {"doctor", text_or_null(c.log->doctor)}};
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

value conclusion_json(const kept_case& kept) {
  const test_case& c = kept.what;
  if (!c.concluded) return nullptr;
  const value none;
  return object{{"words", c.concluded->words},
                {"by", c.concluded->by},
                {"at", rfc3339_utc(c.concluded->at)},
                {"kind", conclusion_kind_text(c.concluded->kind)},
                {"number", c.concluded->number},
                {"replaces", c.replaced ? value(c.replaced->number) : none},
                {"reason", json::text_or_null(c.concluded->reason)},
                {"lack", json::text_or_null(c.concluded->lack)},
                {"signature", signed_json(kept.reader_seal)},
                {"since", list_of(c.since)}};
}

// Lot and last day of the kit, and how its tubes lay, as told.
value supply_json(const kept_case& kept) {
  const kit_supply supply = supply_of(kept.received, kept.known.supply);
  const auto& boxes = kept.received.arrivals;
  return object{{"lot", text_or_null(supply.lot)},
                {"expires", supply.expires ? value(date_text(*supply.expires)) : value()},
                {"stored", boxes.empty() ? value() : text_or_null(boxes.back().stored)}};
}

// Which test it is, and what was checked of log and code.
object head_json(const kept_case& kept, const lab_profile& profile) {
  const test_case& c = kept.what;
  return {{"format", "quarterbreath-report"},
          {"version", 1},
          {"kit", c.kit},
          {"rehearsal", kept.rehearsal},
          {"mark", text_or_null(kept.mark)},
          {"draft", is_draft(c)},
          {"laboratory", profile.id},
          {"person", person_json(c)},
          {"test", c.test.id},
          {"test_title", c.test.title},
          {"times_from", record_key(c)},
          {"test_id", test_id_json(c)},
          {"matches_own_record", c.log ? value(c.log->matches_itself) : value()},
          {"signature", kept.log ? evidence_json(kept.signature) : value()},
          {"code_seal", c.code ? seal_json(kept.seal) : value()},
          {"code_beside", beside_json(kept.beside)},
          {"supply", supply_json(kept)}};
}

// What happened, and what was found.
object course_json(const test_case& c, const lab_profile& profile) {
  array tubes;
  for (const case_tube& t : c.tubes)
    tubes.push_back(tube_json(c, t));
  array after;
  for (const case_after& t : c.after)
    after.push_back(after_json(c, t));
  return {{"time_zero", object{{"asked", zero_key(c.asked)},
                               {"used", zero_key(c.zero)},
                               {"at", moment(c, c.zero_at)}}},
          {"precision_min", json::decimal{c.precision.text()}},
          {"drink_start", moment(c, c.drink_start)},
          {"drink_end", moment(c, c.drink_end)},
          {"co2_reference_tenths_pct", number_or_null(profile.receiving.co2_reference_tenths)},
          {"tubes", std::move(tubes)},
          {"after", std::move(after)},
          {"findings", findings_json(c.findings)},
          {"cannot_be_used", list_of(c.cannot_be_used)}};
}

// What is drawn from it, beside the judgement.
object answers_json(const kept_case& kept) {
  const test_case& c = kept.what;
  return {{"symptoms", symptoms_json(c)},
          {"gas", answer_text(c.axes.gas)},
          {"axes", c.axes.words},
          {"conclusion", conclusion_json(kept)},
          {"as_of", rfc3339_utc(c.as_of)}};
}

void put_judgement(const test_case& c, json::writer& out) {
  if (!is_judged(c)) return out.null();
  out.open_object();
  judge_json(c.judged, c.test.id, true, out);
  out.close_object();
}

} // namespace

std::string report_json(const kept_case& kept, const lab_profile& profile) {
  std::string text;
  json::writer out(text, json::style::one_line);
  out.open_object();
  out.members(head_json(kept, profile));
  out.members(course_json(kept.what, profile));
  put_judgement(kept.what, out.key("judgement"));
  out.members(answers_json(kept));
  out.close_object();
  return text + "\n";
}

} // namespace qb::lab
