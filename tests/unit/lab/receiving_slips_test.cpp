// Slips of the hand while receiving: what is asked or refused, so that no kit, sheet or reading
// comes to stand for what nobody meant.
#include "app/lab/intake/unpack.hpp"
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Contains;

TEST_CASE("a tube's own label opens its kit and ticks the tube") {
  laboratory lab;
  lab.import();
  CHECK(lab.lines("fv-3001-03\nFV-3001-04\nFV-3001-04\ny\n") == 0);
  CHECK_THAT(lab.out, Contains("FV-3001  Odile Marchbank") && Contains("tube 3 (1 scanned)") &&
                          Contains("tube 4 (2 scanned)") && Contains("! tube 5 is not in the box"));
  CHECK_THAT(lab.out, !Contains("tube 3 is not in the box"));
  CHECK_THAT(lab.work(), !Contains("FV-3001-0"));
  CHECK(lab.box("FV-3001-01", "y FV-3001-02") == 0);
  // What was ticked before stays: one more label says nothing of the others.
  CHECK_THAT(lab.out, Contains("! tube 5 is not in the box") && !Contains("tube 2 is not") &&
                          !Contains("tube 3 is not"));
}

TEST_CASE("a label of another kit in the open box is refused, as a maker's code is") {
  laboratory lab;
  lab.import();
  CHECK(lab.lines("FV-3001\nFV-3002-03\ny\nFV-3002-03\n") == 2);
  CHECK_THAT(lab.err, Contains("a tube of kit FV-3002"));
  CHECK_THAT(lab.work(), Contains("FV-3002 ") && !Contains("FV-3002-03"));
}

TEST_CASE("a kit code whose check character does not fit is no kit") {
  laboratory lab;
  for (const char* code : {"FV2C-7HM2-3N4X", "fv2c7hm23n4x", "FV2C-7HM2-3N40"}) {
    CAPTURE(code);
    CHECK(lab.lines(std::string(code) + "\n") == 2);
    CHECK_THAT(lab.err, Contains("kit code: found"));
  }
  CHECK(lab.lines("FV2C-7HM2-3N4X\n") == 2);
  CHECK_THAT(lab.err, Contains("a code whose check character does not fit"));
  CHECK_THAT(lab.work(true), Contains("nothing waits\n"));
  CHECK(lab.lines("FV-ACDE\n") == 0); // a kit code's number may have no digit
  CHECK_THAT(lab.work(), Contains("FV-ACDE"));
}

TEST_CASE("a second sheet that differs is asked about, and the first stays kept beside it") {
  laboratory lab;
  const std::string sheet = "2027-04-05 07:30 07:45 08:00 - - - - - - - drink 07:32";
  const std::string other = "2027-04-06 07:30 07:45 08:01 - - - - - - - drink 07:32";
  CHECK(lab.box("FV-3002", "y lactulose-10g") == 0);
  CHECK(lab.paper(sheet) == 0);
  CHECK(lab.paper(sheet) == 0); // the same sheet is no second one
  CHECK(lab.paper(other) == 2);
  CHECK_THAT(lab.err, Contains("a sheet of 2027-04-05 is kept (2027-04-05 07:30") &&
                          Contains("another day, times") && Contains("--confirm replaces"));
  CHECK(lab.box("FV-3002", "y") == 0);
  CHECK_THAT(lab.out, !Contains("kept beside it"));
  CHECK(lab.paper(other, {"replaces"}) == 0);
  CHECK(lab.box("FV-3002", "y") == 0);
  CHECK_THAT(lab.out, Contains("! the last sheet of 2 counts; one of 2027-04-05 is kept beside it "
                               "and differs in: day, times"));
  CHECK(lab.lines("FV-3002\npaper " + sheet + "\ny\n") == 0);
  CHECK_THAT(lab.out, Contains("does it count in its place? (y or n)") && Contains("kept:"));
}

TEST_CASE("a drink where none can be is asked about, once, and stands against the sheet") {
  laboratory lab;
  const std::string times = "2027-04-05 07:30 07:45 08:00 08:15 - - - - - - drink ";
  for (const char* drink : {"11:00", "06:30-06:35", "07:32-11:00", "07:35-07:32"}) {
    CAPTURE(drink);
    CHECK(lab.paper(times + drink) == 2);
    CHECK_THAT(lab.err,
               Contains("drink: found the drink") && Contains("--confirm drink-as-written"));
  }
  CHECK(lab.paper(times + "11:00", {"drink-as-written"}) == 0);
  CHECK(lab.box("FV-3002", "y lactulose-10g") == 0);
  CHECK_THAT(lab.out, Contains("! the drink began at 11:00, after tube 4 at 08:15, by the sheet"));
}

