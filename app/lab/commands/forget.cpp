// The command `forget`.
#include "core/report/audit.hpp"

#include "app/lab/commands/day.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/printable.hpp"
#include "app/machine/surroundings.hpp"
#include "core/record/log.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// What the kit's tests leave: counts by protocol, of tubes 2 and on, as the audit has them.
result<std::vector<forgotten_row>> counts_of(const lab_context& at,
                                             const std::vector<log_row>& logs) {
  audit all;
  for (const log_row& row : logs) {
    if (row.rehearsal) continue; // practice counts nowhere
    const auto log = read_log(row.body);
    if (!log)
      return tl::unexpected(refusal{refusal_kind::machine, at.shared().store, "a kept log",
                                    "a damaged text", "the log as it was taken in"});
    const report told = report_of(*log, at.shared().zones, at.shared().own);
    if (told.matches_itself) all.add(told); // as the audit counts
  }
  std::vector<forgotten_row> out;
  for (const auto& [id, test] : all.tests()) {
    const audit_counts& c = test.later;
    out.push_back({id, test.tests, c.due, c.due - c.missed, c.on_time, c.early, c.late, c.missed});
  }
  return out;
}

} // namespace

namespace {

// The table in which each kind of row stands.
const char* table_of(ruled what) {
  switch (what) {
  case ruled::box: return "bench_arrival";
  case ruled::scan: return "bench_scan";
  case ruled::sheet: return "bench_paper";
  case ruled::reading: return "bench_reading";
  case ruled::choice: return "bench_choice";
  case ruled::set_aside: return "bench_override";
  case ruled::conclusion: return "bench_conclusion";
  default: return "bench_ruling";
  }
}

// The rows that are the test's, taken back or not, and what was said of them.
std::vector<entry_name> rows_of(const named_test& test) {
  const std::string& id = test.test().received.test;
  std::vector<entry_name> out;
  const auto is_its = [&](const owned_row& row) { return row.test == id && !row.away; };
  for (const owned_row& row : test.of.owners)
    if (is_its(row)) out.push_back({table_of(row.what), row.entry});
  for (const ruling& r : test.of.rows.rulings) {
    const bool about_it =
        std::any_of(test.of.owners.begin(), test.of.owners.end(), [&](const owned_row& row) {
          return is_its(row) && row.what == r.what && row.entry == r.of;
        });
    if (about_it || test.of.tests.size() == 1) out.push_back({"bench_ruling", r.mark.entry});
  }
  return out;
}

// What was asked for goes with its kit number's last test, and with whoever's it is: it stays only
// where another test of the number is that person's.
bool request_goes(const named_test& test) {
  const told_person& asked_for = test.test().known.asked_for;
  return std::none_of(test.of.tests.begin(), test.of.tests.end(), [&](const kept_test& t) {
    return &t != &test.test() && is_same_person(t.known.who, asked_for);
  });
}

// Until when a concluded test is kept by the profile; nothing where it was not concluded, or the
// profile does not tell.
std::optional<civil_date> kept_until(const lab_context& at, const received_kit& received) {
  const auto& years = at.profile().retention;
  if (received.conclusions.empty() || !years) return std::nullopt;
  const civil_date last = date_of(at.place().civil_at(received.conclusions.back().at));
  // The 29th of February is followed by the 1st of March where there is none.
  const civil_date day = last + *years;
  return day.ok() ? day : civil_date{std::chrono::sys_days{day}};
}

std::optional<refusal> no_to_forget(const lab_context& at, const named_test& test,
                                    const forget_options& o, const std::string& what) {
  const auto no = [](const char* where, std::string found, std::string expected) {
    return refusal{refusal_kind::ambiguous, "", where, std::move(found), std::move(expected)};
  };
  if (!test.of.stopped.empty() && !test.of.nobodys.arrivals.empty())
    return no("forget", "a box of this kit number is nobody's",
              "its kit assigned first, so that nothing is left to the other test");
  const received_kit& received = test.test().received;
  const auto until = kept_until(at, received);
  const bool over = until && date_of(at.place().civil_at(at.now())) >= *until;
  if (!received.conclusions.empty() && !over && !o.although_concluded)
    return no("forget",
              until ? "a concluded test, kept until " + date_text(*until) + " by the profile"
                    : "a concluded test, and a profile that tells no retention",
              "--although-concluded, where that is meant, with its reason");
  if (!o.sure) return no("forget", what, "--sure, since it cannot be taken back");
  return std::nullopt;
}

} // namespace

int forget_test(const shared_options& shared, const lab_context_options& o,
                const forget_options& options, const console& to) {
  auto deed = begin_deed(shared, o, work_act::forget, options.kit, options.reason);
  if (!deed) return say_no(deed.error(), to);
  auto& [by, at, test] = *deed;
  const received_kit& received = test.test().received;
  const std::vector<entry_name> rows = rows_of(test);
  if (received.test.empty() && rows.empty() && !tells_anything(test.test().known.asked_for))
    return say_no({refusal_kind::missing, shared.store, "KIT", "nothing of that kit",
                   "a kit that quarterbreath-lab worklist --all shows"},
                  to);
  const auto logs = at.logs().find(which_tests::of_test_id, received.test);
  if (!logs) return say_no(logs.error(), to);
  const std::string what =
      fmt::format("test {}: {}, box entries {}, sheets {}, readings {}",
                  received.test.empty() ? "not known" : printable(received.test),
                  test.test().known.log    ? "a log"
                  : test.test().known.code ? "a code"
                                           : "no log",
                  received.arrivals.size(), received.papers.size(), received.readings.size());
  if (const auto no = no_to_forget(at, test, options, what)) return say_no(*no, to);
  const auto counts = counts_of(at, *logs);
  if (!counts) return say_no(counts.error(), to);
  constexpr int parts = 4; // of 16 hexadecimal digits each
  std::string chance;
  for (int i = 0; i < parts; ++i)
    chance += random_name();
  const auto gone = at.received().forget(
      {received.test, test.of.kit, rows, chance, rfc3339_utc(at.now()), request_goes(test)},
      *counts);
  if (!gone) return say_no(gone.error(), to);
  to.out(fmt::format("forgotten by {}: {}; counts are left for the audit\n", by, what));
  return 0;
}

} // namespace qb::lab
