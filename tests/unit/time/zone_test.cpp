// Time zones: gaps, folds, skipped days, and files that are not in order.
// Expected instants are those of the tz database, worked out by hand beside each check.
#include "core/time/zone.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

civil_meaning meaning(const char* name, const char* text) {
  return zone_named(name).meaning_of(parse_civil(text).value());
}

std::string in_words(const civil_meaning& m) {
  if (const auto* one = std::get_if<unique_time>(&m)) return rfc3339_utc(one->at);
  if (const auto* two = std::get_if<twofold_time>(&m))
    return rfc3339_utc(two->first) + " or " + rfc3339_utc(two->second);
  const auto& none = std::get<missing_time>(m);
  return rfc3339_utc(none.jump) + " jumps from " + civil_text(none.before) + " to " +
         civil_text(none.after);
}

} // namespace

TEST_CASE("a time in London's spring gap does not exist, and its edges do") {
  // 2027-03-28: 01:00 GMT becomes 02:00 BST.
  CHECK(in_words(meaning("Europe/London", "2027-03-28 00:59")) == "2027-03-28T00:59:00Z");
  CHECK(in_words(meaning("Europe/London", "2027-03-28 01:00")) ==
        "2027-03-28T01:00:00Z jumps from 2027-03-28 00:59 to 2027-03-28 02:00");
  CHECK(in_words(meaning("Europe/London", "2027-03-28 01:59")) ==
        "2027-03-28T01:00:00Z jumps from 2027-03-28 00:59 to 2027-03-28 02:00");
  CHECK(in_words(meaning("Europe/London", "2027-03-28 02:00")) == "2027-03-28T01:00:00Z");
}

TEST_CASE("a time in London's autumn fold happens twice, and its edges once") {
  // 2027-10-31: 02:00 BST becomes 01:00 GMT.
  CHECK(in_words(meaning("Europe/London", "2027-10-31 00:59")) == "2027-10-30T23:59:00Z");
  CHECK(in_words(meaning("Europe/London", "2027-10-31 01:00")) ==
        "2027-10-31T00:00:00Z or 2027-10-31T01:00:00Z");
  CHECK(in_words(meaning("Europe/London", "2027-10-31 01:59")) ==
        "2027-10-31T00:59:00Z or 2027-10-31T01:59:00Z");
  CHECK(in_words(meaning("Europe/London", "2027-10-31 02:00")) == "2027-10-31T02:00:00Z");
}

TEST_CASE("Lord Howe's clocks move by half an hour") {
  // tzdata: +10:30 and +11:00; forward 2026-10-04 02:00, back 2027-04-04 02:00 local.
  CHECK(in_words(meaning("Australia/Lord_Howe", "2026-10-04 02:15")) ==
        "2026-10-03T15:30:00Z jumps from 2026-10-04 01:59 to 2026-10-04 02:30");
  CHECK(in_words(meaning("Australia/Lord_Howe", "2027-04-04 01:45")) ==
        "2027-04-03T14:45:00Z or 2027-04-03T15:15:00Z");
  CHECK(in_words(meaning("Australia/Lord_Howe", "2027-04-04 01:29")) == "2027-04-03T14:29:00Z");
}

TEST_CASE("Apia never had a 30 December 2011") {
  // tzdata: from -10:00 to +14:00 at 2011-12-30T10:00Z.
  for (const char* text : {"2011-12-30 00:00", "2011-12-30 12:00", "2011-12-30 23:59"})
    CHECK(in_words(meaning("Pacific/Apia", text)) ==
          "2011-12-30T10:00:00Z jumps from 2011-12-29 23:59 to 2011-12-31 00:00");
  CHECK(in_words(meaning("Pacific/Apia", "2011-12-29 23:59")) == "2011-12-30T09:59:00Z");
  CHECK(in_words(meaning("Pacific/Apia", "2011-12-31 00:00")) == "2011-12-30T10:00:00Z");
}

TEST_CASE("Kwajalein had no 21 August 1993, the other way round the date line") {
  // tzdata: from -12:00 to +12:00 at the end of 1993-08-20.
  CHECK(std::holds_alternative<missing_time>(meaning("Pacific/Kwajalein", "1993-08-21 12:00")));
}

