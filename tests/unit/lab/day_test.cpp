// A laboratory's day on a real store: what is typed, what is kept, what is answered.
#include "core/session/limits.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <sys/stat.h>

namespace qb::lab {

using Catch::Contains;

TEST_CASE("the first line of a kit is what matters, and the box is kept with what it lacks") {
  laboratory lab;
  lab.import();
  CHECK(lab.lines("fv-3001\ny -7 !4\n") == 0);
  CHECK_THAT(lab.out, Contains("FV-3001  Odile Marchbank, born 17 May 1948  lactulose-10g  tested "
                               "6 Apr 2027, 3 days ago  completed, all 10 tubes  log here"));
  CHECK_THAT(lab.out, Contains("! tube 7 is not in the box"));
  CHECK_THAT(lab.out, Contains("! the lid of tube 4 was not closed well"));
  CHECK_THAT(lab.out, Contains("arrived 9 Apr 2027, result due 13 Apr 2027"));
}

namespace {

// The first line that `receive` says of a kit after such a log, or such options of its box.
std::string first_line(const std::vector<payload>& told_later, const std::string& box) {
  std::vector<event> events = make_events();
  for (const payload& one : told_later) {
    event next = events.back();
    next.what = one;
    ++next.seq;
    events.push_back(std::move(next));
  }
  laboratory lab;
  REQUIRE(lab.import_file("a.log.json", write_log(events, "quarterbreath 0.1.0", "")) == 0);
  REQUIRE(lab.box("FV-3001", box) == 0);
  REQUIRE(lab.box("FV-3001", "y") == 0); // what was just told stands in the next look's line
  return lab.out.substr(0, lab.out.find('\n'));
}

payload vomited() {
  return reported_drink_trouble{drink_mishap::vomited, drink_part::less_than_half,
                                made_start() + std::chrono::minutes{2}, how_known::told, ""};
}

} // namespace

TEST_CASE("the first line of a kit tells of stopping, vomiting and feeling unwell, and only then") {
  const auto words = [](const std::string& line) {
    std::vector<std::string> out;
    for (const char* one :
         {"STOPPED or vomited", "STOPPED", "VOMITED", "WARNING SIGNS TOLD", "unwell"})
      if (line.find(one) != std::string::npos) out.emplace_back(one);
    return out;
  };
  using texts = std::vector<std::string>;
  CHECK(words(first_line({}, "y")).empty());
  CHECK(words(first_line({test_ended{"stopped"}}, "y")) == texts{"STOPPED"});
  CHECK(words(first_line({vomited()}, "y")) == texts{"VOMITED"});
  CHECK(words(first_line({reported_red_flags{sample_number(6), {"fainting"}}}, "y")) ==
        texts{"WARNING SIGNS TOLD"});
  CHECK(words(first_line({reported_red_flags{sample_number(6), {}}}, "y")).empty());
  CHECK(words(first_line({reported_unwell{}}, "y")) == texts{"unwell"});
  CHECK(words(first_line({reported_unwell{}, vomited(), test_ended{"unwell"}}, "y")) ==
        texts{"STOPPED", "VOMITED", "unwell"});
  // By the sheet in the box; the word holds STOPPED too.
  CHECK(words(first_line({}, "y stopped")) == texts{"STOPPED or vomited", "STOPPED"});
}

TEST_CASE(
    "a kit's line alone is kept: what came is on the list though nobody looked at its tubes") {
  laboratory lab;
  CHECK(lab.lines("FV-3001\n") == 0);
  CHECK_THAT(lab.out, Contains("FV-3001  test not known  no log yet"));
  CHECK_THAT(lab.work(), Contains("FV-3001     not known      2027-04-09  2027-04-13  its tubes"));
}

TEST_CASE("the next kit may be scanned before the last one's tubes were told") {
  laboratory lab;
  CHECK(lab.lines("FV-3001\nFV-3002\nlactulose-10g y\n\nnonsense\nq\nFV-3003\n") == 2);
  CHECK_THAT(lab.err, Contains("no kit is open"));
  const std::string work = lab.work();
  CHECK_THAT(work, Contains("FV-3001") && Contains("FV-3002"));
  CHECK_THAT(work, !Contains("FV-3003"));
}

TEST_CASE("a box told again keeps its tubes unless they are told again too") {
  laboratory lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y -7") == 0);
  CHECK(lab.box("FV-3001", "posted 2027-04-07") == 0);
  CHECK_THAT(lab.out, Contains("tube 7 is not in the box"));
  CHECK_THAT(lab.out, !Contains("identifiers"));
  CHECK(lab.box("FV-3001", "-8") == 0);
  CHECK_THAT(lab.out, !Contains("tube 7") && Contains("tube 8 is not in the box"));
}

TEST_CASE("the log may come after the box") {
  laboratory lab;
  CHECK(lab.box("FV-3001", "lactulose-10g y 4@08:25") == 0);
  CHECK_THAT(lab.out, Contains("nothing amiss"));
  lab.import();
  CHECK(lab.lines("FV-3001\n\n") == 0);
  CHECK_THAT(lab.out, Contains("tube 4: its label says 08:25, the record 08:15"));
}

TEST_CASE("words that cannot be are refused, and nothing of the line is kept") {
  laboratory lab;
  lab.import();
  for (const char* words :
       {"y -11", "y !77 -77", "12@08:00", "y 4@26:00", "arrived 2027-04-10 10:00",
        "arrived yesterday", "posted soon", "Odile Marchbank", "no-such-test"}) {
    CAPTURE(words);
    CHECK(lab.box("FV-3001", words) == 2);
    CHECK_THAT(lab.err, !Contains("Marchbank"));
  }
  CHECK_THAT(lab.work(), Contains("its tubes: here, not looked at"));
  lab.at.by.clear();
  CHECK(lab.box("FV-3001", "y") == 2);
  CHECK_THAT(lab.err, Contains("--by"));
}

TEST_CASE("a kit code names the kit and its test; another laboratory's is refused") {
  laboratory lab;
  CHECK(lab.box("fv2c7hm23n4q", "y") == 0);
  CHECK_THAT(lab.work(), Contains("FV-2C7H     lactose-25g"));
}

TEST_CASE("scanned tubes are kept one by one, and are there when the kit is opened again") {
  laboratory lab;
  lab.import();
  lab.codes = lab.put("codes.csv", "maker_code,kit,tube\nA1,FV-3001,1\nA2,FV-3001,2\n");
  CHECK(lab.lines("FV-3001\nA1\nA1\n") == 0); // and `receive` is left
  CHECK_THAT(lab.work(), Contains("its tubes: here, not looked at"));
  CHECK(lab.lines("FV-3001\nA2\n\n") == 0);
  CHECK_THAT(lab.out, Contains("1 tube was scanned before") && Contains("tube 2 (2 scanned)") &&
                          Contains("! tube 3 is not in the box") &&
                          !Contains("tube 1 is not in the box"));
  CHECK(lab.lines("FV-3001\n") == 0); // the box is told: they count no more
  CHECK_THAT(lab.out, !Contains("scanned before"));
}

TEST_CASE("a maker's codes stand for tubes; those not scanned are missing") {
  laboratory lab;
  lab.import();
  std::string list = "maker_code,kit,tube\nX-1,FV-9999,1\n";
  std::string scans = "FV-3001\n";
  for (int n = 1; n <= 10; ++n) {
    list += "A" + std::to_string(n) + ",FV-3001," + std::to_string(n) + "\n";
    if (n != 6) scans += "A" + std::to_string(n) + "\n";
  }
  lab.codes = lab.put("codes.csv", list);
  CHECK(lab.lines(scans + "X-1\ny\n") == 2);
  CHECK_THAT(lab.err, Contains("a tube of kit FV-9999"));
  CHECK_THAT(lab.out, Contains("! tube 6 is not in the box"));
  CHECK_THAT(lab.out, !Contains("tube 5 is not"));
}

TEST_CASE("a paper sheet is asked about before it is kept, and marked as what it is") {
  laboratory lab;
  const std::string evening =
      "2027-04-05 23:30 23:45 00:00 00:15 00:30 00:45 01:00 01:15 01:30 01:45 drink 23:32-23:34";
  CHECK(lab.paper(evening) == 2);
  CHECK_THAT(lab.err, Contains("--confirm past-midnight"));
  CHECK(lab.paper(evening, {"past-midnight"}) == 0);
  CHECK_THAT(lab.out, Contains("patient-written, to the minute"));
  CHECK(lab.paper("2027-04-05 07:30 07:45") == 2);
  CHECK(lab.paper("2027-05-05 07:30 07:45 - - - - - - - -") == 2);
  CHECK_THAT(lab.err, Contains("a day to come"));
  CHECK(lab.paper("07:30 07:45 - - - - - - - -") == 2);
  CHECK_THAT(lab.err, Contains("no day"));
  const std::string times = "2027-04-05 07:30 07:45 - - - - - - - - ";
  CHECK(lab.paper(times + "scores 000 111 - - - - - -") == 2);
  CHECK_THAT(lab.err, Contains("scores of 8 tubes, expected 10"));
  CHECK(lab.paper(times + "scores 000 11x - - - - - - - -") == 2);
  CHECK_THAT(lab.err, Contains("no such score for tube 2"));
  CHECK(lab.paper(times + "drink ? soon") == 2);
  CHECK(lab.paper(times + "drink ? scores 000 111 2/-/0 - - - - - - -", {"replaces"}) == 0);
}

TEST_CASE("within receive a sheet's question is answered by y, or typed again") {
  laboratory lab;
  const std::string sheet =
      "paper 2027-04-05 12:30 12:45 1:00 1:15 1:30 1:45 2:00 2:15 2:30 2:45 drink ?\n";
  CHECK(lab.lines("FV-3002\nlactulose-10g y\nFV-3002\n" + sheet + "n\n" + sheet + "y\ny\n") == 0);
  CHECK_THAT(lab.out, Contains("and 13:00 is meant? (y or n)") && Contains("not kept") &&
                          Contains("kept: patient-written"));
  CHECK_THAT(lab.work(), Contains("readings of tubes 1 to 10"));
}

TEST_CASE("a sheet may come before its box is told: gaps of the sheet are tubes nobody expects") {
  laboratory lab;
  CHECK(lab.lines("FV-3002\npaper lactulose-10g 2027-04-05 07:30 07:45 08:00 - 08:30 08:45 09:00 "
                  "09:15 09:30 09:45 drink ?\ny\n") == 0);
  CHECK_THAT(lab.out, Contains("nothing amiss"));
  CHECK_THAT(lab.work(), Contains("readings of tubes 1 to 3 and 5 to 10"));
}

TEST_CASE("a table of readings is taken whole or not at all, and once") {
  laboratory lab;
  lab.import();
  const std::string good = std::string(table_head) + "FV-3001,1,4,1,1.4,2027-04-09 10:00\n";
  CHECK(lab.readings(good + "FV-3001,11,4,1,,2027-04-09 10:00\n") == 2);
  CHECK_THAT(lab.err,
             Contains("table.csv: line 3, tube: found tube 11 of FV-3001, expected 1 to 10"));
  CHECK(lab.readings(good + "FV-0000,1,4,1,,2027-04-09 10:00\n") == 2);
  CHECK_THAT(lab.err, Contains("line 3, kit: found FV-0000, which is not here"));
  CHECK(lab.readings(good) == 0);
  CHECK_THAT(lab.out, Contains("1 new, 0 already there") &&
                          Contains("corrected to 5.0 % of carbon dioxide") &&
                          Contains("carbon dioxide 1.4 %, under 2 %"));
  CHECK(lab.readings(good) == 0);
  CHECK_THAT(lab.out, Contains("0 new, 1 already there"));
}

TEST_CASE("a second reading is kept beside the first and asked about until somebody chooses") {
  laboratory lab;
  lab.import();
  CHECK(lab.readings(std::string(table_head) + "FV-3001,1,4,1,,2027-04-09 10:00\n") == 0);
  CHECK(lab.readings(std::string(table_head) + "FV-3001,1,9,1,,2027-04-09 10:20\n") == 0);
  CHECK_THAT(lab.out, Contains("FV-3001 tube 1 was read more than once; which counts?") &&
                          Contains("reading 1: H2 4") && Contains("reading 2: H2 9"));
  CHECK(lab.choose(1, 2, "") == 2);
  CHECK(lab.choose(1, 2, "two\nlines") == 2);
  CHECK(lab.choose(1, 2, std::string(most_bench_reason + 1, 'x')) == 2);
  CHECK(lab.choose(2, 2, "why") == 2);
  CHECK(lab.choose(1, 2, "the first syringe leaked") == 0);
  CHECK_THAT(lab.out, Contains("H2 9"));
  CHECK(lab.export_to("out") == 0);
  CHECK_THAT(lab.file("out/tubes.csv"), Contains(",9,1,,,,,2027-04-09T10:20,chosen,"));
}

TEST_CASE("an export has no name, no birth date and no free words, and is its owner's alone") {
  laboratory lab;
  made_test m;
  m.food_told = true;
  lab.import(m);
  CHECK(lab.box("FV-3001", "y -7") == 0);
  CHECK(lab.export_to("out") == 0);
  const std::string tables = lab.file("out/tests.csv") + lab.file("out/tubes.csv");
  const std::string fhir = lab.file("out/fhir.ndjson");
  for (const char* word : {"Marchbank", "1948", "a little wind", "toast"})
    CHECK_THAT(tables, !Contains(word));
  for (const char* word : {"Marchbank", "1948-05-17"})
    CHECK_THAT(fhir, !Contains(word));
  CHECK_THAT(fhir, !Contains("urn:uuid:"));
  for (const char* name : {"out/tests.csv", "out/tubes.csv", "out/fhir.ndjson"}) {
    struct stat about {};
    REQUIRE(::stat(lab.path(name).c_str(), &about) == 0);
    CHECK((about.st_mode & 0777) == 0600);
  }
}

TEST_CASE("an export of paper has its moments to the minute, and says how many kits have a log") {
  laboratory lab;
  lab.import();
  CHECK(lab.paper("2027-04-06 23:50 00:05 00:20 - 00:50 01:05 01:20 01:35 01:50 02:05 "
                  "drink 23:52-00:01",
                  {"past-midnight"}) == 0);
  CHECK(lab.export_to("out") == 0);
  CHECK_THAT(lab.out, Contains("2 kits in tests.csv and tubes.csv, 1 of them with a log"));
  CHECK_THAT(lab.file("out/tests.csv"),
             Contains(",paper,60,2027-04-06,2027-04-06T23:50,2027-04-06T23:52,2027-04-07T00:01,"));
}

TEST_CASE("forgetting asks first, takes everything and leaves counts") {
  laboratory lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  const std::string before = lab.audit();
  CHECK_THAT(before, Contains("lactulose-10g,2 and on,1,9,9,0,0,0,12,12,12"));
  CHECK(lab.forget(false) == 2);
  CHECK_THAT(lab.err, Contains("--sure"));
  CHECK(lab.forget(true) == 0);
  CHECK(lab.forget(true) == 2);
  CHECK_THAT(lab.work(true), Contains("nothing waits\n"));
  CHECK_THAT(lab.audit(), Contains("of people who were forgotten,1,9,9,0,0,0,,,,"));
}

} // namespace qb::lab
