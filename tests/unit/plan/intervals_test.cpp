// Sets of instants as intervals: their one form, and their arithmetic.
#include "core/plan/intervals.hpp"
#include "core/plan/wall_hours.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

instant t(int ms) {
  return from_unix_ms(ms);
}
intervals<instant> set(std::vector<std::pair<int, int>> pairs) {
  std::vector<stretch<instant>> all;
  for (const auto& [from, until] : pairs)
    all.push_back({t(from), t(until)});
  return intervals<instant>(std::move(all));
}
std::string text(const intervals<instant>& s) {
  std::string out;
  for (const auto& one : s.all())
    out += std::to_string(to_unix_ms(one.from)) + "-" + std::to_string(to_unix_ms(one.until)) + " ";
  return out;
}

} // namespace

TEST_CASE("intervals are put in order, joined where they touch, and dropped where empty") {
  CHECK(text(set({{5, 9}, {1, 3}, {3, 4}, {8, 12}, {20, 20}, {30, 25}})) == "1-4 5-12 ");
  CHECK(set({}).empty());
}

TEST_CASE("two sets have in common what is in both") {
  CHECK(text(set({{0, 10}, {20, 30}}) & set({{5, 25}, {29, 40}})) == "5-10 20-25 29-30 ");
  CHECK((set({{0, 10}}) & set({{10, 20}})).empty());
}

TEST_CASE("what is taken out of a set is gone, the rest stays") {
  CHECK(text(set({{0, 10}, {20, 30}}) - set({{-5, 1}, {4, 6}, {9, 21}})) == "1-4 6-9 21-30 ");
  CHECK(text(set({{0, 10}}) - set({{20, 30}})) == "0-10 ");
  CHECK((set({{2, 3}}) - set({{0, 10}})).empty());
}

TEST_CASE("a test has room where both of its ends lie in one stretch") {
  CHECK(text(set({{0, 10}, {20, 23}}).with_room(2ms, 3ms)) == "2-7 ");
  // A test of no length fits into every point.
  CHECK(text(set({{0, 10}}).with_room(0ms, 0ms)) == "0-10 ");
}

TEST_CASE("the first point from a point on") {
  const auto s = set({{5, 10}, {20, 30}});
  CHECK(s.first_from(t(0)) == t(5));
  CHECK(s.first_from(t(7)) == t(7));
  CHECK(s.first_from(t(10)) == t(20));
  CHECK_FALSE(s.first_from(t(30)).has_value());
  CHECK(s.holds(t(5)));
  CHECK_FALSE(s.holds(t(10)));
}

TEST_CASE("what clocks show twice is there twice, and what they jump over is not there") {
  const zone& london = zone_named("Europe/London");
  const auto hour = [&](const char* date) {
    const std::chrono::local_days d{parse_date(date).value()};
    return when_shown(intervals<wall_time>({{d + 1h, d + 2h}}), london,
                      utc(std::string(date) + "T00:00:00Z") - 24h,
                      utc(std::string(date) + "T00:00:00Z") + 48h);
  };
  const auto twice = hour("2027-10-31");
  REQUIRE(twice.all().size() == 1); // the second 01:00 follows upon the first 01:59
  CHECK(twice.all()[0].from == utc("2027-10-31T00:00:00Z"));
  CHECK(twice.all()[0].until == utc("2027-10-31T02:00:00Z"));
  CHECK(hour("2027-03-28").empty());
}