TEST_CASE("what the record tells stands below the box, and a box without fault says so of itself") {
  laboratory lab;
  made_test m;
  m.tube_4_late = std::chrono::minutes{9};
  std::string log = make_log(m);
  const auto at = log.find("a little wind");
  REQUIRE(at != log.npos);
  log.replace(at, 8, "a lot of");
  CHECK(lab.import_file("edited.log.json", log) == 0);
  CHECK_THAT(lab.out, Contains("edited.log.json: kit FV-3001: does not match its own record: from "
                               "event ") &&
                          Contains("taken in, and marked"));
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out, Contains("box: nothing amiss") &&
                          Contains("! does not match its own record") &&
                          Contains("! tube 4 closed"));
  lab.audit();
  CHECK_THAT(lab.out, !Contains("lactulose-10g,1,1"));
  CHECK_THAT(lab.err, Contains("1 test left out, whose log does not match its own record"));
}

TEST_CASE("a signature that does not hold is told with the box") {
  laboratory lab;
  lab.put("a.log.json.minisig", "no signature");
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out, Contains("! the signature beside the log does not hold"));
}

TEST_CASE("a reading of a time to come is refused; one before test or arrival stands against it") {
  laboratory lab;
  lab.import();
  const std::string head = table_head;
  CHECK(lab.readings(head + "FV-3001,1,4,1,,2027-04-09 10:31\n") == 2);
  CHECK_THAT(lab.err, Contains("line 2, measured_at: found 2027-04-09T10:31, a time to come, "
                               "expected at most 2027-04-09T10:30"));
  CHECK(lab.readings(head + "Odile Marchbank,1,4,1,,2027-04-09 10:00\n") == 2);
  CHECK_THAT(lab.err, Contains("line 2, kit: found no kit number") && !Contains("Marchbank"));
  CHECK(lab.readings(head + "FV-3001,1,4,1,,2027-04-05 10:00\nFV-3001,2,4,1,,2027-04-08 10:00\n"
                            "FV-3001,3,4,1,,2027-04-09 10:30\n") == 0);
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out,
             Contains("! tube 1 was measured at 2027-04-05T10:00, before the day of the test") &&
                 Contains("! tube 2 was measured at 2027-04-08T10:00, before the box arrived") &&
                 !Contains("tube 3 was measured"));
}

TEST_CASE("small words: sealed files, folders, days to come and the calendar's end") {
  laboratory lab;
  std::filesystem::create_directories(lab.path("post"));
  seal::identity own;
  own.scalar.bytes.fill(5);
  lab.put("post/a.pdf.age",
          seal::seal_to(seal::recipient_of(own), "{}", seal::chance_for(seal::secret<64>{}, "{}"))
              .value());
  CHECK(lab.import_folder("post") == 2);
  CHECK_THAT(lab.err, Contains("a sealed file, expected --identity FILE"));
  CHECK_THAT(lab.out, Contains("0 new, 0 grown, 0 already there, 1 refused"));
  lab.put("post/a.pdf", "%PDF-1.5 the same, unsealed; no log in it");
  (void)lab.import_folder("post");
  CHECK_THAT(lab.out, Contains("1 sealed file passed over, here unsealed too"));
  CHECK(lab.import_file("none.log.json", "{") == 2);
  lab.codes = lab.path("post");
  CHECK(lab.lines("") == 2);
  CHECK_THAT(lab.err, Contains("found a folder, expected a file"));
  lab.codes.clear();
  lab.at.now = "2027-12-29 09:00";
  CHECK(lab.box("FV-3004", "y lactulose-10g") == 0);
  CHECK_THAT(lab.out, Contains("(closed days are known until 28 Dec 2027 only)"));
  lab.import();
  lab.at.now = "2027-01-04 09:00";
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK(lab.lines("FV-3001\n") == 0);
  CHECK_THAT(lab.out, Contains("92 days from now"));
}

} // namespace qb::lab
