// From a log's events to the report.
#include "core/report/report.hpp"

#include "core/findings/breaths.hpp"
#include "core/protocol/grid.hpp"
#include "core/report/same_test.hpp"
#include "core/session/readiness.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline reports {

report::report() = default;
report::report(const report&) = default;
report::report(report&&) noexcept = default;
report& report::operator=(const report&) = default;
report& report::operator=(report&&) noexcept = default;
report::~report() = default;

namespace {

std::string words_of(const mismatch& m) {
  const std::string words = "does not match its own record";
  switch (m.what) {
  case mismatch::kind::event_hash: return fmt::format("{}: from event {} on", words, m.seq);
  case mismatch::kind::head: return words + ": events may be missing at its end";
  case mismatch::kind::summary: return words + ": its summary says otherwise than its events";
  case mismatch::kind::header:
    return words + ": its head (zone, rules, person, answers) says otherwise than its events";
  case mismatch::kind::rehearsal:
    return words + ": its head and its first event differ on whether this is practice";
  }
  QB_BELIEVE(false);
  return {};
}

void note_mismatches(const read_log_result& log, std::vector<finding>& out) {
  for (const mismatch& m : log.mismatches) {
    finding f{"record-mismatch", consequence::review, {}, {}, {}, words_of(m)};
    if (m.what == mismatch::kind::event_hash) f.events.push_back(m.seq);
    out.push_back(std::move(f));
  }
}

std::string id_in(std::string_view text) {
  const auto v = json::parse(text);
  const json::value* id = v ? v->find("id") : nullptr;
  return id != nullptr && id->text() != nullptr ? *id->text() : std::string();
}

// A log carries the rules it was made under. That they are not the laboratory's present ones is
// worth knowing, and no more: rules change with time.
void note_other_rules(std::string_view frozen, const std::vector<std::string>& own,
                      const char* rule, const char* kind, std::vector<finding>& out) {
  if (own.empty() || std::find(own.begin(), own.end(), frozen) != own.end()) return;
  const std::string id = id_in(frozen);
  const bool known = std::any_of(own.begin(), own.end(),
                                 [&](const std::string& text) { return id_in(text) == id; });
  std::string words = known ? fmt::format("the {} in this record is not this laboratory's own "
                                          "'{}' as it stands now",
                                          kind, id)
                            : fmt::format("the {} in this record, '{}', is not one of this "
                                          "laboratory's own",
                                          kind, id);
  out.push_back({rule, consequence::review, {}, {}, {}, std::move(words)});
}

zone zone_of(const state& s, const zone_loader& zones, std::vector<finding>& out) {
  const clock_reading& shown = s.grid ? s.grid->anchor : *s.last_reading;
  const std::string name = s.planned ? s.planned->what.zone_name : shown.zone;
  if (auto z = zones(name)) return *z;
  out.push_back({"zone-unknown",
                 consequence::note,
                 {},
                 {},
                 {},
                 fmt::format("the zone {} is not known here; times are shown at the device's own "
                             "distance from UTC",
                             is_zone_name(name) ? name : "it names")});
  return zone::fixed("UTC", shown.offset);
}

tube_standing standing_of(const state& s, sample_number n, const clock_reading& now) {
  if (is_missed(s, n, now)) return tube_standing::missed;
  if (!s.of(n).taken || !s.grid) return tube_standing::not_yet;
  switch (timing_of(s, n)) {
  case timing::early: return tube_standing::early;
  case timing::on_time: return tube_standing::on_time;
  case timing::late: return tube_standing::late;
  }
  QB_BELIEVE(false);
  return tube_standing::not_yet;
}

report_tube tube_of(const state& s, sample_number n, const clock_reading& now) {
  const std::vector<symptom_score> no_scores;
  const sample_state& t = s.of(n);
  report_tube out;
  out.number = n;
  out.due = (s.grid ? s.grid->anchor.wall : s.planned->what.start) + s.test->offset_of(n);
  out.standing = standing_of(s, n, now);
  if (t.taken) {
    out.closed = t.taken->closed;
    out.how = t.taken->how;
    if (s.grid) out.late = lateness(s, n);
  }
  out.scores = scores_by_symptom(*s.test, t.symptoms ? t.symptoms->scores : no_scores);
  if (t.symptoms) out.comment = t.symptoms->comment;
  return out;
}

std::vector<report_after> after_of(const state& s) {
  std::vector<report_after> out;
  for (const score_time t : both_score_times) {
    const auto elapsed = given_since_anchor(s, t);
    if (!elapsed) continue;
    const scores_after& told = s.of(t);
    out.push_back({t, told.at->wall, *elapsed, scores_by_symptom(*s.test, told.told->scores),
                   told.told->comment});
  }
  return out;
}

void fill_person(const state& s, report& out) {
  if (!s.person) return;
  out.name = s.person->name;
  out.birth_date = s.person->birth_date;
  out.doctor = s.person->doctor;
  out.laboratory = s.person->laboratory;
  out.kit_number = s.person->kit_number;
}

void fill_kit(const state& s, report& out) {
  if (s.kit) out.kit = report_kit{s.kit->code, s.kit->kit_number, s.kit->expires, s.kit_seq};
}

void fill_test(const state& s, const clock_reading& now, report& out) {
  if (!s.test || !s.planned) return;
  out.protocol_id = s.test->id;
  out.protocol_title = s.test->title;
  out.planned_start = s.planned->what.start;
  out.symptoms = s.test->symptoms;
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    out.tubes.push_back(tube_of(s, sample_number::from_index(i), now));
  out.after = after_of(s);
}

std::optional<civil_date> later_of(std::optional<civil_date> a, civil_date b) {
  return a && std::chrono::local_days{*a} > std::chrono::local_days{b} ? *a : b;
}

report_washout washout_of(const state& s, const washout& w, const rule_check& c, const zone& z) {
  report_washout out;
  out.rule = w.why.rule;
  out.name = w.name;
  out.asked_days = w.days.count();
  out.events = c.events;
  if (c.kept) out.kept_days = std::chrono::floor<std::chrono::days>(*c.kept).count();
  if (const noted_washout* told = find_noted_washout(s, w.why.rule)) {
    out.answer = told->what.what.answer;
    out.last = told->what.what.on;
    out.agreed_by = told->what.who;
    if (!out.agreed_by.empty()) out.agreed_as = words_of(told->what.said_by);
  }
  for (const noted_slip& slip : s.slips) {
    if (slip.what.rule == out.rule)
      out.last = later_of(out.last, date_of(z.civil_at(slip.what.when)));
  }
  return out;
}

// The beginnings that were confirmed and the washouts, against the start that counts: the closing
// of tube 1, or the planned start while there is none. Nothing where no test was chosen.
void fill_preparation(const state& s, const clock_reading& now, report& out) {
  if (!s.test || !s.planned) return;
  for (const planned_window& w : s.planned->what.windows) {
    if (const noted_list* told = confirmation_of(s, w.rule))
      out.beginnings.push_back({w.rule, name_of_rule(*s.test, w.rule), told->at.wall, told->seq});
  }
  const instant start = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  const std::vector<rule_check> checks = readiness(s, now, start, out.place);
  for (const washout& w : s.test->washouts) {
    const auto at = std::find_if(checks.begin(), checks.end(),
                                 [&](const rule_check& c) { return c.rule == w.why.rule; });
    if (at != checks.end()) out.washouts.push_back(washout_of(s, w, *at, out.place));
  }
}

} // namespace

