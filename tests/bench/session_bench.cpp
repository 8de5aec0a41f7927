// What a frame and a start of the program pay: folding a whole test, asking what is to be done now,
// one event written and read back.
// The window asks `what_now` in every frame it draws, and an opened journal is folded whole.
#include "core/record/codec.hpp"
#include "tests/support/scripted_test.hpp"

#include <benchmark/benchmark.h>

namespace {

using namespace qb;
using namespace qb::test;

// One frame at sixty a second is 16 667 us; what is asked in each may take a fiftieth of it.
constexpr double frame_part_us = 333;
// Opening a test that was interrupted: not felt as a wait.
constexpr double opening_us = 100000;

const std::vector<event>& whole_test() {
  static const std::vector<event> events = [] {
    patient p;
    p.through_the_drink();
    p.score(1);
    for (int n = 2; n <= static_cast<int>(lactulose().samples()); ++n)
      p.sample(n);
    return p.e.events();
  }();
  return events;
}

void fold_whole_test(benchmark::State& state) {
  state.counters["limit_us"] = opening_us;
  const std::vector<event>& events = whole_test();
  state.counters["events"] = static_cast<double>(events.size());
  for (auto _ : state) {
    const qb::state s = fold_events(events);
    if (s.seq != events.back().seq) state.SkipWithError("not all events were folded");
  }
}
BENCHMARK(fold_whole_test)->Unit(benchmark::kMicrosecond);

void what_now_in_a_test(benchmark::State& state) {
  state.counters["limit_us"] = frame_part_us;
  patient p;
  p.through_the_drink();
  p.score(1);
  for (int n = 2; n <= 5; ++n)
    p.sample(n);
  const qb::state s = p.current();
  const clock_reading now = p.clock.look();
  for (auto _ : state) {
    const now_answer a = what_now(s, now);
    if (a.what != step::wait || a.sample != sample_number(6))
      state.SkipWithError("not waiting for tube 6");
  }
}
BENCHMARK(what_now_in_a_test)->Unit(benchmark::kMicrosecond);

void event_there_and_back(benchmark::State& state) {
  state.counters["limit_us"] = frame_part_us;
  const event& e = whole_test().back();
  for (auto _ : state) {
    const std::string text = json::canonical(encode_event(e));
    const auto parsed = json::parse(text);
    const auto back = parsed ? decode_event(*parsed, "event") : tl::unexpected(parsed.error());
    if (!back || back->seq != e.seq) state.SkipWithError("not read back");
  }
}
BENCHMARK(event_there_and_back)->Unit(benchmark::kMicrosecond);

} // namespace
