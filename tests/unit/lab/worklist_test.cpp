// Working days on a calendar, and what a kit waits for.
#include "core/lab/worklist.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

civil_date day(const char* text) {
  return parse_date(text).value();
}

lab_profile weekdays(int days = 2) {
  lab_profile lab;
  lab.analysis_working_days = days;
  lab.working_days = {1, 2, 3, 4, 5};
  return lab;
}

// One tube that was blown and is in the box, with a reading and a conclusion.
struct a_kit {
  bench_kit bench;
  told_tubes told{"lactulose-10g", {day_minute{450}}, day("2027-04-06")};
  std::vector<bench_finding> box;
  std::vector<finding> record;
  bool has_record{true};

  a_kit() {
    bench.kit = "FV-2071";
    arrival a;
    a.at = parse_rfc3339_utc("2027-04-09T09:40:00Z").value();
    bench.arrivals = {a};
    bench.tubes = {received_tube{}};
    gas_reading r;
    r.sample = 1;
    bench.readings = {r};
    bench.conclusions = {{"FV-2071", "as it stands", "R. Ashdown", {}}};
  }
  [[nodiscard]] work_line line() const {
    return work_line_of({&bench, has_record ? &told : nullptr, box, record}, weekdays(),
                        zone::fixed("UTC", std::chrono::seconds{0}));
  }
};

} // namespace

TEST_CASE("a result is due after so many working days, the day of arrival not counted") {
  CHECK(due_on(weekdays(), day("2027-04-05")) == day("2027-04-07")); // Monday to Wednesday
  CHECK(due_on(weekdays(), day("2027-04-08")) == day("2027-04-12")); // Thursday to Monday
  CHECK(due_on(weekdays(), day("2027-04-09")) == day("2027-04-13")); // Friday to Tuesday
  CHECK(due_on(weekdays(), day("2027-04-10")) == day("2027-04-13")); // Saturday, as Sunday
  CHECK(due_on(weekdays(), day("2027-04-11")) == day("2027-04-13"));
  CHECK(due_on(weekdays(1), day("2027-04-11")) == day("2027-04-12"));
}

TEST_CASE("closed days are passed over, whatever the day of the week") {
  lab_profile lab = weekdays();
  lab.receiving.closed_days = {day("2027-03-26"), day("2027-03-29")}; // a Friday and a Monday
  CHECK_FALSE(works_on(lab, day("2027-03-26")));
  CHECK(works_on(lab, day("2027-03-30")));
  CHECK(due_on(lab, day("2027-03-25")) == day("2027-03-31"));
}

TEST_CASE("a kit waits for the first thing it lacks") {
  a_kit k;
  CHECK(k.line().what == waits_for::nothing);
  k.bench.conclusions.clear();
  CHECK(k.line().what == waits_for::conclusion);
  k.box = {{"lid-bad", consequence::review, {1}, {1}, ""}};
  CHECK(k.line().what == waits_for::review);
  CHECK(k.line().to_review == 1);
  k.bench.readings.clear();
  CHECK(k.line().what == waits_for::readings);
  CHECK(k.line().unread == std::vector<int>{1});
  k.has_record = false;
  CHECK(k.line().what == waits_for::record);
  k.bench.tubes.clear();
  CHECK(k.line().what == waits_for::tubes);
  k.bench.arrivals.clear();
  k.has_record = true;
  CHECK(k.line().what == waits_for::readings);
  CHECK_FALSE(k.line().due);
}

TEST_CASE("a finding that a named person set aside asks for no look any more") {
  a_kit k;
  k.bench.conclusions.clear();
  k.box = {{"lid-bad", consequence::review, {1}, {1}, ""},
           {"lid-bad", consequence::review, {2}, {2}, ""},
           {"stopped-told", consequence::note, {}, {}, ""}};
  k.record = {{"sample-late", consequence::review, sample_number(3), {}, {}, ""}};
  CHECK(k.line().to_review == 3);
  k.bench.overrides = {{"FV-2071", "lid-bad", 1, "R. Ashdown", "it held", {}, false}};
  CHECK(k.line().to_review == 2);
  k.bench.overrides.push_back({"FV-2071", "lid-bad", std::nullopt, "R. Ashdown", "all", {}, false});
  CHECK(k.line().to_review == 1);
}

TEST_CASE("a corrected arrival counts from the earlier of both") {
  a_kit k;
  arrival later = k.bench.arrivals.front();
  later.at += std::chrono::hours{72};
  k.bench.arrivals.push_back(later);
  CHECK(k.line().arrived == day("2027-04-09"));
  k.bench.arrivals.back().at -= std::chrono::hours{96};
  CHECK(k.line().arrived == day("2027-04-08"));
}

TEST_CASE("the oldest stands first, one without a box last") {
  std::vector<work_line> lines(3);
  lines[0].kit = "C";
  lines[1].kit = "B";
  lines[1].arrived = day("2027-04-09");
  lines[2].kit = "A";
  lines[2].arrived = day("2027-04-09");
  sort_by_age(lines);
  CHECK(lines[0].kit + lines[1].kit + lines[2].kit == "ABC");
}

TEST_CASE("a second reading nobody chose between, and one of a tube that is not here, are told") {
  a_kit k;
  gas_reading again = k.bench.readings.front();
  again.entry = 2;
  gas_reading lost;
  lost.sample = 7;
  k.bench.readings.push_back(again);
  k.bench.readings.push_back(lost);
  const auto found = check_readings(k.bench);
  REQUIRE(found.size() == 2);
  CHECK(found[0].rule == "reading-twice");
  CHECK(found[1].rule == "reading-no-tube");
  CHECK(found[1].samples == std::vector<int>{7});
}
