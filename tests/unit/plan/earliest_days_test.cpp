// The earliest start in a person's days: at home, awake, before the kit expires, and on the days
// whose clocks do something.
#include "core/plan/earliest.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

civil_date day(const char* text) {
  return parse_date(text).value();
}
const instant noon = utc("2027-04-06T11:00:00Z"); // Tuesday, 12:00 in London
const std::set<int> every_day{1, 2, 3, 4, 5, 6, 7};

day_hours hours(int from, int to) {
  return {std::chrono::hours{from}, std::chrono::hours{to}};
}
circumstances took_laxatives(const char* on) {
  circumstances c;
  c.washouts = {{"laxatives", washout_answer::last_on, day(on), false}};
  return c;
}
std::string shown(const earliest_start& first, const zone& z) {
  return first.at ? civil_text(z.civil_at(*first.at)) : "none";
}
std::string in_london(const circumstances& c) {
  const zone& london = zone_named("Europe/London");
  return shown(find_earliest(lactulose(), c, noon, london), london);
}
std::string binding(const circumstances& c) {
  return find_earliest(lactulose(), c, noon, zone_named("Europe/London")).binding_rule;
}

} // namespace

TEST_CASE("the whole test fits into the hours at home, last sample and all") {
  circumstances c;
  c.home = {{{3}, hours(6, 13)}}; // Wednesdays; noon is Tuesday's, so from noon on Wednesday
  // The plain diet allows Wednesday 12:00, but the tenth sample would be at 14:15.
  CHECK(in_london(c) == "2027-04-14 06:00");
  CHECK(binding(c) == "home");
  c.home = {{{3}, {6h, 14h + 16min}}};
  CHECK(in_london(c) == "2027-04-07 12:00");
  CHECK(binding(c) == "plain-diet");
  // At 14:15 the person has to leave: the tenth sample is due in that minute, so not on this day.
  c.home = {{{3}, {6h, 14h + 15min}}};
  CHECK(in_london(c) == "2027-04-14 06:00");
}

TEST_CASE("hours at home that touch at midnight are one stretch") {
  circumstances c;
  c.home = {{{3}, hours(22, 24)}, {{4}, hours(0, 1)}};
  CHECK(in_london(c) == "2027-04-07 22:00"); // 22:00 to 00:15
  c.home = {{{3}, hours(22, 1)}};            // the same, told in one
  CHECK(in_london(c) == "2027-04-07 22:00");
  c.home = {{{3}, hours(22, 24)}};
  CHECK(in_london(c) == "none");
  CHECK(binding(c) == "home");
}

TEST_CASE("a day away is left out, and nothing runs over into it") {
  circumstances c;
  c.away = {day("2027-04-07"), day("2027-04-08")};
  CHECK(in_london(c) == "2027-04-09 00:00");
  CHECK(binding(c) == "home");
  c.away = {day("2027-04-08")};
  c.home = {{every_day, {23h, 2h}}};
  CHECK(in_london(c) == "2027-04-09 23:00");
}

TEST_CASE("awake is asked from an hour before the start to the last sample") {
  // awake, common practice: 60 minutes.
  circumstances c = took_laxatives("2027-04-05"); // free from 12 April 00:00
  c.awake = hours(6, 23);
  CHECK(in_london(c) == "2027-04-12 07:00");
  CHECK(binding(c) == "awake-hours");
  protocol without = lactulose();
  without.windows.erase(without.windows.begin() + 3);
  REQUIRE(find_window(without, "awake") == nullptr);
  const zone& london = zone_named("Europe/London");
  CHECK(shown(find_earliest(without, c, noon, london), london) == "2027-04-12 06:00");
  // Somebody who works at night is awake over midnight.
  c.awake = hours(16, 8);
  CHECK(in_london(c) == "2027-04-12 00:00");
  CHECK(binding(c) == "laxatives");
}

TEST_CASE("of home and waking hours the one binds without which it would be earlier") {
  circumstances c = took_laxatives("2027-04-05");
  c.awake = hours(6, 23);
  c.home = {{every_day, hours(6, 13)}};
  CHECK(in_london(c) == "2027-04-12 07:00");
  CHECK(binding(c) == "awake-hours");
  c.home = {{every_day, hours(8, 13)}};
  CHECK(in_london(c) == "2027-04-12 08:00");
  CHECK(binding(c) == "home");
}

TEST_CASE("the whole test is over on the kit's last day, or there is none") {
  circumstances c = took_laxatives("2027-04-05");
  c.kit_expires = day("2027-04-12");
  CHECK(in_london(c) == "2027-04-12 00:00");
  c.kit_expires = day("2027-04-11");
  CHECK(in_london(c) == "none");
  CHECK(binding(c) == "kit-expiry");
  // 12 April 21:45 would end at midnight, which is the next day's.
  c.kit_expires = day("2027-04-12");
  c.home = {{{1}, {21h + 45min, 2h}}};
  CHECK(in_london(c) == "none");
  CHECK(binding(c) == "kit-expiry");
  c.home = {{{1}, {21h + 44min, 2h}}};
  CHECK(in_london(c) == "2027-04-12 21:44");
}