TEST_CASE("where clocks jump at midnight a day begins later") {
  // Beirut goes forward at 00:00 on the last Sunday of March: 2027-03-28 begins at 01:00.
  CHECK(in_words(meaning("Asia/Beirut", "2027-03-28 00:00")) ==
        "2027-03-27T22:00:00Z jumps from 2027-03-27 23:59 to 2027-03-28 01:00");
  // Sao Paulo in history: 2018-11-04 began at 01:00.
  CHECK(in_words(meaning("America/Sao_Paulo", "2018-11-04 00:30")) ==
        "2018-11-04T03:00:00Z jumps from 2018-11-03 23:59 to 2018-11-04 01:00");
  // And back at midnight: 23:30 happens twice.
  CHECK(in_words(meaning("America/Sao_Paulo", "2019-02-16 23:30")) ==
        "2019-02-17T01:30:00Z or 2019-02-17T02:30:00Z");
}

TEST_CASE("the rule line goes on long after the last listed change") {
  // RFC 8536, section 3.3: the footer's rule holds after the last transition.
  CHECK(zone_named("Europe/London").offset_at(utc("2090-07-01T00:00:00Z")) == 3600s);
  CHECK(zone_named("Europe/London").offset_at(utc("2090-01-01T00:00:00Z")) == 0s);
  // The last Sunday of March 2090 is the 26th.
  CHECK(in_words(meaning("Europe/London", "2090-03-26 01:30")) ==
        "2090-03-26T01:00:00Z jumps from 2090-03-26 00:59 to 2090-03-26 02:00");
  CHECK(zone_named("Australia/Sydney").offset_at(utc("2090-01-01T00:00:00Z")) == 11h);
  CHECK(zone_named("Asia/Kolkata").offset_at(utc("2090-01-01T00:00:00Z")) == 19800s);
}

TEST_CASE("a clock is cut to the minute and not rounded") {
  const zone& z = zone_named("Europe/London");
  CHECK(civil_text(z.civil_at(utc("2027-04-06T06:45:59.999Z"))) == "2027-04-06 07:45");
  CHECK(civil_text(z.civil_at(utc("1960-01-01T00:00:59.999Z"))) == "1960-01-01 00:00");
}

TEST_CASE("a zone of one offset needs no file") {
  const zone z = zone::fixed("Somewhere", -9h - 30min);
  CHECK(z.name() == "Somewhere");
  CHECK(in_words(z.meaning_of(parse_civil("2027-03-28 09:00").value())) == "2027-03-28T18:30:00Z");
}

TEST_CASE("only names without dots and double slashes may be asked of the zone folder") {
  for (const char* name : {"Europe/London", "UTC", "Etc/GMT+5", "America/Argentina/Buenos_Aires"})
    CHECK(is_zone_name(name));
  for (const char* name : {"", "/etc/passwd", "../UTC", "Europe//London", "Europe/", "a.b",
                           "Europe/Lond on", "Europe\\London", "Zürich"})
    CHECK_FALSE(is_zone_name(name));
  CHECK_FALSE(is_zone_name(std::string(65, 'a')));
}

TEST_CASE("a file that is no zone file, cut short, or out of order is refused and never crashes") {
  const std::string good = [] {
    const std::string path = "/usr/share/zoneinfo/Europe/London";
    std::FILE* f = std::fopen(path.c_str(), "rb");
    REQUIRE(f != nullptr);
    std::string bytes(100000, '\0');
    bytes.resize(std::fread(bytes.data(), 1, bytes.size(), f));
    std::fclose(f);
    return bytes;
  }();
  REQUIRE(zone::read("Europe/London", good).has_value());
  CHECK(sentence(zone::read("X", "hello").error()) ==
        "zone X: found another kind of file, expected a TZif file of version 2 or later");
  CHECK_FALSE(zone::read("X", "").has_value());
  CHECK_FALSE(zone::read("X", std::string(2'000'000, '\0')).has_value());
  // A version 1 file has 32-bit times only.
  std::string old = good;
  old[4] = '\0';
  CHECK_FALSE(zone::read("X", old).has_value());
  // Every cut inside the data, and every flipped byte, is refused or read, never more.
  int refused = 0;
  for (std::size_t n = 0; n < good.size(); n += 7)
    refused += zone::read("X", good.substr(0, n)).has_value() ? 0 : 1;
  CHECK(refused > 400);
  for (std::size_t n = 0; n < good.size(); n += 3) {
    std::string bytes = good;
    bytes[n] = static_cast<char>(static_cast<unsigned char>(bytes[n]) ^ 0xFFU);
    const auto read = zone::read("X", bytes);
    if (read) (void)read->meaning_of(parse_civil("2027-03-28 01:30").value());
  }
  // Sizes that would wrap around.
  for (std::size_t n = 20; n < 44; ++n) {
    std::string bytes = good;
    bytes[n] = '\xFF';
    CHECK_FALSE(zone::read("X", bytes).has_value());
  }
}
