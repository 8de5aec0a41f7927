// The strict reader of what a person told for a plan.
// A typing slip in such a file would be a wrong date, so everything unknown is refused by its
// place.
#include "core/plan/circumstances_reader.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

std::string file(const std::string& parts) {
  const std::string head = "{\"format\": \"quarterbreath-told\", \"version\": 1";
  return head + (parts.empty() ? "" : ",\n") + parts + "}";
}
result<circumstances> read(const std::string& parts) {
  return read_circumstances(file(parts), zone_named("Europe/London"));
}
std::string no(const std::string& parts) {
  const auto told = read(parts);
  return told ? "accepted" : sentence(told.error());
}

} // namespace

TEST_CASE("a told file may leave out every part") {
  const auto told = read("");
  REQUIRE(told.has_value());
  CHECK(told->washouts.empty());
  CHECK(told->moments.empty());
  CHECK(told->home.empty());
  CHECK(told->away.empty());
  CHECK_FALSE(told->awake.has_value());
  CHECK_FALSE(told->kit_expires.has_value());
}

TEST_CASE("the shipped example is read whole") {
  const auto told = read_circumstances(source_file("demo-data/told/antibiotic-and-shifts.json"),
                                       zone_named("Europe/London"));
  REQUIRE(told.has_value());
  REQUIRE(told->washouts.size() == 5);
  CHECK(told->washouts[0].rule == "antibiotics");
  CHECK(told->washouts[0].answer == washout_answer::last_on);
  CHECK(date_text(*told->washouts[0].on) == "2027-03-04");
  CHECK(told->washouts[1].answer == washout_answer::never);
  CHECK(told->washouts[2].answer == washout_answer::cannot_stop);
  CHECK(told->washouts[2].agreed);
  CHECK(told->washouts[3].answer == washout_answer::unknown);
  CHECK(told->washouts[4].answer == washout_answer::until);
  CHECK_FALSE(told->washouts[4].agreed);
  REQUIRE(told->moments.size() == 2);
  CHECK(told->moments[0].last == utc("2027-03-15T19:30:00Z"));
  CHECK(told->moments[1].last == utc("2027-03-15T12:00:00Z"));
  REQUIRE(told->home.size() == 2);
  CHECK(told->home[0].weekdays == std::set<int>{1, 2, 3});
  CHECK(told->home[0].hours.from == 6h);
  CHECK(told->home[0].hours.to == 13h);
  CHECK(told->away.size() == 2);
  CHECK(told->awake->to == 24h);
  CHECK(date_text(*told->kit_expires) == "2027-09-30");
}

TEST_CASE("a moment is a civil time in the zone or RFC 3339, and seconds count as a minute begun") {
  const zone& london = zone_named("Europe/London");
  CHECK(read_moment("2027-04-05 19:30", london) == utc("2027-04-05T18:30:00Z"));
  CHECK(read_moment("2027-04-05T19:30", london) == utc("2027-04-05T18:30:00Z"));
  CHECK(read_moment("2027-04-05T19:30:00Z", london) == utc("2027-04-05T19:30:00Z"));
  CHECK(read_moment("2027-04-05T19:30:00-02:30", london) == utc("2027-04-05T22:00:00Z"));
  CHECK(read_moment("2027-04-05T19:30:00+05:45", london) == utc("2027-04-05T13:45:00Z"));
  CHECK(read_moment("2027-04-05T19:30:01+00:00", london) == utc("2027-04-05T19:31:00Z"));
  for (const char* text : {"", "yesterday", "2027-04-05", "19:30", "2027-04-05 19:30 ",
                           "2027-02-30 19:30", "2027-04-05 24:00", "2027-04-05T19:30:00",
                           "2027-04-05T19:30:00+24:00", "2027-04-05T19:30:00*01:00", "+01:00"})
    CHECK_FALSE(read_moment(text, london).has_value());
}

