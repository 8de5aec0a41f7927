// How long a turn takes: folding a whole test, answering what is to be done, writing and reading an
// event, and a tap until it is on the disk.
// Limits are those of a slow machine: a screen has 16 ms a picture, a press may take 100 ms.
#include "app/headless/journal_keeper.hpp"
#include "core/record/codec.hpp"
#include "core/record/log.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <benchmark/benchmark.h>
#include <filesystem>
#include <fmt/core.h>
#include <sqlite3.h>
#include <unistd.h>

using namespace qb;
using namespace qb::test;

namespace {

const std::vector<event>& whole_test() {
  static const std::vector<event> events = [] {
    patient p;
    p.through_the_drink();
    p.score(1);
    for (int n = 2; n <= 10; ++n)
      p.sample(n);
    return p.e.events();
  }();
  return events;
}

void limit(benchmark::State& s, double microseconds) {
  s.counters["limit_us"] = microseconds;
}

void fold_of_a_whole_test(benchmark::State& s) {
  for (auto _ : s)
    benchmark::DoNotOptimize(fold_events(whole_test()).seq);
  limit(s, 16000);
}

void what_now_in_the_middle(benchmark::State& s) {
  patient p;
  p.through_the_drink();
  p.score(1);
  for (int n = 2; n <= 5; ++n)
    p.sample(n);
  const reading now = p.clock.look();
  for (auto _ : s)
    benchmark::DoNotOptimize(what_now(p.current(), now).what);
  limit(s, 1000);
}

void event_there_and_back(benchmark::State& s) {
  const event& e = whole_test().back();
  for (auto _ : s) {
    const std::string text = json::canonical(encode_event(e));
    benchmark::DoNotOptimize(decode_event(json::parse(text).value(), "e").value().seq);
  }
  limit(s, 1000);
}

void log_read_and_checked(benchmark::State& s) {
  const std::string text = write_log(whole_test(), "quarterbreath");
  for (auto _ : s)
    benchmark::DoNotOptimize(read_log(text).value().events.size());
  limit(s, 100000);
}

// A new folder on the disk the build stands on, where a sync is a sync.
std::string own_folder() {
  std::string name = (std::filesystem::current_path() / "bench-XXXXXX").string();
  QB_BELIEVE(::mkdtemp(name.data()) != nullptr);
  return name;
}

void run(sqlite3* db, const char* sql) {
  QB_BELIEVE(sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
}

using clock_of_ours = std::chrono::steady_clock;

double middle(std::vector<double>& all) {
  std::sort(all.begin(), all.end());
  return all[all.size() / 2];
}

// A tap through engine, codec, chain and journal, and in the same turn a bare SQLite insert of the
// same bytes with the same settings: what of the time is ours shows in their ratio.
void tap_until_durable(benchmark::State& s) {
  const std::string folder = own_folder();
  auto journal = open_journal(folder + "/tap.journal").value();
  engine e(journal.keeper, {});
  clock_double clock(utc("2027-04-06T06:30:00Z"));
  QB_BELIEVE(e.submit(command{opened{"x", "y", false, fenwick_text()}}, clock.look()).has_value());
  sqlite3* bare = nullptr;
  QB_BELIEVE(sqlite3_open((folder + "/bare.db").c_str(), &bare) == SQLITE_OK);
  run(bare, "PRAGMA locking_mode=EXCLUSIVE");
  run(bare, "PRAGMA synchronous=FULL");
  run(bare, "PRAGMA journal_mode=TRUNCATE");
  run(bare, "CREATE TABLE event(seq INTEGER PRIMARY KEY, body TEXT, hash TEXT) STRICT");
  const std::string insert = fmt::format(
      "INSERT INTO event(body,hash) VALUES('{}','{}')",
      json::canonical(encode_event({1, clock.look(), comment_told{"a word"}})), chain_start());
  std::vector<double> ours;
  std::vector<double> theirs;
  for (auto _ : s) {
    const auto begun = clock_of_ours::now();
    QB_BELIEVE(e.submit(command{comment_told{"a word"}}, clock.look()).has_value());
    const auto kept = clock_of_ours::now();
    run(bare, insert.c_str());
    const auto inserted = clock_of_ours::now();
    ours.push_back(std::chrono::duration<double>(kept - begun).count());
    theirs.push_back(std::chrono::duration<double>(inserted - kept).count());
    s.SetIterationTime(ours.back());
  }
  sqlite3_close(bare);
  std::filesystem::remove_all(folder);
  s.counters["bare_us"] = middle(theirs) * 1e6;
  s.counters["ratio"] = middle(ours) / middle(theirs);
  // On standard error, which the runner shows; standard output is the report.
  fmt::print(stderr, "tap to durable {:.0f} us, bare insert {:.0f} us, ratio {:.2f} ({} taps)\n",
             middle(ours) * 1e6, middle(theirs) * 1e6, middle(ours) / middle(theirs), ours.size());
  limit(s, 100000);
}

BENCHMARK(fold_of_a_whole_test);
BENCHMARK(what_now_in_the_middle);
BENCHMARK(event_there_and_back);
BENCHMARK(log_read_and_checked);
BENCHMARK(tap_until_durable)->UseManualTime()->MinTime(0.5);

} // namespace
