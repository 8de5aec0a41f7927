// From a tap to the disk: a command through the engine and its keeper until the fact is durable,
// beside a bare insert of the same bytes by SQLite under the same settings.
// The disk decides the time of both; their ratio is what our own way adds, on any machine.
#include "app/store/journal_keeper.hpp"
#include "app/store/statement.hpp"
#include "core/record/codec.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <benchmark/benchmark.h>
#include <memory>

namespace {

using namespace qb;
using namespace qb::test;

// A tenth of a second is still felt as at once.
constexpr double at_once_us = 100000;

payload tapped() {
  return reported_comment{"the neighbour rang"};
}

void bare_insert(benchmark::State& state) {
  state.counters["limit_us"] = at_once_us;
  const own_folder folder;
  sqlite3* raw = nullptr;
  const int opened_well = sqlite3_open(folder.file("bare.db").c_str(), &raw);
  const std::unique_ptr<sqlite3, int (*)(sqlite3*)> db(raw, sqlite3_close_v2);
  if (opened_well != SQLITE_OK ||
      !run_sql(raw, "PRAGMA locking_mode=EXCLUSIVE; PRAGMA synchronous=FULL;"
                    "PRAGMA journal_mode=TRUNCATE;"
                    "CREATE TABLE event(seq INTEGER PRIMARY KEY, body TEXT NOT NULL,"
                    " hash TEXT NOT NULL) STRICT")) {
    state.SkipWithError("no database");
    return;
  }
  const clock_double clock(utc("2027-04-06T06:30:00Z"));
  const std::string body = json::canonical(encode_event({4, clock.look(), tapped()}));
  statement put(raw, "INSERT INTO event VALUES(?1,?2,?3)");
  std::int64_t seq = 0;
  for (auto _ : state) {
    const bool done = put.bind(1, ++seq).bind(2, body).bind(3, chain_start()).step() == SQLITE_DONE;
    put.again();
    if (!done) state.SkipWithError("not inserted");
  }
}
BENCHMARK(bare_insert)->Unit(benchmark::kMicrosecond)->UseRealTime();

void tap_to_durable(benchmark::State& state) {
  state.counters["limit_us"] = at_once_us;
  state.SetLabel("against bare_insert");
  const own_folder folder;
  auto journal = open_journal(folder.file("a.journal"));
  if (!journal) {
    state.SkipWithError("no journal");
    return;
  }
  engine e(journal->keeper, {});
  clock_double clock(utc("2027-03-08T10:00:00Z"));
  bool ready = true;
  for (payload told : {payload(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}),
                       payload(invented_person()), payload(plan_of(utc("2027-04-06T06:30:00Z")))})
    ready = ready && e.submit(command{std::move(told)}, clock.look()).has_value();
  if (!ready) state.SkipWithError("no test was begun");
  for (auto _ : state) {
    const std::int64_t before = e.current().seq;
    const bool taken = e.submit(command{tapped()}, clock.look()).has_value();
    e.settle();
    if (!taken || e.current().seq != before + 1 || e.saving())
      state.SkipWithError("the tap is not durable");
  }
}
BENCHMARK(tap_to_durable)->Unit(benchmark::kMicrosecond)->UseRealTime();

} // namespace
