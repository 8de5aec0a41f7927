// What is kept of a box's lot and of a reading's run, who took it in, and where all of it is told.
#include "app/lab/own/own_commands.hpp"
#include "app/store/laboratory_store.hpp"
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Contains;

namespace {

constexpr const char* a_table = "run,R-7\nanalyser,A2\ncontrol,passed\n"
                                "kit,tube,h2_ppm,ch4_ppm,co2_pct,measured_at\n"
                                "FV-3001,1,4,1,5,2027-04-09 10:00\n";

// A described table, and its description.
constexpr const char* described = "Run no.;R-9\nLabel;H2;When\nFV-3001-02;4,5;9.4.2027 10:01\n";
constexpr const char* description =
    R"({"format": "quarterbreath-readings-layout", "version": 1, "parted_by": "semicolon",
 "decimal_mark": "comma", "moment": "DD.MM.YYYY hh:mm",
 "columns": {"label": "Label", "measured_at": "When"},
 "gases": {"h2": {"column": "H2", "unit": "ppm"}},
 "head": [{"begins": "Run no.", "is": "run"}]})";

int take(laboratory& lab, const std::string& table, const std::string& layout) {
  const std::string file = lab.put("bench.csv", table);
  return lab.run([&](const shared_options& shared, const console& to) {
    return take_readings(shared, lab.at, {file, "", layout}, to);
  });
}

int which(laboratory& lab, const which_options& o) {
  return lab.run([&](const shared_options& shared, const console& to) {
    return show_which(shared, lab.at, o, to);
  });
}

const json::value& tube_in(const json::value& judged, std::size_t number) {
  return (*judged.find("tubes")->items())[number - 1];
}

} // namespace

TEST_CASE("a reading keeps its run, and who took it in, and when") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(a_table) == 0);
  const json::value judged = lab.judged("FV-3001");
  const json::value& gases = *tube_in(judged, 1).find("gases");
  CHECK(*gases.find("run")->text() == "R-7");
  CHECK(*gases.find("analyser")->text() == "A2");
  CHECK(*gases.find("control")->text() == "passed");
  CHECK(*gases.find("taken_in_by")->text() == "R. Ashdown");
  CHECK(*gases.find("taken_in")->text() == "2027-04-09T09:30:00Z");
  CHECK(which(lab, {"", "", "", "", "R-7"}) == 0);
  CHECK_THAT(lab.out, Contains("FV-3001"));
  CHECK(which(lab, {"", "", "", "", "R-8"}) == 0);
  CHECK(lab.out == "no test used it\n");
  REQUIRE(lab.export_to("out") == 0);
  CHECK_THAT(lab.file("out/tubes.csv"), Contains(",first,R-7,A2,,passed\r\n"));
}

TEST_CASE("a failed control is told at the bench and stands for review until it is set aside") {
  laboratory lab;
  lab.import();
  std::string table = a_table;
  table.replace(table.find("passed"), 6, "failed");
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(table) == 0);
  REQUIRE(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out, Contains("a run whose control failed (R-7)"));
  REQUIRE(lab.override_of("FV-3001", "control-failed") == 0);
}

TEST_CASE("lot, last day and storage stand on the box, in the report, and lead back to the kit") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y lot L7 expires 2027-12-31 stored cool") == 0);
  const json::value judged = lab.judged("FV-3001");
  const json::value& supply = *judged.find("supply");
  CHECK(*supply.find("lot")->text() == "L7");
  CHECK(*supply.find("expires")->text() == "2027-12-31");
  CHECK(*supply.find("stored")->text() == "cool");
  CHECK(which(lab, {"", "", "", "L7"}) == 0);
  CHECK_THAT(lab.out, Contains("FV-3001"));
  REQUIRE(lab.box("FV-3001", "-7") == 0); // what is not told again stands
  CHECK(*lab.judged("FV-3001").find("supply")->find("lot")->text() == "L7");
  REQUIRE(lab.export_to("out") == 0);
  CHECK_THAT(lab.file("out/tests.csv"), Contains(",L7,2027-12-31\r\n"));
  CHECK(lab.box("FV-3001", "stored somewhere") == 2);
  CHECK_THAT(lab.err, Contains("stored room, cool, warm or frozen"));
  CHECK(lab.box("FV-3001", "expires soon") == 2);
  CHECK(lab.box("FV-3001", "lot") == 2);
}

