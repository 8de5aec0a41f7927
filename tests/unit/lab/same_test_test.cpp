// Two logs of one test against each other.
#include "core/lab/same_test.hpp"

#include "tests/unit/lab/made_log.hpp"

#include <catch2/catch.hpp>

namespace qb {

namespace {

read_log_result first(std::size_t count) {
  std::vector<event> events = make_events();
  events.resize(count);
  return read_log(write_log(events, "quarterbreath 0.1.0")).value();
}

} // namespace

TEST_CASE("the same events are the same log, whichever program wrote them down") {
  const auto other = read_log(write_log(make_events(), "quarterbreath 9.9.9")).value();
  CHECK(compare_logs(read_log(make_log()).value(), other).what == log_relation::same);
}

TEST_CASE("more events after the same ones are a log that grew, the other way round an older one") {
  CHECK(compare_logs(first(10), first(20)).what == log_relation::grown);
  CHECK(compare_logs(first(20), first(10)).what == log_relation::older);
}

TEST_CASE("an event that differs contradicts, and the first one is named") {
  std::vector<event> events = make_events();
  std::get<person_told>(events[1].what).doctor = "Dr Ann Other";
  events.resize(30);
  const auto other = read_log(write_log(events, "quarterbreath 0.1.0")).value();
  const log_comparison c = compare_logs(first(20), other);
  CHECK(c.what == log_relation::contradicts);
  CHECK(c.seq == 2);
}

TEST_CASE("the same events under another last hash contradict") {
  read_log_result other = first(20);
  other.head = std::string(64, 'a');
  CHECK(compare_logs(first(20), other).what == log_relation::contradicts);
}

} // namespace qb
