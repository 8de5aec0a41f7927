// How a laboratory and help in danger are reached: hours in words, and what a profile of version 2
// may not say about them.
#include "core/protocol/country.hpp"
#include "core/protocol/profile.hpp"
#include "tests/unit/protocol/figures.hpp"

#include <fstream>

using namespace qb;
using namespace qb::test;

namespace {

std::string with(const std::string& what, const std::string& by) {
  std::string text = source_file("assets/laboratories/fenwick-vale.json");
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), by);
}

// What `profile check` says after one change; "" if it is read.
std::string said(const std::string& what, const std::string& by) {
  const auto read = read_profile(with(what, by));
  return read ? "" : sentence(read.error());
}

std::string said_of_number(const std::string& number) {
  return said("\"emergency\": \"112\"", "\"emergency\": \"" + number + "\"");
}

// The first span of hours as it stands, and another file's spans in its place.
std::string said_of_hours(const std::string& spans) {
  const std::string text = source_file("assets/laboratories/fenwick-vale.json");
  const auto from = text.find("\"opening_hours\": [");
  const auto until = text.find("\"outside_hours\"");
  REQUIRE(from < until);
  return said(text.substr(from, until - from), "\"opening_hours\": [" + spans + "], ");
}

std::string span(const std::string& days, const std::string& from, const std::string& until) {
  return "{\"days\": [" + days + "], \"from\": \"" + from + "\", \"until\": \"" + until + "\"}";
}

opening_hours hours(std::set<int> days, std::chrono::minutes from, std::chrono::minutes until) {
  return {std::move(days), from, until};
}

} // namespace

TEST_CASE("opening hours are said in words: days in a row, single days, two spans of one day") {
  CHECK(hours_in_words({}).empty());
  CHECK(hours_in_words({hours({1, 2, 3, 4, 5}, 9h, 17h)}) == "Monday to Friday, 9:00 to 17:00");
  CHECK(hours_in_words({hours({6, 7}, 10h + 5min, 24h)}) == "Saturday and Sunday, 10:05 to 24:00");
  CHECK(hours_in_words({hours({1, 2, 3, 5}, 0h, 9h + 30min)}) ==
        "Monday to Wednesday and Friday, 0:00 to 9:30");
  CHECK(hours_in_words({hours({1, 3, 5}, 9h, 12h)}) ==
        "Monday, Wednesday and Friday, 9:00 to 12:00");
  CHECK(hours_in_words({hours({1, 2}, 8h, 12h), hours({1, 2}, 13h, 17h), hours({6}, 9h, 12h)}) ==
        "Monday and Tuesday, 8:00 to 12:00 and 13:00 to 17:00; Saturday, 9:00 to 12:00");
}

TEST_CASE("an emergency number can be dialled, and prose is none") {
  for (const char* good : {"112", "999", "15", "+44 1632 960 999", "01632 960999"})
    CHECK(said_of_number(good) == "");
  for (const char* bad : {"your local emergency number", "1", "1 1 2 ", " 112", "11  2", "112/999",
                          "+", "1234567890123456", "112a", "(112)"}) {
    INFO(bad);
    CHECK(contains(said_of_number(bad), "emergency: found \""));
    CHECK(contains(said_of_number(bad), "expected a number to dial: 2 to 15 digits"));
  }
}

TEST_CASE("the emergency number's country is one of ISO 3166-1") {
  CHECK(said("\"GB\"", "\"FR\"") == "");
  for (const char* bad : {"UK", "gb", "GBR", "G", "  ", "ZZ"}) {
    INFO(bad);
    CHECK(contains(said("\"GB\"", "\"" + std::string(bad) + "\""),
                   "emergency_country: found \"" + std::string(bad) +
                       "\", expected two letters of ISO 3166-1"));
  }
}

TEST_CASE("the countries are those that the system's zone files list") {
  std::ifstream file("/usr/share/zoneinfo/iso3166.tab");
  REQUIRE(file.good());
  std::size_t listed = 0;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    INFO(line);
    CHECK(is_country(line.substr(0, 2)));
    ++listed;
  }
  CHECK(listed > 200);
  std::size_t known = 0;
  for (char a = 'A'; a <= 'Z'; ++a) {
    for (char b = 'A'; b <= 'Z'; ++b)
      known += is_country(std::string{a, b}) ? 1 : 0;
  }
  CHECK(known == listed);
  CHECK_FALSE(is_country("D "));
  CHECK_FALSE(is_country(" A"));
}

TEST_CASE("opening hours end after they begin, do not overlap, and are times of a day") {
  CHECK(said_of_hours(span("1,2", "08:00", "12:00") + "," + span("1,2", "12:00", "24:00")) == "");
  CHECK(said_of_hours(span("1", "00:00", "24:00") + "," + span("2", "00:00", "24:00")) == "");
  CHECK(contains(said_of_hours(span("1,2", "08:00", "12:00") + "," + span("2,3", "11:59", "13:00")),
                 "opening_hours[1].from: found hours that are open already"));
  CHECK(contains(said_of_hours(span("1", "12:00", "12:00")),
                 "opening_hours[0].until: found a time that is not after from"));
  CHECK(contains(said_of_hours(span("1,1", "08:00", "12:00")),
                 "opening_hours[0].days: found the same day twice"));
  CHECK(contains(said_of_hours(span("8", "08:00", "12:00")), "a whole number from 1 to 7"));
  for (const char* bad : {"8:00", "24:01", "07:60", "25:00", "ab:cd", "08.00"}) {
    INFO(bad);
    CHECK(contains(said_of_hours(span("1", bad, "24:00")),
                   "opening_hours[0].from: found \"" + std::string(bad) +
                       "\", expected a time from 00:00 to 24:00"));
  }
  CHECK(contains(said_of_hours(""), "found 0 items, expected a list of 1 to 14 objects"));
}

TEST_CASE("a profile of version 2 says whether it is for trying, and what to do outside hours") {
  CHECK(contains(said("\"for_trying\": true,", ""), "for_trying: found nothing"));
  CHECK(contains(said("\"for_trying\": true", "\"for_trying\": \"yes\""), "for_trying"));
  CHECK(contains(said("\"outside_hours\"", "\"other_hours\""), "outside_hours: found nothing"));
  CHECK(contains(said("\"outside_hours\": \"", "\"outside_hours\": \"" + std::string(240, 'x')),
                 "expected 1 to 240 characters"));
  CHECK(contains(said("\"opening_hours\"", "\"telephone_hours\": \"always\", \"opening_hours\""),
                 "telephone_hours: found a field that is not known here"));
}
