// The command `audit`.
#include "core/report/audit.hpp"

#include "app/lab/commands/day.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/output.hpp"
#include "app/lab/context/printable.hpp"
#include "core/record/log.hpp"
#include "core/sheet/sheet.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

std::string or_empty(const std::optional<std::int64_t>& n) {
  return n ? fmt::format("{}", *n) : "";
}

std::string tube_row(const std::string& test, const std::string& tube, std::int64_t tests,
                     const audit_counts& c, const std::string& mark) {
  std::vector<std::string> cells{test, tube};
  for (const std::int64_t count : {tests, c.due, c.on_time, c.early, c.late, c.missed})
    cells.push_back(fmt::format("{}", count));
  for (const auto& span : {c.median_s(), c.ninth_tenth_s(), c.largest_s()})
    cells.push_back(or_empty(span));
  cells.push_back(csv_words(mark));
  return csv_row(cells);
}

// One row a test and tube, then one for tubes 2 and on; last those of people who were forgotten,
// whose tubes are not told apart any more.
std::string audit_csv(const audit& all, const std::vector<forgotten_row>& forgotten,
                      const std::string& mark) {
  std::string out = "test,tube,tests,due,on_time,early,late,missed,median_late_s,"
                    "nine_tenths_late_s,largest_late_s,mark\r\n";
  for (const auto& [id, test] : all.tests()) {
    for (const auto& [tube, counts] : test.tubes)
      out += tube_row(id, fmt::format("{}", tube), test.tests, counts, mark);
    out += tube_row(id, "2 and on", test.tests, test.later, mark);
  }
  for (const forgotten_row& f : forgotten)
    out += tube_row(f.protocol, "2 and on of people who were forgotten", f.tests,
                    {f.due, f.on_time, f.early, f.late, f.missed, {}}, mark);
  return out;
}

json::value counts_json(const audit_counts& c) {
  const auto number = [](const std::optional<std::int64_t>& n) {
    return n ? json::value(*n) : json::value();
  };
  return json::object{{"due", c.due},
                      {"on_time", c.on_time},
                      {"early", c.early},
                      {"late", c.late},
                      {"missed", c.missed},
                      {"median_late_s", number(c.median_s())},
                      {"nine_tenths_late_s", number(c.ninth_tenth_s())},
                      {"largest_late_s", number(c.largest_s())}};
}

json::value audit_json(const audit& all, const std::vector<forgotten_row>& forgotten,
                       const std::string& mark) {
  json::array tests;
  for (const auto& [id, test] : all.tests()) {
    json::array tubes;
    for (const auto& [number, counts] : test.tubes)
      tubes.push_back(json::object{{"tube", number}, {"times", counts_json(counts)}});
    tests.push_back(json::object{{"protocol", id},
                                 {"tests", test.tests},
                                 {"all_on_time", test.whole},
                                 {"later_tubes", counts_json(test.later)},
                                 {"tubes", std::move(tubes)}});
  }
  json::array gone;
  for (const forgotten_row& f : forgotten)
    gone.push_back(json::object{{"protocol", f.protocol},
                                {"tests", f.tests},
                                {"due", f.due},
                                {"taken", f.taken},
                                {"on_time", f.on_time},
                                {"early", f.early},
                                {"late", f.late},
                                {"missed", f.missed}});
  return json::object{{"mark", json::text_or_null(mark)},
                      {"tests", std::move(tests)},
                      {"forgotten", std::move(gone)}};
}

std::string seconds_text(const std::optional<std::int64_t>& s) {
  if (!s) return "-";
  return length_in_words(std::chrono::seconds{*s < 0 ? -*s : *s}) + (*s < 0 ? " early" : "");
}

std::string audit_text(const audit& all, const std::vector<forgotten_row>& forgotten) {
  constexpr std::size_t tube_wide = 10;
  constexpr std::size_t number_wide = 9;
  constexpr std::size_t time_wide = 14;
  std::string out;
  const auto row = [&](const std::string& tube, const audit_counts& c) {
    out += left_in(tube, tube_wide);
    for (const std::int64_t n : {c.due, c.on_time, c.early, c.late, c.missed})
      out += right_in(fmt::format("{}", n), number_wide);
    for (const auto& s : {c.median_s(), c.ninth_tenth_s(), c.largest_s()})
      out += right_in(seconds_text(s), time_wide);
    out += "\n";
  };
  for (const auto& [id, test] : all.tests()) {
    out += fmt::format("{}: {} test{}, all tubes on time in {}\n", printable(id), test.tests,
                       test.tests == 1 ? "" : "s", test.whole);
    out += left_in("Tube", tube_wide);
    for (const char* head : {"Due", "On time", "Early", "Late", "Missed"})
      out += right_in(head, number_wide);
    for (const char* head : {"Median late", "9 of 10", "Latest"})
      out += right_in(head, time_wide);
    out += "\n";
    for (const auto& [tube, counts] : test.tubes)
      row(fmt::format("{}", tube), counts);
    row("2 and on", test.later);
    out += "\n";
  }
  for (const forgotten_row& f : forgotten)
    out += fmt::format("{}: {} more of people who were forgotten; of {} later tubes {} on time, "
                       "{} early, {} late, {} missed\n",
                       printable(f.protocol), f.tests, f.due, f.on_time, f.early, f.late, f.missed);
  return out.empty() ? "no test with times yet\n" : out;
}

} // namespace

int audit_times(const shared_options& shared, const lab_context_options& o, const std::string& csv,
                const console& to) {
  const auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  audit all;
  std::size_t left_out = 0;
  // All tests, also several of one kit: so by the list of logs, one read at a time.
  const auto rows = at->logs().list();
  if (!rows) return say_no(rows.error(), to);
  for (const log_row& row : *rows) {
    if (row.rehearsal && !o.rehearsals) continue;
    const auto found = at->logs().find(which_tests::of_test_id, row.test_id);
    if (!found) return say_no(found.error(), to);
    const auto log = read_log(found->front().body);
    if (!log)
      return say_no({refusal_kind::machine, shared.store, "a kept log", "a damaged text",
                     "the log as it was taken in"},
                    to);
    const report told = report_of(*log, shared.zones, shared.own);
    if (told.matches_itself) {
      all.add(told);
    } else {
      ++left_out; // times that somebody changed tell nothing of how time was kept
    }
  }
  if (left_out > 0)
    to.err(fmt::format("quarterbreath-lab: note: {} left out, whose log does not match its own "
                       "record\n",
                       left_out == 1 ? "1 test" : fmt::format("{} tests", left_out)));
  const auto forgotten = at->received().forgotten();
  if (!forgotten) return say_no(forgotten.error(), to);
  const std::string& mark = at->standing().mark;
  if (!csv.empty() && csv != "-") {
    const auto written = write_outputs({{csv, audit_csv(all, *forgotten, mark)}},
                                       {shared.store, {o.profile}, o.replace});
    return written ? 0 : say_no(written.error(), to);
  }
  to.out(csv == "-" ? audit_csv(all, *forgotten, mark)
         : shared.format == output_format::json
             ? json::pretty(audit_json(all, *forgotten, mark))
             : (mark.empty() ? "" : mark + "\n") + audit_text(all, *forgotten));
  return 0;
}

} // namespace qb::lab
