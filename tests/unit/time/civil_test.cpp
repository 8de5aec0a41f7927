// Civil dates and times, and RFC 3339.
// What people type and what files hold is read digit by digit; nothing lenient.
#include "core/time/civil.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

TEST_CASE("a date is read digit by digit and must exist") {
  CHECK(date_text(parse_date("2027-03-28").value()) == "2027-03-28");
  CHECK(date_text(parse_date("2028-02-29").value()) == "2028-02-29"); // a leap year
  CHECK(date_text(parse_date("2000-02-29").value()) == "2000-02-29"); // every 400 years
  for (const char* text : {"2027-02-29", "1900-02-29", "2027-13-01", "2027-00-01", "2027-04-31",
                           "2027-01-00", "0000-01-01", "9999-01-01", "2027-1-01", "27-01-01", "",
                           "2027/01/01", " 2027-01-01", "2027-01-01 ", "20270101", "2027-01-0x"})
    CHECK_FALSE(parse_date(text).has_value());
  for (const char* text : {"0000-01-01", "9999-01-01"})
    CHECK(parse_date(text).error().expected == "a year from 0001 to 9998");
  CHECK(parse_date("27-01-01").error().expected == "a date such as 2027-03-28");
}

TEST_CASE("a time of day is read with a space or a T, to the minute, up to 23:59") {
  CHECK(civil_text(parse_civil("2027-03-28 09:00").value()) == "2027-03-28 09:00");
  CHECK(civil_text(parse_civil("2027-03-28T23:59").value()) == "2027-03-28 23:59");
  for (const char* text : {"2027-03-28 24:00", "2027-03-28 09:60", "2027-03-28 9:00", "09:00",
                           "2027-03-28 09:00:00", "2027-03-28_09:00", "2027-02-30 09:00"})
    CHECK_FALSE(parse_civil(text).has_value());
  CHECK(parse_civil("2027-03-28 24:00").error().expected == "a time of day from 00:00 to 23:59");
}

TEST_CASE("calendar days cross months, leap days and years") {
  const auto from = [](const char* text, int n) {
    return date_text(plus_days(parse_date(text).value(), std::chrono::days{n}));
  };
  CHECK(from("2027-04-06", -28) == "2027-03-09");
  CHECK(from("2028-02-28", 1) == "2028-02-29");
  CHECK(from("2027-12-31", 1) == "2028-01-01");
  CHECK(weekday_of(parse_date("2027-04-06").value()) == std::chrono::Tuesday);
}

TEST_CASE("instants are written in UTC with milliseconds only where there are any") {
  CHECK(rfc3339_utc(from_unix_ms(0)) == "1970-01-01T00:00:00Z");
  CHECK(rfc3339_utc(from_unix_ms(1)) == "1970-01-01T00:00:00.001Z");
  CHECK(rfc3339_utc(from_unix_ms(-1)) == "1969-12-31T23:59:59.999Z");
  // RFC 3339, section 5.8, first example: 1985-04-12T23:20:50.52Z.
  CHECK(to_unix_ms(utc("1985-04-12T23:20:50.520Z")) == 482196050520);
  CHECK(rfc3339_utc(from_unix_ms(482196050520)) == "1985-04-12T23:20:50.520Z");
}

TEST_CASE("only the form that is written is read back") {
  for (const char* text :
       {"2027-03-28T08:00:00", "2027-03-28T08:00:00+00:00", "2027-03-28 08:00:00Z",
        "2027-03-28T08:00:60Z", "2027-03-28T24:00:00Z", "2027-03-28T08:00:00.1Z",
        "2027-03-28T08:00:00,123Z", "2027-03-28T08:00:00.12xZ", "2027-03-28t08:00:00z",
        "2027-02-30T08:00:00Z", "", "Z", "2027-03-28T08:00:0\xC2Z"})
    CHECK_FALSE(parse_rfc3339_utc(text).has_value());
}

TEST_CASE("an instant is shown with the zone's offset at that instant") {
  // tzdata: Europe/London goes to +01:00 at 2027-03-28T01:00Z and back at 2027-10-31T01:00Z.
  const zone& london = zone_named("Europe/London");
  CHECK(rfc3339(utc("2027-03-28T00:59:59Z"), london).value() == "2027-03-28T00:59:59+00:00");
  CHECK(rfc3339(utc("2027-03-28T01:00:00Z"), london).value() == "2027-03-28T02:00:00+01:00");
  CHECK(rfc3339(utc("2027-06-01T12:00:00Z"), zone_named("America/St_Johns")).value() ==
        "2027-06-01T09:30:00-02:30");
  CHECK(rfc3339(utc("2027-06-01T12:00:00Z"), zone_named("Asia/Kathmandu")).value() ==
        "2027-06-01T17:45:00+05:45");
}

TEST_CASE("an offset with seconds is refused, since RFC 3339 cannot write it") {
  // RFC 3339, section 5.6: time-numoffset is hours and minutes.
  const auto no =
      rfc3339(utc("2027-06-01T12:00:00Z"), zone::fixed("Old", std::chrono::seconds{75}));
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::out_of_range);
  CHECK(no.error().found == "an offset of 75 seconds");
}
