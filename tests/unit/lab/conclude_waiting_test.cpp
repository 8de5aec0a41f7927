// All tests that wait for a conclusion, one after the other, with few keys.
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Contains;

namespace {

// Two tests that wait, of the same box and readings.
class two_waiting : public laboratory {
public:
  two_waiting() {
    for (const char* n : {"1", "2"}) {
      made_test one;
      one.test_id = std::string("test-") + n;
      one.kit_number = std::string("FV-300") + n;
      import(one);
      REQUIRE(box(one.kit_number, "y") == 0);
      std::string table = table_head;
      for (int tube = 1; tube <= 10; ++tube)
        table += one.kit_number + "," + std::to_string(tube) + ",5,1,5,2027-04-09 10:00\n";
      REQUIRE(readings(table) == 0);
    }
    at.by = "Dr L. Fennimore";
  }
  int type(const std::string& lines) {
    const std::string file = put("typed", lines);
    at.standard_input = std::fopen(file.c_str(), "r");
    const int status = run([&](const shared_options& shared, const console& to) {
      return conclude_waiting(shared, at, {}, to);
    });
    std::fclose(at.standard_input);
    at.standard_input = nullptr;
    return status;
  }
  std::string words_of(const std::string& kit) {
    const json::value judged_kit = judged(kit);
    const json::value* concluded = judged_kit.find("conclusion");
    return concluded->is_null() ? "" : *concluded->find("words")->text();
  }
};

} // namespace

TEST_CASE("each test that waits is shown, and a line is the words for it, once it is confirmed") {
  two_waiting lab;
  CHECK(lab.type("For the doctor to judge.\ny\n=\ny\n") == 0);
  CHECK_THAT(lab.out, Contains("2 tests wait") && Contains("FV-3001  Odile Marchbank") &&
                          Contains("Gas: ") && Contains("is it test test-2?"));
  CHECK(lab.words_of("FV-3001") == "For the doctor to judge.");
  CHECK(lab.words_of("FV-3002") == "For the doctor to judge.");
  CHECK(lab.type("") == 0);
  CHECK_THAT(lab.out, Contains("0 tests wait"));
}

TEST_CASE("an empty line passes a test over, q ends, and what was not confirmed is not kept") {
  two_waiting lab;
  CHECK(lab.type("\nOf the second.\ny\n") == 0);
  CHECK(lab.words_of("FV-3001").empty());
  CHECK(lab.words_of("FV-3002") == "Of the second.");
  CHECK(lab.type("Nothing.\nn\n") == 2);
  CHECK(lab.words_of("FV-3001").empty());
  CHECK(lab.type("q\n") == 0);
  CHECK(lab.type("=\ny\n") == 2); // there are no words before
  CHECK(lab.words_of("FV-3001").empty());
}

TEST_CASE("what may not be concluded is refused, and the next test is shown all the same") {
  two_waiting lab;
  lab.at.by = "R. Ashdown";
  REQUIRE(lab.box("FV-3001", "n") == 0);
  lab.at.by = "Dr L. Fennimore";
  CHECK(lab.type("Of the first.\nOf the second.\ny\n") == 2);
  CHECK(lab.words_of("FV-3001").empty());
  CHECK(lab.words_of("FV-3002") == "Of the second.");
}

} // namespace qb::lab
