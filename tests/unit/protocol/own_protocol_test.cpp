// A laboratory's own test, written as one file and no code: uneven grid, 24 samples, an upper age,
// other windows. It is read, planned and run like a shipped one.
#include "core/base/json.hpp"
#include "core/plan/plan.hpp"
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

const std::string& own_text() {
  static const std::string text = json::canonical(
      json::parse(source_file("demo-data/protocols/fenwick-vale-long.json")).value());
  return text;
}
const protocol& own() {
  static const protocol p = read_protocol(own_text()).value();
  return p;
}

civil_date born(int year) {
  return civil_date{std::chrono::year{year}, std::chrono::month(4), std::chrono::day(6)};
}

} // namespace

TEST_CASE("a laboratory's own file has its own grid, ages, windows and bounds") {
  CHECK(own().samples() == 24);
  CHECK(own().tubes_in_kit == 24);
  CHECK(own().offset_of(sample_number(2)) == 5min);
  CHECK(own().offset_of(sample_number(7)) == 40min);
  CHECK(own().offset_of(sample_number(24)) == 6h);
  CHECK(own().age_to_years == 75);
  CHECK(find_window(own(), "fast")->asked() == 10h);
  CHECK(find_window(own(), "plain-diet") == nullptr);
  CHECK(own().symptoms[1].id == "tiredness");
  CHECK(own().score_most == 4);
  REQUIRE(own().bounds.has_value());
  CHECK(own().bounds->on_time == 45s);
}

TEST_CASE("the laboratory's own test is for 18 to 75, both ages included") {
  const civil_date on = born(2027);
  CHECK_FALSE(age_fits(own(), plus_days(born(2009), std::chrono::days{1}), on)); // 18 tomorrow
  CHECK(age_fits(own(), born(2009), on));                                        // 18 today
  CHECK(age_fits(own(), plus_days(born(1951), std::chrono::days{1}), on));       // 76 tomorrow
  CHECK_FALSE(age_fits(own(), born(1951), on));                                  // 76 today
}

TEST_CASE("a start at 07:30 of the laboratory's own test means water only from 21:30, the 24th "
          "tube at 13:30, posted within 7 days") {
  const zone& z = zone_named("Europe/London");
  const plan made = make_plan(own(), local("2027-04-06 07:30", "Europe/London"), z).value();
  REQUIRE(made.windows.size() == 2);
  CHECK(made.windows[0].from == local("2027-04-05 21:30", "Europe/London"));
  CHECK(made.windows[1].from == local("2027-04-06 06:00", "Europe/London"));
  REQUIRE(made.samples.size() == 24);
  CHECK(made.samples[1].due == local("2027-04-06 07:35", "Europe/London"));
  CHECK(made.ends == local("2027-04-06 13:30", "Europe/London"));
  CHECK(made.post_on_or_before == parse_date("2027-04-13").value());
  CHECK(made.washouts[0].last_dose_on_or_before == parse_date("2027-02-23").value()); // 42 days
}

TEST_CASE("the laboratory's own test is run with its own bounds") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  const zone& z = zone_named("Europe/London");
  const instant start = utc("2027-04-06T06:30:00Z");
  REQUIRE(p.tell(plan_made{own_text(), "syrup", make_plan(own(), start, z).value()}));
  p.pass_the_gate();
  REQUIRE(p.tell(reported_symptoms{sample_number(1), {{"bloating", 4}, {"tiredness", 0}}, ""}));
  CHECK(p.refused(reported_symptoms{sample_number(1), {{"bloating", 5}}, ""}) == "no.score");
  // At its own level its signs are asked before tube 1.
  CHECK(p.refused(breath_begun{sample_number(1)}) == "no.signs-first");
  REQUIRE(p.tell(reported_red_flags{sample_number(1), {}}));
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  p.clock.pass(30s);
  REQUIRE(p.tell(drink_ended{}));
  // Tube 2 is due 5 min after tube 1; its last call is 200 s after that, not the profile's 450 s.
  p.clock.pass(5min + 200s - 30s);
  CHECK_FALSE(is_missed(p.current(), sample_number(2), p.clock.look()));
  p.clock.pass(1s);
  CHECK(is_missed(p.current(), sample_number(2), p.clock.look()));
}
