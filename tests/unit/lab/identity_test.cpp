// One person, one box, one record: what every door of the laboratory keeps apart.
#include "tests/support/scripted_test.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <sqlite3.h>

namespace qb::lab {

using Catch::Contains;

namespace {

// Ten readings of a kit, each of its own moment.
std::string ten_readings(const std::string& kit) {
  std::string out = table_head;
  for (int n = 1; n <= 10; ++n)
    out += kit + "," + std::to_string(n) + "," + std::to_string(3 * n) +
           ",1,4.8,2027-04-09 09:" + std::to_string(n + 10) + "\n";
  return out;
}

std::string log_by(const std::string& test_id, const std::string& name) {
  made_test m;
  m.test_id = test_id;
  std::string text = make_log(m);
  std::vector<event> events = read_log(text).value().events;
  for (event& e : events)
    if (auto* who = std::get_if<reported_person>(&e.what)) who->name = name;
  return write_log(events, "quarterbreath 0.1.0", "");
}

void second_person_comes(laboratory& lab) {
  REQUIRE(lab.import_file("b.log.json", log_by("test-2", "Tobin Farthingale")) == 0);
}

// Odile's kit, received, read, and concluded.
void settled(laboratory& lab) {
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(ten_readings("FV-3001")) == 0);
}

void sql(const laboratory& lab, const std::string& text) {
  sqlite3* raw = nullptr;
  REQUIRE(sqlite3_open(lab.store().c_str(), &raw) == SQLITE_OK);
  CHECK(sqlite3_exec(raw, text.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(raw);
}

} // namespace

TEST_CASE("a second person's log under a kit number takes over neither box nor readings") {
  laboratory lab;
  settled(lab);
  second_person_comes(lab);
  lab.at.test = "test-2";
  CHECK(lab.report("FV-3001", "json") == 0);
  const json::value other = json::parse(lab.out, json::numbers::exact).value();
  CHECK(lab.out.find("Farthingale") != std::string::npos);
  for (const json::value& tube : *other.find("tubes")->items())
    CHECK((tube.find("h2_ppm") == nullptr || tube.find("h2_ppm")->is_null()));
  CHECK_THAT(lab.out, Contains("kit-shared"));
  lab.at.test = {};
  CHECK(lab.report("FV-3001", "json") == 2);
  CHECK_THAT(lab.err, Contains("2 tests of that number") && Contains("test-1") &&
                          Contains("test-2") && !Contains("Marchbank"));
  for (const char* door : {"report", "judge", "box", "readings"}) {
    CAPTURE(door);
    const std::string what = door;
    const int status =
        what == "report"  ? lab.report("FV-3001", "pdf")
        : what == "judge" ? lab.override_of("FV-3001", "kit-shared")
        : what == "box"
            ? lab.box("FV-3001", "n")
            : lab.readings(std::string(table_head) + "FV-3001,1,9,9,,2027-04-09 10:00\n");
    CHECK(status == 2);
  }
  const std::string work = lab.work();
  CHECK_THAT(work,
             Contains("test test-1") && Contains("test test-2") && Contains("whose the box is"));
  CHECK(lab.export_to("out") == 0);
  const std::string rows = lab.file("out/tests.csv");
  const std::string second = rows.substr(rows.find("FV-3001,test-2"));
  CHECK_THAT(second.substr(0, second.find('\r')), !Contains(",yes,"));
  CHECK_THAT(lab.file("out/tubes.csv"), !Contains("test-2,lactulose-10g,no,1,2027-04-06T06:30:00Z,"
                                                  "2027-04-06T06:30:00Z,pressed,0,on-time,yes"));
}

TEST_CASE("the bench sees both tests of a number side by side, and names the one it means") {
  laboratory lab;
  lab.import();
  second_person_comes(lab);
  CHECK(lab.lines("FV-3001\ntest-2\ny\n") == 2); // the number alone was refused
  CHECK_THAT(lab.out, Contains("Odile Marchbank") && Contains("Tobin Farthingale") &&
                          Contains("STOPPED: 2 tests bear the kit number"));
  const json::value got = lab.received("test-2", "");
  CHECK(*got.find("name")->text() == "Tobin Farthingale");
}

TEST_CASE("a box of nobody's is said to be one test's by a named person, with a reason") {
  laboratory lab;
  REQUIRE(lab.box("FV-3001", "y lactulose-10g") == 0);
  lab.import();
  second_person_comes(lab);
  CHECK(lab.assign({"FV-3001", ""}) == 0);
  CHECK_THAT(lab.out, Contains("nobody's") && Contains("box 1, 2"));
  lab.at.test = "test-2";
  CHECK(lab.assign({"FV-3001", ""}) == 2);
  CHECK(lab.assign({"FV-3001", "her name is on the label"}) == 0);
  CHECK_THAT(lab.out, !Contains("STOPPED"));
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, !Contains("kit-shared"));
  lab.at.test = "test-1";
  CHECK(lab.conclude({"FV-3001", "words", "", "", "", "test-1"}) == 2);
  CHECK_THAT(lab.err, Contains("no box of it was received"));
}

TEST_CASE("a box that names another person is no box of the only log; one of hers bars the test") {
  laboratory lab;
  REQUIRE(lab.box_of("FV-3001", "y lactulose-10g", {"Tobin Farthingale"}) == 0);
  lab.import();
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("kit-shared") && Contains("\"cannot-be-used\""));
  CHECK_THAT(lab.work(), Contains("whose the box is"));
  laboratory other;
  other.import();
  REQUIRE(other.lines("FV-3001\nwho Tobin Farthingale, born 1961-02-03\ny\n") == 0);
  CHECK_THAT(other.out, Contains("do not name the same person: the name, birth date is another"));
  CHECK(other.report("FV-3001", "json") == 0);
  CHECK_THAT(other.out, Contains("person-differs"));
}

