// Dates that cannot be, and tubes that waited too long.
#include "core/receiving/dates.hpp"

#include <catch2/catch.hpp>

namespace qb {

namespace {

using Catch::Contains;
using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;

civil_date day(unsigned d) {
  return std::chrono::year{2027} / std::chrono::April / std::chrono::day{d};
}
instant moment(const char* text) {
  return parse_rfc3339_utc(text).value();
}
zone utc() {
  return zone::fixed("UTC", std::chrono::seconds{0});
}

// A box that arrived and was told on the 9th, of a test of the 6th.
received_kit kit_with(std::optional<civil_date> posted, std::optional<civil_date> tested = {}) {
  received_kit out;
  out.kit = "FV-3001";
  arrival box;
  box.at = moment("2027-04-09T09:00:00Z");
  box.entered = box.at;
  box.posted = posted;
  box.tested = tested;
  out.arrivals.push_back(box);
  return out;
}

recorded_tubes record() {
  return {"lactulose-10g", {hours{23} + minutes{50}, minutes{5}, std::nullopt}, day(6)};
}

received_kit read_at(int tube, const char* when) {
  received_kit out = kit_with({});
  gas_reading r;
  r.kit = out.kit;
  r.sample = tube;
  r.measured_at = when;
  out.readings.push_back(r);
  return out;
}

std::string found(const received_kit& kit, std::optional<days> age = days{14}) {
  const recorded_tubes told = record();
  std::string out;
  for (const receiving_finding& f : check_dates(kit, &told, age, utc()))
    out += f.rule + ": " + f.words + "\n";
  return out;
}

} // namespace

TEST_CASE("dates that follow each other are no finding") {
  CHECK(found(kit_with(day(7), day(6))).empty());
  CHECK(found(kit_with(day(6))).empty());
  CHECK(found(kit_with(day(9))).empty());
  CHECK(check_dates(received_kit{}, nullptr, days{1}, utc()).empty());
}

TEST_CASE(
    "posted in the future, before the test, or after it arrived, and another day of the test") {
  CHECK(found(kit_with(day(10))) ==
        "posted-future: posted on 2027-04-10, a day to come when that was told (2027-04-09)\n");
  CHECK(found(kit_with(day(5))) ==
        "posted-before: posted on 2027-04-05, before the test of 2027-04-06\n");
  CHECK(found(kit_with({}, day(5))) ==
        "tested-differs: the box says tested on 2027-04-05, the record 2027-04-06\n");
  received_kit late = kit_with(day(10));
  late.arrivals.back().entered = moment("2027-04-12T09:00:00Z");
  CHECK(found(late) ==
        "arrived-unposted: arrived on 2027-04-09, before it was posted on 2027-04-10\n");
}

TEST_CASE("a tube that was read before it was closed is named, also past midnight") {
  CHECK_THAT(found(read_at(1, "2027-04-06T23:49")), Contains("reading-before-closed: tube 1"));
  CHECK(found(read_at(1, "2027-04-06T23:50")).empty());
  CHECK_THAT(found(read_at(2, "2027-04-07T00:04")), Contains("before it was closed at 2027-04-07"));
  CHECK(found(read_at(2, "2027-04-07T00:05:30")).empty());
  CHECK(found(read_at(3, "2027-04-06T00:05")).empty()); // nothing was blown into it
  CHECK(found(read_at(7, "2027-04-06T00:05")).empty()); // no such sample
}

TEST_CASE("a tube is too old the day after the profile's last, and not where none is asked") {
  CHECK(found(read_at(1, "2027-04-20T23:59")).empty());
  CHECK_THAT(found(read_at(1, "2027-04-21T00:01")),
             Contains("tube-old: tube 1 was measured 15 days after it was closed; within 14"));
  CHECK(found(read_at(2, "2027-04-21T00:01")).empty()); // closed a day later
  CHECK(found(read_at(1, "2028-04-21T00:01"), std::nullopt).empty());
}

} // namespace qb
