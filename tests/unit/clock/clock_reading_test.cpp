// Two clocks, one truth: elapsed time and what happened to the clocks.
// The boot clock counts through a changed wall clock; only a restart leaves the wall clock alone.
#include "core/clock/clock_reading.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const instant morning = utc("2027-04-06T06:30:00Z");

} // namespace

TEST_CASE("elapsed time is the boot clock's, however the wall clock was set meanwhile") {
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.pass(15min);
  clock.step(1h);
  CHECK(between(first, clock.look()).length == 15min);
  CHECK(between(first, clock.look()).how == certainty::exact);
  clock.step(-24h * 365);
  CHECK(between(first, clock.look()).length == 15min);
}

TEST_CASE("across a restart the wall clock is all there is, and that is said") {
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.reboot(7min);
  CHECK(between(first, clock.look()).length == 7min);
  CHECK(between(first, clock.look()).how == certainty::by_wall);
}

TEST_CASE(
    "time never runs backwards, and a restart lasted at least as long as its boot clock says") {
  // clock_gettime(2): CLOCK_BOOTTIME counts from the system's start, suspend included.
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.step(-2h);
  clock.reboot(1min);
  CHECK(between(first, clock.look()).length == 30s); // the double starts in half a minute
  CHECK(between(first, clock.look()).at_least == 30s);
  clock.pass(5min);
  CHECK(between(first, clock.look()).length == 5min + 30s);
  CHECK(between(first, clock.look()).how == certainty::by_wall);
  clock.step(2h);
  CHECK(between(first, clock.look()).length == 6min);
  CHECK(between(first, clock.look()).at_least == 5min + 30s);
}

TEST_CASE("on one boot clock a length is exact and its own lower bound") {
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.pass(10min); // a suspend is nothing else: CLOCK_BOOTTIME goes on through it
  const elapsed e = between(first, clock.look());
  CHECK(e.at_least == 10min);
  CHECK(e.synchronised);
  CHECK(changes_between(first, clock.look()).empty());
}

TEST_CASE("across a restart it is told whether both wall clocks were called synchronised") {
  // adjtimex(2): STA_UNSYNC is set while nothing keeps the clock.
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.reboot(1min);
  CHECK(between(first, clock.look()).synchronised);
  clock.synchronised = false;
  CHECK_FALSE(between(first, clock.look()).synchronised);
  CHECK_FALSE(between(clock.look(), first).synchronised);
}

TEST_CASE("two lengths add up to one as sure as the less sure of them") {
  const elapsed exact{10min, certainty::exact, 10min, true};
  const elapsed bounded{20min, certainty::by_wall, 2min, false};
  const elapsed sum = exact + bounded;
  CHECK(sum.length == 30min);
  CHECK(sum.at_least == 12min);
  CHECK(sum.how == certainty::by_wall);
  CHECK_FALSE(sum.synchronised);
  CHECK((exact + exact).how == certainty::exact);
}

TEST_CASE("a machine without a boot clock is judged by its wall clock") {
  clock_double clock(morning);
  clock.has_boot_clock = false;
  const clock_reading first = clock.look();
  clock.pass(10min);
  CHECK(between(first, clock.look()).length == 10min);
  CHECK(between(first, clock.look()).how == certainty::by_wall);
  CHECK(between(first, clock.look()).at_least == duration{0});
  CHECK(changes_between(first, clock.look()).empty());
}

TEST_CASE("a clock that was set is noted with how far, and slewing is not") {
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.pass(1h);
  CHECK(changes_between(first, clock.look()).empty());
  clock.step(2s);
  CHECK(changes_between(first, clock.look()).empty());
  clock.step(1ms);
  const auto changes = changes_between(first, clock.look());
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].what == clock_change::kind::stepped);
  CHECK(changes[0].by == 2001ms);
  clock.step(-1h);
  CHECK(changes_between(first, clock.look()).at(0).by == 2001ms - 1h);
}

TEST_CASE("a restart and a new zone are each noted") {
  clock_double clock(morning);
  const clock_reading first = clock.look();
  clock.reboot(1min);
  clock.zone_name = "Europe/Paris";
  const auto changes = changes_between(first, clock.look());
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].what == clock_change::kind::rebooted);
  CHECK(changes[1].what == clock_change::kind::zone_changed);
}