TEST_CASE("what a bench's older screen says is refused once more came, and nothing is undone") {
  laboratory lab;
  lab.import();
  lab.two_benches(
      "FV-3001\n", [&] { CHECK(lab.box("FV-3001", "y !4") == 0); }, "y -7\n");
  CHECK_THAT(lab.out, Contains("not as it was when it was looked at") &&
                          Contains("R. Ashdown told the box") && Contains("nothing was changed"));
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("lid-bad") && !Contains("tube-missing"));
}

TEST_CASE("one tube's scan on a settled kit ticks that tube and loses no other") {
  laboratory lab;
  settled(lab);
  CHECK(lab.lines("FV-3001\nFV-3001-04\n\n") == 0);
  CHECK_THAT(lab.out, !Contains("is not in the box"));
}

TEST_CASE("a lid, an extra tube and a reading are taken back by name, and stay in the store") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y !4 +11 -7") == 0);
  REQUIRE(lab.readings(ten_readings("FV-3001")) == 0);
  CHECK(lab.back({"FV-3001", "lid", 4, ""}) == 2);
  CHECK(lab.back({"FV-3001", "lid", 5, "a slip"}) == 2);
  CHECK(lab.back({"FV-3001", "lid", 4, "a slip"}) == 0);
  CHECK(lab.back({"FV-3001", "extra", 11, "a slip"}) == 0);
  CHECK(lab.back({"FV-3001", "absence", 7, "it was in the bag"}) == 0);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, !Contains("lid-bad") && !Contains("tube-extra") && !Contains("tube-missing"));
  CHECK(lab.back({"FV-3001", "reading", 1, "an air sample"}) == 0);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("reading-missing"));
  take_back_options stands{"FV-3001", "reading", 1, "it was none"};
  stands.stands = true;
  CHECK(lab.back(stands) == 0);
  take_back_options moved{"FV-3001", "reading", 1, "tubes 1 and 2 were changed over"};
  moved.to_tube = 11;
  CHECK(lab.back(moved) == 2);
  moved.to_tube = 2;
  CHECK(lab.back(moved) == 0);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("reading-twice") && Contains("reading-missing"));
}

TEST_CASE("a reading that was another kit's is moved there, and is there alone") {
  laboratory lab;
  settled(lab);
  REQUIRE(lab.box("FV-3002", "y lactulose-10g") == 0);
  take_back_options moved{"FV-3001", "reading", 3, "the tray was changed over"};
  moved.to_kit = "FV-3002";
  CHECK(lab.back(moved) == 0);
  CHECK(lab.export_to("out") == 0);
  const std::string tubes = lab.file("out/tubes.csv");
  CHECK_THAT(tubes.substr(tubes.find("FV-3002")), Contains("2027-04-09T09:13"));
  CHECK_THAT(tubes.substr(0, tubes.find("FV-3002")), !Contains("2027-04-09T09:13"));
}

TEST_CASE("nothing is concluded of a box that never came, was not compared or not read") {
  laboratory lab;
  lab.import();
  const conclude_options words{"FV-3001", "For the doctor.", "", "", "", "test-1"};
  CHECK(lab.conclude(words) == 2);
  CHECK_THAT(lab.err,
             Contains("no box of it was received") && Contains("no reading of tubes 1, 2"));
  REQUIRE(lab.box("FV-3001", "") == 0);
  REQUIRE(lab.readings(ten_readings("FV-3001")) == 0);
  CHECK(lab.conclude(words) == 2);
  CHECK_THAT(lab.err, Contains("were not compared"));
  REQUIRE(lab.box("FV-3001", "n") == 0);
  CHECK(lab.conclude(words) == 2);
  CHECK_THAT(lab.err, Contains("are not the request's"));
  conclude_options barred = words;
  barred.kind = "cannot-be-reported";
  CHECK(lab.conclude(barred) == 0);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("\"kind\":\"cannot-be-reported\""));
  CHECK(lab.report("FV-3001", "fhir") == 0);
  CHECK_THAT(lab.out,
             Contains("\"status\": \"cancelled\"") && Contains("Cannot be reported, because"));
}

