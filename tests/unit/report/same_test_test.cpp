// Two logs of one test against each other.
#include "core/report/same_test.hpp"

#include "tests/unit/report/made_log.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/core.h>

namespace qb {

namespace {

read_log_result first(std::size_t count) {
  std::vector<event> events = make_events();
  events.resize(count);
  return read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
}

} // namespace

TEST_CASE("the same events are the same log, whichever program wrote them down") {
  const auto other = read_log(write_log(make_events(), "quarterbreath 9.9.9", "")).value();
  CHECK(compare_logs(read_log(make_log()).value(), other).what == log_relation::same);
}

TEST_CASE("more events after the same ones are a log that grew, the other way round an older one") {
  CHECK(compare_logs(first(10), first(20)).what == log_relation::grown);
  CHECK(compare_logs(first(20), first(10)).what == log_relation::older);
}

TEST_CASE("an event that differs contradicts, and the first one is named") {
  std::vector<event> events = make_events();
  std::get<reported_person>(events[1].what).doctor = "Dr Ann Other";
  events.resize(30);
  const auto other = read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
  const log_comparison c = compare_logs(first(20), other);
  CHECK(c.what == log_relation::contradicts);
  CHECK(c.seq == 2);
  CHECK(place_in_log(*c.first) == "event 2 (person), data.doctor");
  CHECK(c.first->kept == "words"); // what a person wrote is not shown
  CHECK(c.first->next == "other words");
}

TEST_CASE("what differs is told with both values, what was told before when it was told") {
  std::vector<event> events = make_events();
  const auto at = std::find_if(events.begin(), events.end(), [](const event& e) {
    return std::holds_alternative<reported_symptoms>(e.what);
  });
  auto& told = std::get<reported_symptoms>(at->what);
  REQUIRE(told.scores.size() > 1);
  told.scores[1].score = 9;
  at->at.wall += std::chrono::seconds{1};
  const auto other = read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
  const auto kept = read_log(make_log()).value();
  const auto f = aside_finding(kept, other);
  REQUIRE(f);
  CHECK(f->rule == "log-differs");
  CHECK(f->weight == consequence::review);
  CHECK(f->events == std::vector{at->seq});
  CHECK(f->words == fmt::format("another log of this test came and was set aside; event {} "
                                "(symptoms), data.scores.2.score: 0 in the log that counts, 9 in "
                                "the other",
                                at->seq));
  CHECK(!aside_finding(kept, kept));
  told.scores[1].score = std::get<reported_symptoms>(
                             kept.events.at(static_cast<std::size_t>(at - events.begin())).what)
                             .scores[1]
                             .score;
  told.scores.pop_back();
  const auto fewer = read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
  CHECK(compare_logs(kept, fewer).first->next == "nothing");
}

TEST_CASE("another kind of event, another clock and another hash are told as such") {
  std::vector<event> events = make_events();
  const event was = events[20];
  events[20].at.wall += std::chrono::seconds{1};
  const auto kept = read_log(make_log()).value();
  const auto first_of = [&] {
    return compare_logs(kept, read_log(write_log(events, "quarterbreath 0.1.0", "")).value()).first;
  };
  CHECK(first_of()->field == "at.wall");
  events[20] = was;
  events[20].what = resumed{};
  CHECK(first_of()->field == "kind");
  CHECK(first_of()->next == "resumed");
}

TEST_CASE("the same events under another last hash contradict") {
  read_log_result other = first(20);
  other.head = std::string(64, 'a');
  CHECK(compare_logs(first(20), other).what == log_relation::contradicts);
  CHECK(compare_logs(first(20), other).first->field == "hash");
}

} // namespace qb
