// A kit that is well costs a scan and two keys; what is wrong in a line is named by its place; and
// lists bear the mark of what they were drawn from.
#include "app/store/laboratory_store.hpp"
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Contains;

namespace {

void issue(laboratory& lab, const std::string& kit) {
  if (lab.work(true).empty()) return;
  REQUIRE(laboratory_store::open(lab.store())
              ->put({issued_kit_row{kit, "", "lactulose-10g", "L7", "2027-12-31", "", ""}}));
}

int lines(laboratory& lab, const std::string& typed, const std::string& posted) {
  const std::string file = lab.put("typed", typed);
  lab.at.standard_input = std::fopen(file.c_str(), "r");
  const int status = lab.run([&](const shared_options& shared, const console& to) {
    receive_options o;
    o.posted = posted;
    return receive_boxes(shared, lab.at, o, to);
  });
  std::fclose(lab.at.standard_input);
  return status;
}

} // namespace

TEST_CASE(
    "a well kit whose log has not come costs a scan, y and Enter: the register has its test") {
  laboratory lab;
  lab.import();
  issue(lab, "FV-2C7H");
  CHECK(lines(lab, "FV-2C7H\ny\n", "2027-04-08") == 0);
  CHECK_THAT(lab.out, Contains("lactulose-10g") && Contains("lot L7") &&
                          Contains("box: nothing amiss") && Contains("arrived 9 Apr 2027"));
}

TEST_CASE("the day of the postmark is told once, of every box whose own words tell none") {
  laboratory lab;
  lab.import();
  REQUIRE(lines(lab, "FV-3001\ny\n", "2027-04-08") == 0);
  CHECK_FALSE(Contains("posted").match(lab.out));
  REQUIRE(lines(lab, "FV-3001\ny posted 2027-04-07\n", "2027-04-08") == 0);
  const auto boxes = receiving_store::open(lab.store())->find("FV-3001")->arrivals;
  CHECK(boxes.at(1).posted == "2027-04-08");
  CHECK(boxes.back().posted == "2027-04-07");
  CHECK(lines(lab, "q\n", "soon") == 2);
  CHECK_THAT(lab.err, Contains("--posted"));
}

TEST_CASE("a word that is none is named by its place, and not repeated: it may be a name") {
  laboratory lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y !4 Marchbank -7") == 2);
  CHECK_THAT(lab.err, Contains("box, word 3") && !Contains("Marchbank"));
  CHECK(lab.box("FV-3001", "y posted soon") == 2);
  CHECK_THAT(lab.err, Contains("box, word 2"));
}

TEST_CASE(
    "a wrong word of a paper sheet is named by its column, its line and, if no name, itself") {
  laboratory lab;
  const auto said = [&](const std::string& sheet) {
    CHECK(lines(lab, "FV-3002\nlactulose-10g y\nFV-3002\npaper " + sheet + "\nq\n", "") == 2);
    return lab.err;
  };
  const std::string times = "2027-04-05 07:30 07:45 08:00 08:15 08:30 08:45 09:00 09:15 09:30";
  CHECK_THAT(said(times + " 9:75 drink ?"),
             Contains("line 4, times, column 66, \"9:75\": found no time of day") &&
                 Contains("for tube 10"));
  CHECK_THAT(said(times + " 09:45 drink 7:3x-07:40"),
             Contains("line 4, drink, column 78: found no time of the drink"));
  CHECK_THAT(said(times + " 09:45 drink ? soon"), Contains("line 4, sheet, column 80"));
  const std::string scores = " 09:45 drink 07:32 scores 000 000 000 000 000 000 000 000 000 ";
  CHECK_THAT(said(times + scores + "0/0/99"),
             Contains("line 4, scores, column 127, \"0/0/99\": found no such score"));
  CHECK_THAT(said(times + scores + "000 A@29:00 000"), Contains("line 4, scores, column 131"));
  CHECK_THAT(said(times + scores + "000 scores 000"), Contains("scores told twice"));
}

TEST_CASE("the day's list and the audit bear the mark of an invented laboratory") {
  laboratory lab;
  lab.import();
  CHECK_THAT(lab.work(true), Contains("For trying only"));
  CHECK_THAT(lab.audit(), Contains(",mark\r\n") && Contains("For trying only"));
}

} // namespace qb::lab