TEST_CASE("name and words are not blank, and the very test is confirmed by its short id") {
  laboratory lab;
  settled(lab);
  conclude_options c{"FV-3001", "   ", "", "", "", "test-1"};
  CHECK(lab.conclude(c) == 2);
  c.words = "For the doctor.";
  c.confirm = "";
  CHECK(lab.conclude(c) == 2);
  CHECK_THAT(lab.out, Contains("Odile Marchbank, born 1948-05-17"));
  CHECK_THAT(lab.err, Contains("--confirm test-1") && !Contains("Marchbank"));
  c.confirm = "test-2";
  CHECK(lab.conclude(c) == 2);
  lab.at.by = "  ";
  c.confirm = "test-1";
  CHECK(lab.conclude(c) == 2);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("\"conclusion\":null"));
}

TEST_CASE("a later conclusion amends an earlier, which is printed again byte for byte") {
  laboratory lab;
  settled(lab);
  conclude_options c{"FV-3001", "As it stands.", "", "", "", "test-1"};
  REQUIRE(lab.conclude(c) == 0);
  REQUIRE(lab.report("FV-3001", "pdf") == 0);
  const std::string first = lab.out;
  REQUIRE(lab.report("FV-3001", "fhir") == 0);
  CHECK_THAT(lab.out, Contains("\"status\": \"final\""));
  CHECK(lab.conclude(c) == 2);
  CHECK_THAT(lab.err, Contains("report 1 of 2027-04-09 is there already"));
  c.kind = "amended";
  CHECK(lab.conclude(c) == 2); // no reason
  c.reason = "a reading came late";
  c.words = "As it stands now.";
  CHECK(lab.conclude(c) == 0);
  CHECK(lab.report("FV-3001", "pdf", 1) == 0);
  CHECK(lab.out == first);
  CHECK(lab.report("FV-3001", "pdf", 2) == 0);
  CHECK(lab.out != first);
  CHECK(lab.report("FV-3001", "pdf", 3) == 2);
  CHECK(lab.report("FV-3001", "json", 1) == 0);
  CHECK_THAT(lab.out, Contains("As it stands.") && !Contains("stands now"));
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("\"replaces\":1") && Contains("a reading came late"));
  CHECK(lab.report("FV-3001", "fhir") == 0);
  CHECK_THAT(lab.out, Contains("\"status\": \"amended\""));
}

TEST_CASE("missing readings are explained by name of the reader, and the report says so") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(std::string(table_head) + "FV-3001,1,4,1,4.8,2027-04-09 10:00\n") == 0);
  conclude_options c{"FV-3001", "Too little to say.", "", "", "", "test-1"};
  CHECK(lab.conclude(c) == 2);
  c.lack = "nine tubes were broken";
  CHECK(lab.conclude(c) == 0);
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("nine tubes were broken"));
}

TEST_CASE("forgetting takes one test of a number, by name and reason, and it does not come back") {
  laboratory lab;
  settled(lab);
  second_person_comes(lab);
  forget_options o{"FV-3001", "asked by letter", true, false};
  CHECK(lab.forget_named(o) == 2); // which of the two?
  lab.at.test = "test-1";
  o.reason.clear();
  CHECK(lab.forget_named(o) == 2);
  o.reason = "asked by letter";
  CHECK(lab.forget_named(o) == 0);
  lab.at.test = {};
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("Farthingale") && !Contains("Marchbank"));
  CHECK(lab.import_file("a.log.json", log_by("test-1", "Odile Marchbank")) == 2);
  CHECK_THAT(lab.err, Contains("a test that was forgotten"));
}

TEST_CASE("a concluded test is forgotten only where that is meant on purpose") {
  laboratory lab;
  settled(lab);
  REQUIRE(lab.conclude({"FV-3001", "As it stands.", "", "", "", "test-1"}) == 0);
  forget_options o{"FV-3001", "asked by letter", true, false};
  CHECK(lab.forget_named(o) == 2);
  CHECK_THAT(lab.err, Contains("--although-concluded"));
  o.although_concluded = true;
  CHECK(lab.forget_named(o) == 0);
}

