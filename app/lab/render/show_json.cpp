// Field by field.
#include "app/lab/render/show_json.hpp"

#include "app/lab/render/finding_json.hpp"

namespace qb::lab {

namespace {

using json::array;
using json::list_of;
using json::object;
using json::text_or_null;
using json::value;

value moment(const std::optional<instant>& t, const zone& z) {
  if (!t) return nullptr;
  const auto local = rfc3339(*t, z);
  return local ? *local : rfc3339_utc(*t); // an offset of odd seconds, which RFC 3339 cannot write
}

object scores_json(const report& r, const std::vector<std::optional<int>>& scores) {
  object out;
  for (std::size_t i = 0; i < r.symptoms.size(); ++i)
    out.emplace_back(r.symptoms[i].id,
                     scores[i] ? value(std::int64_t{*scores[i]}) : value(nullptr));
  return out;
}

value after_json(const report& r, const report_after& t) {
  return object{{"when", key_of(t.what)},
                {"given", moment(t.given, r.place)},
                {"scores", scores_json(r, t.scores)},
                {"comment", text_or_null(t.comment)}};
}

value tube_json(const report& r, const report_tube& t) {
  const auto late_s = [](duration d) {
    return value(std::int64_t{std::chrono::duration_cast<std::chrono::seconds>(d).count()});
  };
  return object{{"number", std::int64_t{t.number.value()}},
                {"due", moment(t.due, r.place)},
                {"closed", moment(t.closed, r.place)},
                {"how", t.how ? value(key_of(*t.how)) : value(nullptr)},
                {"late_s", t.late ? late_s(*t.late) : value(nullptr)},
                {"standing", standing_text(t.standing)},
                {"scores", scores_json(r, t.scores)},
                {"comment", text_or_null(t.comment)}};
}

value kit_json(const std::optional<report_kit>& kit) {
  if (!kit) return nullptr;
  return object{{"code", kit->code},
                {"kit_number", kit->kit_number},
                {"expires", date_text(kit->expires)},
                {"events", array{kit->event}}};
}

value beginning_json(const report& r, const report_beginning& b) {
  return object{{"rule", b.rule}, {"at", moment(b.at, r.place)}, {"events", array{b.event}}};
}

value washout_json(const report_washout& w) {
  return object{{"rule", w.rule},
                {"answer", w.answer ? value(washout_key(*w.answer)) : value(nullptr)},
                {"last", w.last ? value(date_text(*w.last)) : value(nullptr)},
                {"kept_days", w.kept_days ? value(*w.kept_days) : value(nullptr)},
                {"asked_days", w.asked_days},
                {"agreed_by", text_or_null(w.agreed_by)},
                {"agreed_as", text_or_null(w.agreed_as)},
                {"events", list_of(w.events)}};
}

} // namespace

value list_json(const log_row& row) {
  return object{{"test_id", row.test_id},     {"kit_number", row.kit_number},
                {"protocol", row.protocol},   {"started", text_or_null(row.started)},
                {"rehearsal", row.rehearsal}, {"matches_own_record", row.matches},
                {"tubes_filled", row.filled}, {"tubes", row.tubes},
                {"events", row.events},       {"head", row.head}};
}

value show_json(const report& r, const signature_evidence& evidence,
                const std::optional<code_beside>& beside) {
  array tubes;
  for (const report_tube& t : r.tubes)
    tubes.push_back(tube_json(r, t));
  array after;
  for (const report_after& t : r.after)
    after.push_back(after_json(r, t));
  array beginnings;
  for (const report_beginning& b : r.beginnings)
    beginnings.push_back(beginning_json(r, b));
  array washouts;
  for (const report_washout& w : r.washouts)
    washouts.push_back(washout_json(w));
  return object{{"test_id", r.test_id},
                {"kit_number", text_or_null(r.kit_number)},
                {"rehearsal", r.rehearsal},
                {"matches_own_record", r.matches_itself},
                {"events", static_cast<std::int64_t>(r.events)},
                {"head", r.head},
                {"signature", evidence_json(evidence)},
                {"code", beside_json(beside)},
                {"program", r.program},
                {"tzdata", text_or_null(r.tzdata)},
                {"name", text_or_null(r.name)},
                {"birth_date", r.birth_date ? value(date_text(*r.birth_date)) : value(nullptr)},
                {"doctor", text_or_null(r.doctor)},
                {"laboratory", text_or_null(r.laboratory)},
                {"protocol", text_or_null(r.protocol_id)},
                {"protocol_title", text_or_null(r.protocol_title)},
                {"zone", r.place.name()},
                {"planned_start", moment(r.planned_start, r.place)},
                {"tube_1_closed", moment(r.anchor, r.place)},
                {"drink_start", moment(r.drink_start, r.place)},
                {"drink_end", moment(r.drink_end, r.place)},
                {"drank_all", r.drank_all},
                {"tubes", std::move(tubes)},
                {"after", std::move(after)},
                {"empty_tubes", list_of(r.empty_tubes)},
                {"kit_code", kit_json(r.kit)},
                {"begun", std::move(beginnings)},
                {"washouts", std::move(washouts)},
                {"findings", findings_json(r.findings)}};
}

} // namespace qb::lab
