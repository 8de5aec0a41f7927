// The rule line of a zone file: each of its forms, and what does not follow the grammar.
// POSIX.1-2017, section 8.3 "TZ", and RFC 8536, section 3.3.1.
#include "core/time/posix_rule.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// The offset in minutes by the rule at a UTC time.
long minutes_by(const char* rule, const char* at) {
  const auto t = std::chrono::floor<std::chrono::seconds>(utc(at));
  return static_cast<long>(parse_posix_rule(rule).value().offset_at(t).count() / 60);
}

} // namespace

TEST_CASE("a rule with months, weeks and weekdays: London") {
  const char* london = "GMT0BST,M3.5.0/1,M10.5.0";
  CHECK(minutes_by(london, "2045-03-26T00:59:59Z") == 0); // the last Sunday of March 2045
  CHECK(minutes_by(london, "2045-03-26T01:00:00Z") == 60);
  CHECK(minutes_by(london, "2045-10-29T00:59:59Z") == 60);
  CHECK(minutes_by(london, "2045-10-29T01:00:00Z") == 0);
}

TEST_CASE("south of the equator summer time spans the new year") {
  const char* sydney = "AEST-10AEDT,M10.1.0,M4.1.0/3";
  CHECK(minutes_by(sydney, "2045-01-01T00:00:00Z") == 660);
  CHECK(minutes_by(sydney, "2045-07-01T00:00:00Z") == 600);
  CHECK(minutes_by(sydney, "2045-12-31T23:59:59Z") == 660);
}

TEST_CASE("a J day never counts 29 February") {
  // POSIX: J60 is 1 March in every year.
  const char* rule = "STD0DST,J60/0,J300/0";
  CHECK(minutes_by(rule, "2027-02-28T23:59:59Z") == 0);
  CHECK(minutes_by(rule, "2027-03-01T00:00:00Z") == 60);
  CHECK(minutes_by(rule, "2028-02-29T23:59:59Z") == 0);
  CHECK(minutes_by(rule, "2028-03-01T00:00:00Z") == 60);
}

TEST_CASE("a day without J counts from 0 and counts 29 February") {
  // POSIX: day 59 is 1 March in a common year and 29 February in a leap year.
  const char* rule = "STD0DST,59/0,300/0";
  CHECK(minutes_by(rule, "2027-02-28T23:59:59Z") == 0);
  CHECK(minutes_by(rule, "2027-03-01T00:00:00Z") == 60);
  CHECK(minutes_by(rule, "2028-02-28T23:59:59Z") == 0);
  CHECK(minutes_by(rule, "2028-02-29T00:00:00Z") == 60);
}

TEST_CASE("times of day may be negative or beyond a day") {
  // RFC 8536, 3.3.1: hours from -167 to 167. Nuuk: the Saturday before the last Sunday, 22:00.
  const char* nuuk = "<-02>2<-01>,M3.5.0/-1,M10.5.0/0";
  CHECK(minutes_by(nuuk, "2045-03-26T00:59:59Z") == -120);
  CHECK(minutes_by(nuuk, "2045-03-26T01:00:00Z") == -60);
  // Gaza, in tzdata's words: M3.4.4/50 is Saturday 02:00 after the fourth Thursday of March.
  const char* beyond = "EET-2EEST,M3.4.4/50,M10.4.4/50";
  CHECK(minutes_by(beyond, "2045-03-24T23:59:59Z") == 120);
  CHECK(minutes_by(beyond, "2045-03-25T00:00:00Z") == 180);
}

TEST_CASE("summer time may last all year, or be a negative winter time") {
  // RFC 8536, 3.3.1: all-year daylight saving starts January 1 at 00:00 and ends December 31 at
  // 24:00 plus the difference.
  const char* always = "EST5EDT,0/0,J365/25";
  for (const char* at : {"2045-01-01T05:00:00Z", "2045-07-01T00:00:00Z", "2045-12-31T23:59:59Z",
                         "2046-01-01T04:59:59Z"})
    CHECK(minutes_by(always, at) == -240);
  // Dublin's standard time is its summer time.
  const char* dublin = "IST-1GMT0,M10.5.0,M3.5.0/1";
  CHECK(minutes_by(dublin, "2045-07-01T00:00:00Z") == 60);
  CHECK(minutes_by(dublin, "2045-01-01T00:00:00Z") == 0);
}

TEST_CASE("offsets may have minutes, signs and names in angle brackets") {
  CHECK(minutes_by("<+0545>-5:45", "2045-01-01T00:00:00Z") == 345);
  CHECK(minutes_by("NST3:30NDT,M3.2.0,M11.1.0", "2045-01-01T00:00:00Z") == -210);
  CHECK(minutes_by("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", "2045-01-01T00:00:00Z") == 660);
  CHECK(minutes_by("UTC+0", "2045-01-01T00:00:00Z") == 0);
}

TEST_CASE("what does not follow the grammar is no rule") {
  for (const char* line :
       {"", "GMT", "GM0", "GMT0BST", "GMT0BST,M3.5.0/1", "<+01-1", "0GMT",
        "GMT0BST,M13.5.0,M10.5.0", "GMT0BST,M0.5.0,M10.5.0", "GMT0BST,M3.6.0,M10.5.0",
        "GMT0BST,M3.0.0,M10.5.0", "GMT0BST,M3.5.7,M10.5.0", "GMT0BST,J0,J10", "GMT0BST,J366,J10",
        "GMT0BST,366,10", "GMT0BST,M3.5.0,M10.5.0,", "GMT0 BST,M3.5.0,M10.5.0",
        "GMT0BST,M3.5,M10.5.0", "GMT:30"}) {
    INFO(line);
    CHECK_FALSE(parse_posix_rule(line).has_value());
  }
}
