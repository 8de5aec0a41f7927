// Elapsed time along a line of readings, with restarts whose wall clock is wrong and then set
// right. What counts as right is argued in core/clock/time_line.hpp; each case here is one sentence
// of it.
#include "core/clock/time_line.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// A line begun half an hour ago by a machine whose clock was kept by a time service.
struct on_the_way {
  on_the_way() : clock(utc("2027-04-06T06:30:00Z")), line(clock.look()) { go_on_after(30min); }

  duration go_on_after(duration d) {
    clock.pass(d);
    return line.go_on(clock.look());
  }
  // Off for ten minutes; the wall clock is then that far off and nothing keeps it yet.
  void restart(duration wall_off) {
    clock.reboot(10min);
    clock.step(wall_off);
    clock.synchronised = false;
    CHECK(line.go_on(clock.look()) == duration{0});
  }
  [[nodiscard]] elapsed now() const { return line.at(clock.look()); }

  clock_double clock;
  time_line line;
};

} // namespace

TEST_CASE("a believable clock after a restart counts, and says how sure it is") {
  on_the_way w;
  w.restart(0s);
  CHECK(w.now().length == 40min);
  CHECK(w.now().how == certainty::by_wall);
  CHECK(w.now().at_least == 30min + 30s);
  CHECK_FALSE(w.now().synchronised);
  CHECK(w.go_on_after(5min) == duration{0});
  CHECK(w.now().length == 45min);
  CHECK(w.now().at_least == 35min + 30s);
}

TEST_CASE("a clock that went backwards across a restart counts for nothing until it is set right") {
  on_the_way w;
  w.restart(-3h);
  CHECK(w.now().length == 30min + 30s);
  w.clock.pass(2min);
  w.clock.step(3h);
  CHECK(w.now().length == 42min); // already between two events
  CHECK(w.go_on_after(0s) == 9min + 30s);
  CHECK(w.now().length == 42min);
  CHECK(w.now().how == certainty::by_wall);
  CHECK(w.now().at_least == 32min + 30s);
  CHECK(w.go_on_after(1min) == duration{0}); // said once
}

TEST_CASE("a clock set right by a time service is believed over the one after the restart") {
  on_the_way w;
  w.restart(-5min); // believable, and wrong
  CHECK(w.now().length == 35min);
  w.clock.step(5min);
  CHECK(w.now().length == 35min); // somebody set it: only a step
  w.clock.synchronised = true;
  CHECK(w.now().length == 40min);
  CHECK(w.now().synchronised);
  CHECK(w.go_on_after(0s) == 5min);
}

TEST_CASE("a clock called synchronised right after the restart is final") {
  on_the_way w;
  w.clock.reboot(10min);
  CHECK(w.line.go_on(w.clock.look()) == duration{0});
  w.clock.step(1h);
  CHECK(w.go_on_after(1min) == duration{0});
  CHECK(w.now().length == 41min);
  CHECK(w.now().synchronised);
}

TEST_CASE("setting a clock right to more than a day later shows that it was wrong before") {
  // Both boots began in 1970: what is set right says nothing about the time between them.
  clock_double clock(utc("1970-01-01T01:00:00Z"));
  clock.synchronised = false;
  time_line line(clock.look());
  clock.reboot(10min);
  clock.step(-20min);
  CHECK(line.go_on(clock.look()) == duration{0});
  clock.step(utc("2027-04-06T06:30:00Z") - clock.wall());
  clock.synchronised = true;
  CHECK(line.go_on(clock.look()) == duration{0});
  CHECK(line.at(clock.look()).length == 30s);
}

TEST_CASE("a clock that nothing keeps may be set right by hand, once it could be right") {
  on_the_way w;
  w.restart(-3h);
  w.clock.step(3h - 2min); // set by hand, two minutes wrong
  CHECK(w.go_on_after(0s) == 7min + 30s);
  CHECK(w.now().length == 38min);
  SECTION("and a time service still knows better") {
    w.clock.step(2min);
    w.clock.synchronised = true;
    CHECK(w.go_on_after(0s) == 2min);
    CHECK(w.now().length == 40min);
  }
  SECTION("and setting it again is only a step") {
    w.clock.step(1h);
    CHECK(w.go_on_after(0s) == duration{0});
    CHECK(w.now().length == 38min);
  }
}

TEST_CASE("of two restarts in a row both are measured anew") {
  on_the_way w;
  w.restart(-3h);
  w.go_on_after(4min);
  w.restart(0s);                        // still three hours behind
  CHECK(w.now().length == 44min + 30s); // the second alone could be measured
  CHECK(w.now().at_least == 30min + 30s + 4min + 30s);
  w.clock.step(3h);
  w.clock.synchronised = true;
  CHECK(w.go_on_after(0s) > duration{0});
  CHECK(w.now().length == 54min);
}

TEST_CASE("a clock more than a day ahead after a restart is believed only until it is set back") {
  on_the_way w;
  w.restart(24h * 3652);
  CHECK(w.now().length > 24h * 3652);
  w.clock.step(-24h * 3652);
  CHECK(w.go_on_after(0s) == -24h * 3652);
  CHECK(w.now().length == 40min);
}