TEST_CASE("the register's lot is the kit's, and another on the box is told") {
  laboratory lab;
  lab.import();
  REQUIRE(laboratory_store::open(lab.store())
              ->put({issued_kit_row{"FV-3001", "", "lactulose-10g", "L8", "2027-12-31", "", ""}}));
  REQUIRE(lab.box("FV-3001", "y lot L7") == 0);
  CHECK_THAT(lab.out, Contains("lot L8") && Contains("bears lot L7"));
  CHECK(*lab.judged("FV-3001").find("supply")->find("lot")->text() == "L8");
}

TEST_CASE("an analyser's own table is taken by its description, and checked without being taken") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  const std::string layout = lab.put("layout.json", description);
  CHECK(take(lab, described, "") == 2);
  const std::string file = lab.put("bench.csv", described);
  CHECK(lab.run([&](const shared_options& shared, const console& to) {
    return check_readings_file(shared, lab.at, {file, "", layout}, to);
  }) == 0);
  CHECK_THAT(lab.out, Contains("run R-9") && Contains("line 3: FV-3001 tube 2: H2 4.5") &&
                          Contains("nothing was taken in"));
  CHECK(tube_in(lab.judged("FV-3001"), 2).find("gases")->is_null());
  CHECK(take(lab, described, layout) == 0);
  CHECK(*tube_in(lab.judged("FV-3001"), 2).find("gases")->find("run")->text() == "R-9");
  CHECK(take(lab, "Label;H2;When\nFV-3001-02;4.5;9.4.2027 10:01\n", layout) == 2);
  CHECK_THAT(lab.err, Contains("line 2, H2"));
}

TEST_CASE("the description that was set up holds for every table, unless it is said to be plain") {
  laboratory lab;
  lab.at.by = "lf";
  const std::string layout = lab.put("layout.json", description);
  set_up_options o;
  o.profile = "fenwick-vale";
  o.people = {"R. Ashdown / ra / bench", "Dr L. Fennimore / lf / reader"};
  o.trying = true;
  o.layout = lab.put("bad.json", "{}");
  const auto set = [&] {
    return lab.run([&](const shared_options& shared, const console& to) {
      return set_up_laboratory(shared, lab.at, o, to);
    });
  };
  CHECK(set() == 2);
  o.layout = layout;
  REQUIRE(set() == 0);
  CHECK_THAT(lab.out, Contains("layout.json"));
  lab.at.by = "ra";
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  CHECK(take(lab, described, "") == 0);
  CHECK(take(lab, a_table, "") == 2);
  CHECK(take(lab, a_table, "plain") == 0);
}

TEST_CASE("a reading that was voided, or moved to another tube, keeps who said so and why") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(a_table) == 0);
  take_back_options moved{"FV-3001", "reading", 1, "the tubes were swapped in the rack"};
  moved.to_tube = 2;
  REQUIRE(lab.back(moved) == 0);
  CHECK(*tube_in(lab.judged("FV-3001"), 2).find("gases")->find("run")->text() == "R-7");
  CHECK(tube_in(lab.judged("FV-3001"), 1).find("gases")->is_null());
  REQUIRE(lab.back({"FV-3001", "reading", 1, "spilled"}) == 0);
  CHECK(tube_in(lab.judged("FV-3001"), 2).find("gases")->is_null());
  const auto rows = receiving_store::open(lab.store())->find("FV-3001");
  REQUIRE(rows->rulings.size() == 2);
  CHECK(rows->rulings.back().by + rows->rulings.back().reason == "R. Ashdownspilled");
  CHECK(rows->readings.size() == 1);
}

} // namespace qb::lab
