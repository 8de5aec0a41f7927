// The earliest start by intervals, beside the same answer by trying every minute.
// The plan's page asks for it at every change a person makes there; both must find the same start.
#include "tests/support/scripted_test.hpp"
#include "tests/support/tried_starts.hpp"

#include <benchmark/benchmark.h>

namespace {

using namespace qb;
using namespace qb::test;

// One frame at sixty a second is 16 667 us: an answer within a frame is not felt.
constexpr double frame_us = 16667;
// What trying takes is nobody's wait; the peer only has to end.
constexpr double peer_us = 10000000;

const instant asked_at = utc("2027-03-05T12:00:00Z");

// An antibiotic until yesterday, mornings at home on some days, some days away, a night's sleep.
const circumstances& a_life() {
  static const circumstances c = [] {
    circumstances out;
    const civil_date today = parse_date("2027-03-05").value();
    out.washouts = {
        {"antibiotics", washout_answer::last_on, plus_days(today, std::chrono::days{-1}), false}};
    out.home = {{{1, 3, 5}, {6h, 13h}}, {{6, 7}, {8h, 12h}}};
    for (int n = 26; n < 36; ++n)
      out.away.push_back(plus_days(today, std::chrono::days{n}));
    out.awake = day_hours{6h, 23h};
    out.kit_expires = parse_date("2027-09-30").value();
    return out;
  }();
  return c;
}

std::optional<instant> by_trying() {
  const tried_starts all(lactulose(), a_life(), asked_at, zone_named("Europe/London"),
                         asked_at - 48h, asked_at + std::chrono::days{60});
  return all.first_that_works();
}

void earliest_by_trying_minutes(benchmark::State& state) {
  state.counters["limit_us"] = peer_us;
  for (auto _ : state) {
    if (!by_trying()) state.SkipWithError("no start was found");
  }
}
BENCHMARK(earliest_by_trying_minutes)->Unit(benchmark::kMicrosecond);

void earliest_by_intervals(benchmark::State& state) {
  state.counters["limit_us"] = frame_us;
  state.SetLabel("against earliest_by_trying_minutes");
  const zone& london = zone_named("Europe/London");
  const std::optional<instant> expected = by_trying();
  for (auto _ : state) {
    const earliest_start first = find_earliest(lactulose(), a_life(), asked_at, london);
    if (!first.at || first.at != expected) state.SkipWithError("another start was found");
  }
}
BENCHMARK(earliest_by_intervals)->Unit(benchmark::kMicrosecond);

void rules_broken_by_a_start(benchmark::State& state) {
  state.counters["limit_us"] = frame_us;
  const zone& london = zone_named("Europe/London");
  const instant start = asked_at + 30h;
  for (auto _ : state) {
    const auto broken = rules_broken(lactulose(), a_life(), start, asked_at, london);
    if (broken.size() != 2) state.SkipWithError("not the antibiotic and home were found broken");
  }
}
BENCHMARK(rules_broken_by_a_start)->Unit(benchmark::kMicrosecond);

} // namespace