TEST_CASE("a moment that clocks jump over or show twice is refused with what could be meant") {
  const zone& london = zone_named("Europe/London");
  CHECK(sentence(read_moment("2027-10-31 01:30", london).error()) ==
        "found 2027-10-31 01:30, which happens twice in Europe/London because clocks go back, "
        "expected one of 2027-10-31T01:30:00+01:00 and 2027-10-31T01:30:00+00:00");
  CHECK(read_moment("2027-10-31T01:30:00+00:00", london) == utc("2027-10-31T01:30:00Z"));
  CHECK(sentence(read_moment("2027-03-28 01:30", london).error()) ==
        "found 2027-03-28 01:30, which does not exist in Europe/London because clocks jump over "
        "it, expected 2027-03-28 00:59 or before, or 2027-03-28 02:00 or after");
}

TEST_CASE("what is wrong in a told file is said with line and field") {
  CHECK(no("\"hone\": []").find("line 2") != std::string::npos);
  CHECK(no("\"washouts\": {\n\"antibiotics\": {\"answer\": \"last-on\"}}") ==
        "line 3: washouts.antibiotics.on: found no day, expected the day of \"last-on\"");
  CHECK(no("\"washouts\": {\"antibiotics\": {\"answer\": \"sometimes\"}}") ==
        "line 2: washouts.antibiotics.answer: found \"sometimes\", expected one of: never, "
        "last-on, until, cannot-stop, unknown");
  CHECK(no("\"moments\": {\"fast\": \"half past seven\"}") ==
        "line 2: moments.fast: found \"half past seven\", expected a time such as "
        "\"2027-04-05 19:30\" or \"2027-04-05T19:30:00+01:00\"");
  CHECK(no("\"awake\": {\"from\": \"06:00\", \"to\": \"25:00\"}") ==
        "line 2: awake.to: found \"25:00\", expected a time from \"00:00\" to \"24:00\"");
}

TEST_CASE("what a told file may not hold is refused") {
  for (const char* parts :
       {"\"washouts\": {\"antibiotics\": {\"answer\": \"never\", \"on\": \"2027-03-01\"}}",
        "\"washouts\": {\"antibiotics\": {\"answer\": \"until\", \"on\": \"2027-02-29\"}}",
        "\"washouts\": {\"antibiotics\": {\"answer\": \"never\", \"agreed\": \"yes\"}}",
        "\"washouts\": {\"antibiotics\": {\"answer\": \"never\", \"who\": \"me\"}}",
        "\"washouts\": {\"antibiotics\": \"never\"}",
        "\"washouts\": {\"Antibiotics\": {}}",
        "\"washouts\": []",
        "\"moments\": {\"fast\": 1930}",
        "\"home\": []",
        "\"home\": [{\"weekdays\": [], \"from\": \"06:00\", \"to\": \"13:00\"}]",
        "\"home\": [{\"weekdays\": [1, 1], \"from\": \"06:00\", \"to\": \"13:00\"}]",
        "\"home\": [{\"weekdays\": [8], \"from\": \"06:00\", \"to\": \"13:00\"}]",
        "\"home\": [{\"weekdays\": [1], \"from\": \"06:00\", \"to\": \"06:00\"}]",
        "\"home\": [{\"weekdays\": [1], \"from\": \"24:00\", \"to\": \"06:00\"}]",
        "\"home\": [{\"weekdays\": [1], \"from\": \"6:00\", \"to\": \"13:00\"}]",
        "\"away\": [\"tomorrow\"]",
        "\"away\": \"2027-04-12\"",
        "\"kit_expires\": \"2027-13-01\"",
        "\"awake\": {\"from\": \"06:00\"}",
        "\"answers\": {\"ask-diabetes\": \"maybe\"}",
        "\"answers\": {\"Diabetes\": \"no\"}",
        "\"birth_date\": \"1957-02-30\""}) {
    INFO(parts);
    CHECK(no(parts) != "accepted");
  }
}