TEST_CASE("where nothing works, the rule that leaves none is named") {
  circumstances c;
  c.home = {{every_day, hours(6, 8)}};
  CHECK(in_london(c) == "none");
  CHECK(binding(c) == "home");
  c.home = {{every_day, hours(6, 11)}};
  c.awake = hours(9, 12);
  CHECK(in_london(c) == "none");
  CHECK(binding(c) == "awake-hours");
}

TEST_CASE("a start away from home is told when the next one at home would be") {
  const zone& london = zone_named("Europe/London");
  circumstances c;
  c.home = {{{3}, hours(6, 13)}};
  c.awake = hours(6, 23);
  c.kit_expires = day("2027-04-14");
  const auto broken =
      rules_broken(lactulose(), c, local("2027-04-15 05:00", "Europe/London"), noon, london);
  REQUIRE(broken.size() == 3);
  CHECK(broken[0].rule == "home");
  CHECK(broken[0].later_by == 6 * 24h + 1h);
  CHECK(broken[1].rule == "awake-hours");
  CHECK(broken[1].later_by == 2h);
  CHECK(broken[2].rule == "kit-expiry");
  CHECK_FALSE(broken[2].later_by.has_value());
}

TEST_CASE("a day that has no midnight begins at its first instant") {
  // Beirut, 2027-03-28: clocks jump from 00:00 to 01:00, at 22:00 UTC the day before.
  const zone& beirut = zone_named("Asia/Beirut");
  const instant now = utc("2027-03-21T10:00:00Z");
  circumstances c = took_laxatives("2027-03-21");
  const auto first = find_earliest(lactulose(), c, now, beirut);
  CHECK(first.at == utc("2027-03-27T22:00:00Z"));
  CHECK(shown(first, beirut) == "2027-03-28 01:00");
  // Home until midnight and from midnight is one stretch over the jump: from 23:00 a test of 2 h
  // 15 goes on to 02:15 by the clock.
  c.washouts.clear();
  c.home = {{{6}, hours(23, 24)}, {{7}, {0h, 2h + 16min}}};
  CHECK(shown(find_earliest(lactulose(), c, now, beirut), beirut) == "2027-03-27 23:00");
  c.home[1].hours.to = 2h + 15min;
  CHECK(shown(find_earliest(lactulose(), c, now, beirut), beirut) == "2027-04-03 23:00");
}

TEST_CASE("a midnight that happens twice begins the day with its first") {
  // Havana, 2027-11-07: 01:00 daylight becomes 00:00 standard, so 00:00 happens twice.
  const zone& havana = zone_named("America/Havana");
  const auto first =
      find_earliest(lactulose(), took_laxatives("2027-10-31"), utc("2027-10-31T12:00:00Z"), havana);
  CHECK(first.at == utc("2027-11-07T04:00:00Z"));
}

TEST_CASE("a day that is taken back for an hour begins when it comes to stay") {
  // St John's, 2010-11-07: at 00:01 clocks went back to 23:01 of the day before.
  const zone& st_johns = zone_named("America/St_Johns");
  const auto first = find_earliest(lactulose(), took_laxatives("2010-10-31"),
                                   utc("2010-10-31T12:00:00Z"), st_johns);
  CHECK(first.at == utc("2010-11-07T03:30:00Z"));
  CHECK(shown(first, st_johns) == "2010-11-07 00:00");
}

TEST_CASE("a day that the calendar skipped is free from the end of the jump, and holds no home") {
  // Apia had no 2011-12-30: seven days after the 23rd is the 30th, which ended as it began.
  const zone& apia = zone_named("Pacific/Apia");
  const instant now = utc("2011-12-24T00:00:00Z");
  circumstances c = took_laxatives("2011-12-23");
  const auto first = find_earliest(lactulose(), c, now, apia);
  CHECK(first.at == utc("2011-12-30T10:00:00Z"));
  CHECK(shown(first, apia) == "2011-12-31 00:00");
  c.home = {{{5}, hours(6, 13)}}; // Fridays: the 30th would have been one
  CHECK(shown(find_earliest(lactulose(), c, now, apia), apia) == "2012-01-06 06:00");
}

TEST_CASE("two hours at home are three in the night when clocks go back, and one when they go on") {
  const zone& london = zone_named("Europe/London");
  circumstances c;
  c.home = {{{7}, {0h, 2h}}}; // Sunday; the test takes 2 h 15
  // 2027-10-31 is the Sunday on which 01:00 to 02:00 happens twice.
  const auto first = find_earliest(lactulose(), c, noon, london);
  CHECK(shown(first, london) == "2027-10-31 00:00");
  CHECK(first.at == utc("2027-10-30T23:00:00Z"));
  // Lord Howe goes back by half an hour on 2027-04-04: 01:30 to 02:00 happens twice.
  const zone& lord_howe = zone_named("Australia/Lord_Howe");
  const auto half = find_earliest(lactulose(), c, utc("2027-03-01T00:00:00Z"), lord_howe);
  CHECK(shown(half, lord_howe) == "2027-04-04 00:00");
  // Troll goes on by two hours on 2027-03-28, and back on 2027-10-31.
  c.home = {{{7}, {0h, 4h}}};
  const zone& troll = zone_named("Antarctica/Troll");
  const auto after = find_earliest(lactulose(), c, utc("2027-03-26T12:00:00Z"), troll);
  CHECK(shown(after, troll) == "2027-04-04 00:00");
}
