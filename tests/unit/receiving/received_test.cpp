// Times of day as people write them, and which of several entries counts.
#include "core/receiving/received.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

gas_reading reading_of(int sample, std::int64_t entry, std::int64_t h2) {
  gas_reading r;
  r.sample = sample;
  r.mark.entry = entry;
  r.h2_ppm = exact(h2);
  return r;
}

override_of word_on(const char* rule, std::optional<int> sample, bool withdrawn = false) {
  override_of o;
  o.rule = rule;
  o.sample = sample;
  o.withdrawn = withdrawn;
  return o;
}

} // namespace

TEST_CASE("a time of day is read as hands write it, and nothing else is one") {
  for (const char* text : {"07:30", "7:30", "07.30", "7.30", "0730"}) {
    REQUIRE(read_day_minute(text));
    CHECK(day_minute_text(*read_day_minute(text)) == "07:30");
  }
  for (const char* text : {"", "24:00", "07:60", "7:3", "730", "07:300", "+7:30", "7:30 ", "a7:30"})
    CHECK_FALSE(read_day_minute(text));
}

TEST_CASE("the first reading of a tube counts until somebody chooses another") {
  received_kit kit;
  kit.readings = {reading_of(2, 1, 10), reading_of(1, 2, 5), reading_of(2, 3, 14)};
  auto counted = counted_readings(kit);
  REQUIRE(counted.size() == 2);
  CHECK(counted[0].reading.sample == 1);
  CHECK_FALSE(counted[0].several);
  CHECK(counted[1].reading.mark.entry == 1);
  CHECK(counted[1].several);
  CHECK_FALSE(counted[1].chosen);

  kit.choices = {{2, 3, "R. Ashdown", "the first leaked", {}}};
  counted = counted_readings(kit);
  CHECK(counted[1].reading.mark.entry == 3);
  CHECK(counted[1].several);
  CHECK(counted[1].chosen);

  kit.choices.push_back({2, 99, "R. Ashdown", "a slip", {}}); // no such reading: nothing changes
  CHECK(counted_readings(kit)[1].reading.mark.entry == 3);
}

TEST_CASE("the last word on a rule and a tube stands, and one taken back does not") {
  received_kit kit;
  kit.overrides = {word_on("lid-bad", 4), word_on("lid-bad", 5), word_on("lid-bad", 4, true),
                   word_on("lid-bad", std::nullopt)};
  const auto standing = standing_overrides(kit);
  REQUIRE(standing.size() == 2);
  CHECK(standing[0].sample == 5);
  CHECK_FALSE(standing[1].sample);
}
