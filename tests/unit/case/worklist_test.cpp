// Working days on a calendar, and what a kit waits for.
#include "core/case/worklist.hpp"

#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <set>

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

case_finding weighed(const char* rule, consequence weight) {
  return {{rule, consequence::review, {}, {}, {}, ""}, rule, "", weight, {}};
}

// One tube that was blown and is in the box, with a reading and a conclusion.
struct a_kit {
  received_kit received;
  recorded_tubes told{"lactulose-10g", {day_minute{450}}, day("2027-04-06")};
  std::vector<case_finding> findings;
  std::vector<std::string> since;
  bool has_record{true};

  a_kit() {
    received.kit = "FV-2071";
    arrival a;
    a.at = parse_rfc3339_utc("2027-04-09T09:40:00Z").value();
    received.arrivals = {a};
    received.tubes = {received_tube{}};
    gas_reading r;
    r.sample = 1;
    received.readings = {r};
    received.conclusions = {{"FV-2071", "as it stands", "R. Ashdown", {}}};
  }
  [[nodiscard]] work_line line() const {
    return work_line_of({&received, has_record ? &told : nullptr, findings, since}, weekdays(),
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
  k.received.conclusions.clear();
  CHECK(k.line().what == waits_for::conclusion);
  k.findings = {weighed("lid-bad", consequence::cannot_be_used)};
  CHECK(k.line().what == waits_for::review);
  CHECK(k.line().to_review == 1);
  k.received.readings.clear();
  CHECK(k.line().what == waits_for::readings);
  CHECK(k.line().unread == std::vector<int>{1});
  k.has_record = false;
  CHECK(k.line().what == waits_for::record);
  k.received.tubes.clear();
  CHECK(k.line().what == waits_for::tubes);
  k.received.arrivals.clear();
  k.has_record = true;
  CHECK(k.line().what == waits_for::readings);
  CHECK_FALSE(k.line().due);
}

TEST_CASE("a finding counts by its consequence, and not once a named person set it aside") {
  a_kit k;
  k.received.conclusions.clear();
  k.findings = {weighed("lid-bad", consequence::cannot_be_used),
                weighed("sample-late", consequence::review),
                weighed("stopped-told", consequence::note)};
  CHECK(k.line().to_review == 2);
  CHECK(k.line().review_rules == 2);
  k.findings.push_back(weighed("sample-late", consequence::review)); // of another tube
  CHECK(k.line().to_review == 3);
  CHECK(k.line().review_rules == 2);
  k.findings.pop_back();
  k.findings[0].aside = override_of{"FV-2071", "lid-bad", 1, "R. Ashdown", "it held", {}, false};
  CHECK(k.line().to_review == 1);
  k.findings[1].weight = consequence::note; // by this laboratory's profile
  CHECK(k.line().to_review == 0);
  CHECK(k.line().what == waits_for::conclusion);
}

TEST_CASE("a concluded kit waits for nothing, until something comes after the conclusion") {
  a_kit k;
  k.findings = {weighed("lid-bad", consequence::review)};
  k.received.readings.clear(); // the reader did without
  CHECK(k.line().what == waits_for::nothing);
  k.since = {"1 reading of tube 4"};
  CHECK(k.line().what == waits_for::review);
  CHECK(k.line().again);
}

TEST_CASE("a corrected arrival counts from the earlier of both") {
  a_kit k;
  arrival later = k.received.arrivals.front();
  later.at += std::chrono::hours{72};
  k.received.arrivals.push_back(later);
  CHECK(k.line().arrived == day("2027-04-09"));
  k.received.arrivals.back().at -= std::chrono::hours{96};
  CHECK(k.line().arrived == day("2027-04-08"));
}

TEST_CASE("the oldest stands first, one without a box last") {
  std::vector<work_line> lines(3);
  lines[0].kit = "C";
  lines[1].kit = "B";
  lines[1].arrived = day("2027-04-09");
  lines[2].kit = "A";
  lines[2].arrived = day("2027-04-09");
  sort_work(lines);
  CHECK(lines[0].kit + lines[1].kit + lines[2].kit == "ABC");
}

TEST_CASE(
    "what cannot wait heads the list from the moment its record is here, until it is concluded") {
  a_kit waits;
  waits.received.conclusions.clear();
  a_kit ill = waits;
  ill.received.kit = "FV-2099";
  ill.received.arrivals.clear(); // the box is still in the post
  ill.received.tubes.clear();
  ill.received.readings.clear();
  ill.findings = {weighed("warning-signs", consequence::review),
                  weighed("warning-signs", consequence::review)};
  for (case_finding& f : ill.findings) {
    f.name = "Warning signs told";
    f.at_once = true;
  }
  std::vector<work_line> lines{waits.line(), ill.line()};
  CHECK(lines[1].at_once == std::vector<std::string>{"Warning signs told"});
  sort_work(lines);
  CHECK(lines.front().kit == "FV-2099");
  a_kit aside = ill;
  for (case_finding& f : aside.findings)
    f.aside = override_of{"FV-2099", "warning-signs", 1, "R. Ashdown", "spoken with", {}, false};
  CHECK(aside.line().at_once.empty());
  ill.received.conclusions = waits.received.conclusions;
  ill.received.conclusions.push_back({"FV-2099", "as it stands", "R. Ashdown", {}});
  CHECK(ill.line().at_once.empty());
}

TEST_CASE("in the shipped findings, signs, a stop, a wrong or a vomited drink cannot wait") {
  const auto all = read_finding_rules(test::source_file("assets/findings/findings.json")).value();
  std::set<std::string> at_once;
  for (const finding_rule& r : all.rules)
    if (r.at_once) at_once.insert(r.rule);
  CHECK(at_once == std::set<std::string>{"warning-signs", "unwell-told", "drunk-against",
                                         "packet-differs", "drink-vomited", "test-ended",
                                         "stopped-told"});
}

TEST_CASE("a second reading nobody chose between, and one of a tube that is not here, are told") {
  a_kit k;
  gas_reading again = k.received.readings.front();
  again.mark.entry = 2;
  gas_reading lost;
  lost.sample = 7;
  k.received.readings.push_back(again);
  k.received.readings.push_back(lost);
  const auto found = check_readings(k.received);
  REQUIRE(found.size() == 2);
  CHECK(found[0].rule == "reading-twice");
  CHECK(found[1].rule == "reading-no-tube");
  CHECK(found[1].samples == std::vector<int>{7});
}
