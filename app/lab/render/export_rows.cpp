// Cells of the two tables.
#include "app/lab/render/export_rows.hpp"

#include "core/case/worklist.hpp"
#include "core/receiving/correction.hpp"
#include "core/receiving/paper.hpp"
#include "core/receiving/specimens.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

std::string utc_or_empty(const std::optional<instant>& t) {
  return t ? rfc3339_utc(*t) : "";
}

// What a row begins with.
struct names {
  std::string test_id;
  std::string protocol;
  const char* record;
};

names names_of(const received_kit& received, const known_kit& known) {
  const std::string protocol = known.told                  ? known.told->protocol
                               : received.arrivals.empty() ? std::string()
                                                           : received.arrivals.back().protocol;
  if (known.log) return {known.log->test_id, protocol, "log"};
  if (known.code) return {known.code->test_id, protocol, "code"};
  return {received.test, protocol, received.papers.empty() ? "none" : "paper"};
}

// What a tube's record says, whatever kind of record it is.
struct recorded {
  std::string due;
  std::string closed;
  std::string how;
  std::string late_s;
  std::string standing;
};

recorded recorded_in(const report& r, std::size_t i) {
  const report_tube& t = r.tubes[i];
  std::string late_s;
  if (t.late)
    late_s = std::to_string(std::chrono::duration_cast<std::chrono::seconds>(*t.late).count());
  return {rfc3339_utc(t.due), utc_or_empty(t.closed), t.how ? key_of(*t.how) : "", late_s,
          standing_text(t.standing)};
}

recorded recorded_in(const code::packed_result& r, std::size_t i) {
  const code::packed_sample& s = r.samples[i];
  if (!s.taken) return {"", "", "", "", standing_text(tube_standing::missed)};
  return {"", rfc3339_utc(r.zero + s.closed), key_of(*s.taken), "", ""};
}

recorded recorded_in(const paper_record& p, std::size_t i) {
  const auto at = paper_clock(p)[i];
  if (!at) return {"", "", "", "", standing_text(tube_standing::missed)};
  const auto day = plus_days(p.day, std::chrono::floor<std::chrono::days>(*at));
  return {"", date_text(day) + "T" + day_minute_text(*p.times[i]), "patient-written", "", ""};
}

recorded recorded_of(const received_kit& received, const known_kit& known, std::size_t i) {
  if (!known.told || i >= known.told->labels.size()) return {};
  if (known.log) return recorded_in(*known.log, i);
  if (known.code) return recorded_in(*known.code, i);
  return recorded_in(received.papers.back(), i);
}

std::vector<std::string> reading_cells(const lab_context& at, const received_kit& received,
                                       int tube) {
  constexpr std::size_t cells = 12;
  const auto all = counted_readings(received);
  const auto c = std::find_if(all.begin(), all.end(), [&](const counted_reading& one) {
    return one.reading.sample == tube;
  });
  if (c == all.end()) return std::vector<std::string>(cells);
  const gas_reading& r = c->reading;
  const judged_gases judged = judged_gases_of(r, at.profile());
  const auto reading = [](const std::optional<exact>& n, reading_range is) {
    return n ? reading_text(*n, is) : std::string();
  };
  const auto corrected = [&](const std::optional<exact>& n, reading_range is) {
    return judged.corrected ? reading(n, is) : std::string();
  };
  const int tenths = at.profile().receiving.co2_reference_tenths.value_or(0);
  return {reading(r.h2_ppm, r.h2_is),
          reading(r.ch4_ppm, r.ch4_is),
          reading(r.co2_pct, r.co2_is),
          corrected(judged.h2, r.h2_is),
          corrected(judged.ch4, r.ch4_is),
          judged.corrected ? fmt::format("{}.{}", tenths / 10, tenths % 10) : "",
          r.measured_at,
          c->chosen    ? "chosen"
          : c->several ? "open"
                       : "first",
          csv_words(r.of.run),
          csv_words(r.of.analyser),
          csv_words(r.of.calibration),
          r.of.control};
}

