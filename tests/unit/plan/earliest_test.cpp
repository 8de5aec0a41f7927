// The earliest start that still works, and which rule holds it back.
// A person is never left to do arithmetic on dates, so this must be right to the day.
#include "core/plan/earliest.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

civil_date day(const char* text) {
  return parse_date(text).value();
}
const instant noon = utc("2027-04-06T11:00:00Z"); // 12:00 in London

} // namespace

TEST_CASE("without medicines the plain diet holds the start back by a day") {
  // Common practice: the day before is 24 hours.
  const auto first = find_earliest(lactulose(), {}, noon, zone_named("Europe/London"));
  CHECK(first.at == noon + 24h);
  CHECK(first.binding_rule == "plain-diet");
}

TEST_CASE("an antibiotic taken today holds the start back to the day 28 days later") {
  // NAC T1.1: 4 weeks. 6 April plus 28 days is 4 May, which begins at 23:00 UTC the day before.
  const zone& london = zone_named("Europe/London");
  const auto first = find_earliest(lactulose(), {{"antibiotics", day("2027-04-06")}}, noon, london);
  CHECK(first.at == utc("2027-05-03T23:00:00Z"));
  CHECK(first.binding_rule == "antibiotics");
  // The latest of several binds.
  const auto both = find_earliest(
      lactulose(), {{"laxatives", day("2027-04-30")}, {"antibiotics", day("2027-04-06")}}, noon,
      london);
  CHECK(both.at == utc("2027-05-06T23:00:00Z"));
  CHECK(both.binding_rule == "laxatives");
}

TEST_CASE("a dose long ago, or of a medicine no rule names, holds nothing back") {
  const zone& london = zone_named("Europe/London");
  CHECK(
      find_earliest(lactulose(), {{"antibiotics", day("2027-01-01")}}, noon, london).binding_rule ==
      "plain-diet");
  CHECK(find_earliest(lactulose(), {{"vitamins", day("2027-04-06")}}, noon, london).at ==
        noon + 24h);
}

TEST_CASE("a day that has no midnight begins at its first instant") {
  // Beirut, 2027-03-28: clocks jump from 00:00 to 01:00, at 22:00 UTC the day before.
  const zone& beirut = zone_named("Asia/Beirut");
  const auto first = find_earliest(lactulose(), {{"laxatives", day("2027-03-21")}},
                                   utc("2027-03-21T10:00:00Z"), beirut);
  CHECK(first.at == utc("2027-03-27T22:00:00Z"));
  CHECK(civil_text(beirut.civil_at(first.at)) == "2027-03-28 01:00");
}

TEST_CASE("a midnight that happens twice begins the day with its first") {
  // Havana, 2027-11-07: 01:00 daylight becomes 00:00 standard, so 00:00 happens twice.
  const zone& havana = zone_named("America/Havana");
  const auto first = find_earliest(lactulose(), {{"laxatives", day("2027-10-31")}},
                                   utc("2027-10-31T12:00:00Z"), havana);
  CHECK(first.at == utc("2027-11-07T04:00:00Z"));
}

TEST_CASE("the rules a start breaks are told with how much later it would have to be") {
  const zone& london = zone_named("Europe/London");
  const std::vector<last_dose> doses{{"antibiotics", day("2027-04-01")}};
  const auto broken = rules_broken(lactulose(), doses, noon + 13h, noon, london);
  REQUIRE(broken.size() == 2);
  CHECK(broken[0].rule == "plain-diet");
  CHECK(broken[0].later_by == 11h);
  CHECK(broken[1].rule == "antibiotics");
  // 29 April 00:00 in London is 28 April 23:00 UTC.
  CHECK(broken[1].later_by == utc("2027-04-28T23:00:00Z") - (noon + 13h));
  CHECK(rules_broken(lactulose(), doses, utc("2027-04-28T23:00:00Z"), noon, london).empty());
}
