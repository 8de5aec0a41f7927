// A shared device keeps a test until the laboratory's hours are surely over, whatever is done to
// its clocks; and erases nothing that it was not told to.
#include "core/session/keeping.hpp"

#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

using namespace qb;
using namespace qb::test;
using namespace std::chrono_literals;

namespace {

std::string kiosk_profile() {
  std::ifstream in(repository() + "/assets/laboratories/fenwick-vale-kiosk.json");
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// A person told at noon, on one boot, on a clock that a time service keeps or none does.
struct kiosk {
  explicit kiosk(bool with_time_service) : synchronised(with_time_service) {
    add(opened{"one", "quarterbreath test", false, kiosk_profile()});
    add(invented_person());
  }

  void add(payload what) {
    const event e{s.seq + 1, now(), std::move(what)};
    events.push_back(e);
    s = apply(std::move(s), e);
  }
  [[nodiscard]] clock_reading now() const {
    clock_reading r;
    r.wall = wall;
    r.boot = boot_time{boot};
    r.boot_id = boot_id;
    r.zone = "Europe/London";
    r.synchronised = synchronised;
    return r;
  }
  void pass(duration d) {
    wall += d;
    boot += d;
  }
  void set_wall(duration by) { wall += by; }
  // Off for so long; the wall clock goes on as it would by itself.
  void restart(duration off) {
    wall += off;
    boot = duration{30s};
    boot_id += "'";
  }
  [[nodiscard]] kept_until until() const {
    const auto out = kept_until_of(s, events, now());
    QB_BELIEVE(out.has_value());
    return *out;
  }
  [[nodiscard]] bool due() const { return until().due; }

  bool synchronised;
  instant wall = utc("2027-04-02T12:00:00Z");
  duration boot{3600s};
  std::string boot_id = "a";
  std::vector<event> events;
  state s;
};

} // namespace

TEST_CASE("three days after the last entry a test that was not handed over is due, not before") {
  kiosk k(false);
  CHECK(k.until().at == utc("2027-04-05T12:00:00Z"));
  k.pass(72h - 1s);
  CHECK_FALSE(k.due());
  CHECK(k.until().at == utc("2027-04-05T12:00:00Z"));
  k.pass(1s);
  CHECK(k.due());
}

TEST_CASE("whoever says that the test is theirs begins the hours anew, also after its end") {
  kiosk k(false);
  k.pass(72h);
  CHECK(k.due());
  k.add(reported_checklist{kept_list, {mine_item}});
  CHECK_FALSE(k.due());
  k.pass(72h - 1s);
  CHECK_FALSE(k.due());
  k.pass(1s);
  CHECK(k.due());
  patient p;
  CHECK(p.refused(reported_checklist{kept_list, {mine_item}}) == "no.plan-first");
  REQUIRE(p.tell(opened{"x", "y", false, kiosk_profile()}));
  CHECK(p.tell(reported_checklist{kept_list, {mine_item}})); // nothing is planned yet
  CHECK(p.refused(reported_checklist{"evening", {}}) == "no.plan-first");
}

TEST_CASE("a wall clock set a year ahead erases nothing, with and without a time service") {
  for (const bool service : {false, true}) {
    kiosk k(service);
    k.pass(1h);
    k.set_wall(24h * 365);
    CHECK_FALSE(k.due());
    k.add(clock_changed{{clock_change::kind::stepped, 24h * 365}});
    k.pass(70h);
    CHECK_FALSE(k.due());
    k.pass(1h);
    CHECK(k.due()); // by the boot clock, and by nothing else
  }
}

TEST_CASE("set ahead while it was off, a clock without a time service erases nothing") {
  kiosk k(false);
  k.restart(24h * 30);
  CHECK_FALSE(k.due());
  k.add(resumed{});
  CHECK_FALSE(k.due());
  k.pass(71h);
  CHECK_FALSE(k.due());
  k.pass(1h);
  CHECK(k.due()); // it has run that long since then
}

TEST_CASE("a time service vouches for the days in which the device was off") {
  kiosk k(true);
  k.restart(71h);
  CHECK_FALSE(k.due());
  k.add(resumed{});
  k.pass(1h);
  CHECK(k.due());
}

TEST_CASE("a clock set back keeps nothing for ever") {
  kiosk k(false);
  k.pass(1h);
  k.set_wall(-24h * 365);
  k.pass(71h);
  CHECK(k.due());
}

TEST_CASE("an entry counts anew, the program's own remarks do not") {
  kiosk k(false);
  k.pass(71h);
  k.add(resumed{});
  k.pass(1h);
  CHECK(k.due());
  k.add(reported_comment{"I am back"});
  CHECK_FALSE(k.due());
  CHECK(k.until().at == utc("2027-04-08T12:00:00Z"));
  k.pass(72h);
  CHECK(k.due());
}

TEST_CASE("a plan for next week is kept until three days after its end") {
  kiosk k(false);
  k.add(plan_of(utc("2027-04-12T06:30:00Z")));
  const instant ends = k.s.planned->what.ends;
  CHECK(k.until().at == ends + 72h);
  k.pass(ends - k.wall + 72h - 1s);
  CHECK_FALSE(k.due());
  k.pass(1s);
  CHECK(k.due());
}

TEST_CASE("a device of one's own keeps its tests, and practice is nobody's") {
  patient own;
  own.open_and_plan();
  clock_reading much_later = own.clock.look();
  much_later.wall += 24h * 3650;
  CHECK_FALSE(kept_until_of(own.current(), own.e.events(), much_later).has_value());
}