std::string mismatch_words(const read_log_result& log) {
  return log.mismatches.empty() ? std::string() : words_of(log.mismatches.front());
}

const char* standing_text(tube_standing s) {
  switch (s) {
  case tube_standing::not_yet: return "not-yet";
  case tube_standing::missed: return "missed";
  case tube_standing::early: return "early";
  case tube_standing::on_time: return "on-time";
  case tube_standing::late: return "late";
  }
  QB_BELIEVE(false);
  return "";
}

report report_of(const read_log_result& log, const zone_loader& zones, const own_files& own) {
  const state s = fold_events(log.events);
  QB_BELIEVE(s.opening && s.last_reading);
  std::vector<finding> noted;
  note_mismatches(log, noted);
  report out;
  out.rehearsal = is_rehearsal(log);
  out.matches_itself = log.mismatches.empty();
  out.test_id = test_id_of(log);
  out.program = log.program;
  out.tzdata = log.tzdata;
  out.head = log.head;
  out.events = log.events.size();
  out.place = zone_of(s, zones, noted);
  const clock_reading& now = *s.last_reading;
  fill_person(s, out);
  fill_kit(s, out);
  fill_test(s, now, out);
  out.empty_tubes = s.test ? spare_tubes(*s.test) : std::vector<int>{};
  fill_preparation(s, now, out);
  if (s.grid) out.anchor = s.grid->anchor.wall;
  if (s.drink_start) out.drink_start = s.drink_start->at.wall;
  if (s.drink_end) out.drink_end = s.drink_end->at.wall;
  out.drank_all = s.drank_all;
  note_other_rules(s.opening->profile_text, own.profiles, "profile-other", "profile", noted);
  if (s.planned)
    note_other_rules(s.planned->protocol_text, own.protocols, "protocol-other", "protocol", noted);
  for (finding& f : findings_of(s, now, out.place))
    noted.push_back(std::move(f));
  for (finding& f : short_breath_findings(log.events, s))
    noted.push_back(std::move(f));
  out.findings = std::move(noted);
  return out;
}

} // namespace qb::inline reports