std::vector<std::string> tube_cells(const names& n, const lab_context& at,
                                    const received_kit& received, const known_kit& known, int tube,
                                    const received_tube* here) {
  const recorded r = recorded_of(received, known, static_cast<std::size_t>(tube - 1));
  std::vector<std::string> out{csv_words(received.kit),
                               n.test_id,
                               n.protocol,
                               known.rehearsal ? "yes" : "no",
                               fmt::format("{}", tube),
                               r.due,
                               r.closed,
                               r.how,
                               r.late_s,
                               r.standing,
                               here == nullptr ? ""
                               : here->present ? "yes"
                                               : "no",
                               here == nullptr || !here->present ? ""
                               : here->lid == lid_state::good    ? "good"
                                                                 : "bad",
                               here != nullptr && here->label ? day_minute_text(*here->label) : ""};
  for (std::string& cell : reading_cells(at, received, tube))
    out.push_back(std::move(cell));
  return out;
}

// Tube 1 and the drink, as exactly as the record has them.
struct moments {
  std::string tube_1;
  std::string drink_start;
  std::string drink_end;
};

moments moments_of(const received_kit& received, const known_kit& known) {
  if (known.log)
    return {utc_or_empty(known.log->anchor), utc_or_empty(known.log->drink_start),
            utc_or_empty(known.log->drink_end)};
  if (known.code || !known.told || received.papers.empty()) return {};
  const paper_record& p = received.papers.back();
  const auto tube_1 = p.times.empty() ? std::nullopt : p.times.front();
  const auto written = [&](const std::optional<day_minute>& m) {
    if (!m) return std::string();
    const bool next_day = p.past_midnight && tube_1 && *m < *tube_1;
    return date_text(plus_days(p.day, std::chrono::days(next_day ? 1 : 0))) + "T" +
           day_minute_text(*m);
  };
  return {written(tube_1), written(p.drink.start), written(p.drink.end)};
}

} // namespace

std::string tests_header() {
  return "kit,test_id,protocol,rehearsal,record,precision_s,tested,tube_1_closed,drink_start,"
         "drink_end,tubes,taken,arrived,due,identifiers,to_review,concluded,mark,lot,expires\r\n";
}

std::string tubes_header() {
  return "kit,test_id,protocol,rehearsal,tube,due,closed,how,late_s,standing,present,lid,label,"
         "h2_ppm,ch4_ppm,co2_pct,h2_corrected_ppm,ch4_corrected_ppm,co2_reference_pct,measured_at,"
         "reading,run,analyser,calibration,control\r\n";
}

std::string test_row(const lab_context& at, const kit_facts& facts, const known_kit& known) {
  const received_kit& received = *facts.received;
  const names n = names_of(received, known);
  const work_line line = work_line_of(facts, at.profile(), at.place());
  const auto& labels = known.told ? known.told->labels : std::vector<std::optional<day_minute>>();
  const auto taken =
      std::count_if(labels.begin(), labels.end(), [](const auto& l) { return l.has_value(); });
  const bool paper = n.record == std::string("paper");
  const moments at_times = moments_of(received, known);
  const kit_supply supply = supply_of(received, known.supply);
  return csv_row(
      {csv_words(received.kit),
       n.test_id,
       n.protocol,
       known.rehearsal ? "yes" : "no",
       n.record,
       !known.told ? ""
       : paper     ? fmt::format("{}", std::chrono::seconds(paper_precision).count())
                   : "1",
       known.told && known.told->tested ? date_text(*known.told->tested) : "",
       at_times.tube_1,
       at_times.drink_start,
       at_times.drink_end,
       known.told ? fmt::format("{}", labels.size()) : "",
       known.told ? fmt::format("{}", taken) : "",
       line.arrived ? date_text(*line.arrived) : "",
       line.due ? date_text(*line.due) : "",
       received.arrivals.empty() ? "" : stated_text(received.arrivals.back().identifiers),
       fmt::format("{}", line.to_review),
       received.conclusions.empty() ? "no"
       : line.again                 ? "again"
                                    : "yes",
       csv_words(at.standing().mark),
       csv_words(supply.lot),
       supply.expires ? date_text(*supply.expires) : ""});
}

std::string tube_rows(const lab_context& at, const received_kit& received, const known_kit& known) {
  const names n = names_of(received, known);
  const std::size_t samples = known.told ? known.told->labels.size() : 0;
  std::string out;
  std::vector<int> done;
  for (const received_tube& t : received.tubes) {
    out += csv_row(tube_cells(n, at, received, known, t.sample, &t));
    done.push_back(t.sample);
  }
  for (std::size_t i = 0; i < samples; ++i) {
    const int tube = static_cast<int>(i) + 1;
    if (std::find(done.begin(), done.end(), tube) == done.end())
      out += csv_row(tube_cells(n, at, received, known, tube, nullptr));
  }
  return out;
}

} // namespace qb::lab