TEST_CASE("a concluded test may be forgotten once the profile's retention is over, on that day") {
  laboratory lab;
  settled(lab);
  REQUIRE(lab.conclude({"FV-3001", "As it stands.", "", "", "", "test-1"}) == 0);
  const forget_options o{"FV-3001", "kept long enough", true, false};
  lab.at.now = "2037-04-08 23:59";
  CHECK(lab.forget_named(o) == 2);
  CHECK_THAT(lab.err, Contains("kept until 2037-04-09 by the profile"));
  lab.at.now = "2037-04-09 00:00";
  CHECK(lab.forget_named(o) == 0);
}

TEST_CASE("where the profile tells no retention, a concluded test is always meant on purpose") {
  laboratory lab;
  settled(lab);
  REQUIRE(lab.conclude({"FV-3001", "As it stands.", "", "", "", "test-1"}) == 0);
  std::string profile = test::source_file("assets/laboratories/fenwick-vale.json");
  const std::size_t from = profile.find("  \"retention\"");
  REQUIRE(from != profile.npos);
  profile.erase(from, profile.find("  },\n", from) + 5 - from);
  lab.at.profile = lab.put("untold.json", profile);
  lab.at.now = "2067-04-09 00:00";
  CHECK(lab.forget_named({"FV-3001", "kept long enough", true, false}) == 2);
  CHECK_THAT(lab.err, Contains("a profile that tells no retention"));
}

TEST_CASE("a damaged row costs its kit alone, in the worklist and the export") {
  laboratory lab;
  settled(lab);
  REQUIRE(lab.box("FV-3002", "y lactulose-10g") == 0);
  sql(lab, "UPDATE bench_arrival SET at = 'soon' WHERE kit = 'FV-3001'");
  CHECK(lab.try_work() == 1);
  CHECK_THAT(lab.out, Contains("FV-3001") && Contains("cannot be read any more") &&
                          Contains("FV-3002     lactulose-10g"));
  CHECK_THAT(lab.err, Contains("kit FV-3001"));
  CHECK(lab.export_to("out") == 1);
  CHECK_THAT(lab.file("out/tests.csv"), Contains("FV-3002") && !Contains("FV-3001"));
}

TEST_CASE(
    "a damaged page of what was received costs its kits alone, in the worklist and the export") {
  laboratory lab;
  settled(lab);
  constexpr int others = 100; // the boxes fill several pages
  for (int n = 0; n < others; ++n)
    REQUIRE(lab.box(fmt::format("FV-4{:03}", n), "y lactulose-10g") == 0);
  const std::string whole = lab.file("store.db");
  constexpr std::size_t page = 4096;
  int damaged_pages = 0;
  for (std::size_t at = page; at + page <= whole.size(); at += page) {
    const std::string_view here = std::string_view(whole).substr(at, page);
    const bool leaf_of_boxes = here[0] == '\x0D' && here.find("lactulose-10g") != here.npos &&
                               here.find("FV-40") != here.npos &&
                               here.find("2027-04-09T") != here.npos;
    if (!leaf_of_boxes) continue;
    std::string damaged = whole;
    damaged[at] = '\x7f'; // no kind of page (SQLite's file format, 1.6)
    lab.put("store.db", damaged);
    INFO("page at " << at);
    ++damaged_pages;
    CHECK(lab.try_work() == 1);
    int named = 0;
    int listed = 0;
    for (int n = 0; n < others; ++n) {
      const std::string kit = fmt::format("FV-4{:03}", n);
      const bool lost = lab.err.find("kit " + kit) != std::string::npos;
      named += lost ? 1 : 0;
      listed += !lost && lab.out.find(kit) != std::string::npos ? 1 : 0;
    }
    CHECK(named > 0);
    CHECK(named < others / 2);
    CHECK(named + listed == others);
    CHECK(lab.export_to("out") == 1);
    std::filesystem::remove_all(lab.path("out"));
  }
  CHECK(damaged_pages > 1);
}

TEST_CASE("a sheet is a test of its own, and a log that comes later does not get what is its") {
  laboratory lab;
  const std::string sheet = "2027-04-05 07:30 07:45 08:00 08:15 08:30 08:46 09:00 09:15 09:30 "
                            "09:45 drink 07:32-07:34";
  REQUIRE(lab.paper_of({"FV-3001", sheet, "lactulose-10g", {}, {"Maren Oakhollow"}}) == 0);
  REQUIRE(lab.box("FV-3001", "y") == 0);
  lab.import();
  CHECK(lab.report("FV-3001", "json") == 2);
  lab.at.test = "test-1";
  CHECK(lab.report("FV-3001", "json") == 0);
  CHECK_THAT(lab.out, Contains("kit-shared") && Contains("Marchbank"));
  CHECK(lab.conclude({"FV-3001", "words", "", "", "", "test-1"}) == 2);
  CHECK_THAT(lab.err, Contains("no box of it was received"));
}

} // namespace qb::lab
