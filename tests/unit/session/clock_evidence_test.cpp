// What the record says of clocks that were set, stopped and restarted during a test.
// Due times follow elapsed time, labels what the device showed, findings what happened and how far.
#include "core/findings/findings.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number three(3);

std::optional<finding> found(const patient& p, const std::string& rule) {
  for (finding& f : findings_of(p.current(), p.clock.look(), zone_named("Europe/London"))) {
    if (f.rule == rule) return std::move(f);
  }
  return std::nullopt;
}

} // namespace

TEST_CASE("a kiosk restarted in 1970 keeps the grid by what is sure, then by the clock set right") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const duration before = p.current().grid->at(p.clock.look()).length;
  const instant told = p.tube(2).taken->closed;
  const duration lost = p.clock.wall() - utc("1970-01-01T00:00:00Z");
  p.clock.reboot(6min);
  p.clock.step(-lost);
  p.clock.synchronised = false;
  REQUIRE(p.tell(resumed{}));
  CHECK(p.current().grid->at(p.clock.look()).length == before + 30s);
  CHECK(p.current().grid->at(p.clock.look()).how == certainty::by_wall);
  const auto bound = found(p, "clock-rebooted");
  REQUIRE(bound);
  CHECK(bound->figures == std::vector<std::int64_t>{30, 30, 0});
  CHECK(bound->words == "the device was restarted; times across it rest on its wall clock: which "
                        "cannot be right; at least 30 s");
  p.clock.pass(20s);
  p.clock.step(lost);
  p.clock.synchronised = true;
  REQUIRE(p.tell(reported_comment{"The clock is right again."}));
  CHECK(p.current().grid->at(p.clock.look()).length == before + 6min + 20s);
  const auto anew = found(p, "clock-measured-anew");
  REQUIRE(anew);
  CHECK(anew->figures.at(0) == 330);
  CHECK(found(p, "clock-stepped")->figures.at(0) == lost / 1s);
  CHECK(p.tube(2).taken->closed == told); // the label's time stands
  p.sample(3);
  CHECK(lateness(p.current(), three) == 10s);
}

TEST_CASE("a tube closed between the restart and the clock set right keeps the time known then") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  p.clock.reboot(10min);
  p.clock.step(-3h);
  p.clock.synchronised = false;
  REQUIRE(p.tell(resumed{}));
  p.sample(3);
  const taken_breath as_known = *p.tube(3).taken;
  p.clock.step(3h);
  p.clock.synchronised = true;
  REQUIRE(p.tell(reported_comment{"Set right."}));
  CHECK(p.tube(3).taken->since_anchor == as_known.since_anchor);
  CHECK(p.tube(3).taken->sure == certainty::by_wall);
  CHECK(p.tube(3).taken->closed == as_known.closed);
  const auto anew = found(p, "clock-measured-anew");
  REQUIRE(anew);
  CHECK(anew->weight == consequence::review);
  CHECK(anew->words.find("keep the time known then") != std::string::npos);
}

TEST_CASE("a restart with a clock kept by a time service says so, with its length and its bound") {
  patient p;
  p.through_the_drink();
  p.clock.reboot(7min);
  REQUIRE(p.tell(resumed{}));
  const auto f = found(p, "clock-rebooted");
  REQUIRE(f);
  CHECK(f->figures == std::vector<std::int64_t>{420, 30, 1});
  CHECK(f->words == "the device was restarted; times across it rest on its wall clock: by it 7 "
                    "min, called synchronised; at least 30 s");
}

TEST_CASE("ten minutes of suspend between two looks are time that passed, and no finding") {
  patient p;
  p.through_the_drink();
  p.score(1);
  const duration before = p.current().grid->at(p.clock.look()).length;
  p.clock.pass(10min);
  REQUIRE(p.tell(reported_comment{"The lid was shut."}));
  CHECK(p.current().grid->at(p.clock.look()).length == before + 10min);
  CHECK(p.current().clock_changes.empty());
}

TEST_CASE("summer time ending during the test moves no due time, and the labels show both times") {
  // Zone files: Europe/London goes back on 31 October 2027 at 01:00 UTC.
  patient p;
  REQUIRE(p.tell(opened{"t", "quarterbreath", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  p.clock.pass(utc("2027-10-31T00:48:00Z") - p.clock.wall());
  REQUIRE(p.tell(plan_of(utc("2027-10-31T00:50:00Z"))));
  for (payload& told : gate_answers(p.current(), p.clock.look()))
    REQUIRE(p.tell(std::move(told)));
  REQUIRE(p.tell(sugar_set_aside{}));
  p.score(1);
  p.clock.pass(110s);
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  p.clock.pass(60s);
  REQUIRE(p.tell(drink_ended{}));
  p.score(1);
  p.sample(2);
  CHECK(lateness(p.current(), sample_number(2)) == 10s);
  CHECK(p.tube(1).taken->offset == 1h);
  CHECK(p.tube(2).taken->offset == 0h);
  const auto f = found(p, "clocks-changed");
  REQUIRE(f);
  CHECK(f->words == "the clocks went back by 1 h during the test");
}

TEST_CASE("another zone during the test moves no due time, and the label shows the device's time") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.clock.zone_name = "Asia/Kathmandu";
  p.sample(2);
  CHECK(lateness(p.current(), sample_number(2)) == 10s);
  CHECK(p.tube(2).taken->offset == 5h + 45min);
  CHECK(found(p, "zone-changed"));
  CHECK_FALSE(found(p, "clocks-changed"));
}

TEST_CASE("a clock set by years is told in days") {
  patient p;
  p.through_the_drink();
  p.clock.step(-24h * 3652);
  REQUIRE(p.tell(reported_comment{"What year is it?"}));
  CHECK(found(p, "clock-stepped")->words == "the device's clock was set back by 3652 days");
}
