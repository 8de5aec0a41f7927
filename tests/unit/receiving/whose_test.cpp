// Whose a row is, in the orders in which logs, boxes and sheets can come.
#include "tests/unit/receiving/kits.hpp"

namespace qb::test {

namespace {

const known_test odile = log_of("test-odile", "Odile Marchbank");
const known_test tobin = log_of("test-tobin", "Tobin Farthingale");

} // namespace

TEST_CASE("a box that was entered for a test is no other's when a second log comes") {
  kit_of kit("FV-7001");
  kit.box("test-odile");
  kit.reading("test-odile", 1);
  kit.conclusion_for("test-odile");
  const kit_file file = whose(kit.rows, {odile, tobin});
  CHECK(rows_of(file, "test-odile").arrivals.size() == 1);
  CHECK(rows_of(file, "test-odile").readings.size() == 1);
  const received_kit& other = rows_of(file, "test-tobin");
  CHECK((other.arrivals.empty() && other.tubes.empty() && other.readings.empty() &&
         other.conclusions.empty()));
  CHECK(file.stopped.size() == 1);
  CHECK(check_identity(other, tobin.who).front().rule == "kit-shared");
}

TEST_CASE("what no test was known for is the only one's, and nobody's as soon as there are two") {
  kit_of kit("FV-7001");
  kit.box("");
  kit.reading("", 1);
  CHECK(whose(kit.rows, {}).nobodys.arrivals.size() == 1);
  CHECK(whose(kit.rows, {}).stopped.empty());
  const kit_file one = whose(kit.rows, {odile});
  CHECK(rows_of(one, "test-odile").readings.size() == 1);
  CHECK(rows_of(one, "test-odile").tubes.size() == 3);
  CHECK(one.stopped.empty());
  const kit_file two = whose(kit.rows, {odile, tobin});
  CHECK(rows_of(two, "test-odile").readings.empty());
  CHECK(rows_of(two, "test-tobin").readings.empty());
  CHECK((two.nobodys.arrivals.size() == 1 && two.nobodys.readings.size() == 1));
  CHECK(two.stopped.size() == 2);
}

TEST_CASE("a kit goes on once a person who knew of every test said whose the box is") {
  kit_of kit("FV-7001");
  const auto box = kit.box("");
  kit.rule(ruled::box, box, row_word::is_of, "test-tobin");
  kit.rule(ruled::kit, 0, row_word::is_of, "test-tobin").known = {"test-odile", "test-tobin"};
  const kit_file file = whose(kit.rows, {odile, tobin});
  CHECK(file.stopped.empty());
  CHECK(rows_of(file, "test-tobin").arrivals.size() == 1);
  CHECK(rows_of(file, "test-odile").arrivals.empty());
  const kit_file three = whose(kit.rows, {odile, tobin, log_of("test-maren", "Maren Oakhollow")});
  CHECK(three.stopped.size() == 1); // nobody knew of the third
  CHECK(rows_of(three, "test-tobin").arrivals.size() == 1);
}

TEST_CASE("a box that names somebody else than the only log is nobody's, with what came with it") {
  kit_of kit("FV-7001");
  kit.box("", {"Tobin Farthingale", {}, {}, {}});
  kit.reading("", 1);
  const kit_file file = whose(kit.rows, {odile});
  CHECK(rows_of(file, "test-odile").arrivals.empty());
  CHECK(rows_of(file, "test-odile").readings.empty());
  CHECK(file.stopped.size() == 1);
  kit_of same("FV-7001");
  same.box("", {"MARCHBANK, Odile", {}, {}, {}});
  CHECK(whose(same.rows, {odile}).stopped.empty());
}

TEST_CASE("a sheet is a test of its own, and a log that comes later is a second") {
  kit_of kit("FV-7003");
  kit.sheet("sheet-1");
  kit.box("sheet-1");
  const kit_file alone = whose(kit.rows, {});
  CHECK(rows_of(alone, "sheet-1").arrivals.size() == 1);
  CHECK(alone.stopped.empty());
  const kit_file file = whose(kit.rows, {odile});
  CHECK(rows_of(file, "test-odile").arrivals.empty());
  CHECK(rows_of(file, "sheet-1").arrivals.size() == 1);
  CHECK_FALSE(file.stopped.empty());
}

TEST_CASE("a sheet whose two identifiers are the log's is that test, with all that came with it") {
  kit_of kit("FV-7003");
  kit.sheet("sheet-1", odile.who);
  kit.box("sheet-1");
  const kit_file file = whose(kit.rows, {odile});
  REQUIRE(file.tests.size() == 1);
  CHECK((file.tests[0].rows.arrivals.size() == 1 && file.tests[0].rows.papers.size() == 1));
  CHECK(file.stopped.empty());
  // Another day is another test, whoever it is.
  CHECK(whose(kit.rows, {log_of("test-odile", "Odile Marchbank",
                                plus_days(test_day(), std::chrono::days{9}))})
            .tests.size() == 2);
}

TEST_CASE("a person may say that a sheet is a log's; what was entered for the sheet goes along") {
  kit_of kit("FV-7003");
  const auto sheet = kit.sheet("sheet-1");
  kit.box("sheet-1");
  kit.rule(ruled::sheet, sheet, row_word::is_of, "test-odile");
  const kit_file file = whose(kit.rows, {odile});
  REQUIRE(file.tests.size() == 1);
  CHECK(file.tests[0].rows.arrivals.size() == 1);
}

TEST_CASE("an earlier version's sheet goes with the only log of its day, and is else a test") {
  kit_of kit("FV-7003");
  kit.sheet("");
  kit.box("");
  CHECK(whose(kit.rows, {}).tests.size() == 1);
  CHECK(whose(kit.rows, {}).tests[0].rows.arrivals.size() == 1);
  CHECK(whose(kit.rows, {odile}).tests.size() == 1);
  CHECK(whose(kit.rows, {log_of("test-odile", "Odile Marchbank",
                                plus_days(test_day(), std::chrono::days{9}))})
            .tests.size() == 2);
  CHECK(whose(kit.rows, {odile, tobin}).nobodys.papers.size() == 1);
}

TEST_CASE("practice is no second test, and gets nothing that no test was known for") {
  kit_of kit("FV-7001");
  kit.box("");
  kit.reading("test-practice", 1);
  known_test practice = log_of("test-practice", "Odile Marchbank");
  practice.practice = true;
  CHECK(rows_of(whose(kit.rows, {practice}), "test-practice").arrivals.size() == 1);
  const kit_file file = whose(kit.rows, {practice, odile});
  CHECK(file.stopped.empty());
  CHECK(rows_of(file, "test-odile").arrivals.size() == 1);
  CHECK(rows_of(file, "test-odile").readings.empty());
  CHECK(rows_of(file, "test-practice").readings.size() == 1);
}

TEST_CASE("what was told by mistake counts no more, and a person may let it stand again") {
  kit_of kit("FV-7001");
  const auto box = kit.box("test-odile");
  kit.rows.tubes[1].lid = lid_state::bad;
  received_tube extra;
  extra.sample = 3;
  extra.box = box;
  kit.rows.tubes.push_back(extra);
  const auto reading = kit.reading("test-odile", 1);
  kit.rule(ruled::lid, box, row_word::taken_back).tube = 2;
  kit.rule(ruled::extra, box, row_word::taken_back).tube = 3;
  kit.rule(ruled::reading, reading, row_word::taken_back);
  const received_kit rows = rows_of(whose(kit.rows, {odile}), "test-odile");
  CHECK(rows.tubes.size() == 3);
  CHECK(rows.tubes[1].lid == lid_state::good);
  CHECK(rows.readings.empty());
  kit.rule(ruled::lid, box, row_word::stands).tube = 2;
  kit.rule(ruled::reading, reading, row_word::stands);
  const received_kit again = rows_of(whose(kit.rows, {odile}), "test-odile");
  CHECK(again.tubes[1].lid == lid_state::bad);
  CHECK(again.readings.size() == 1);
}

TEST_CASE("a reading may be moved to another tube, and to another kit's test and back") {
  kit_of kit("FV-7001");
  const auto reading = kit.reading("test-odile", 1);
  ruling& moved = kit.rule(ruled::reading, reading, row_word::moved, "test-odile");
  moved.to_kit = "FV-7001";
  moved.to_tube = 2;
  CHECK(rows_of(whose(kit.rows, {odile}), "test-odile").readings.at(0).sample == 2);
  ruling& away = kit.rule(ruled::reading, reading, row_word::moved, "test-tobin");
  away.to_kit = "FV-7002";
  away.to_tube = 5;
  CHECK(rows_of(whose(kit.rows, {odile}), "test-odile").readings.empty());
  kit_rows there = kit.rows;
  there.kit = "FV-7002";
  CHECK(rows_of(whose(there, {tobin}), "test-tobin").readings.at(0).sample == 5);
  kit.rule(ruled::reading, reading, row_word::stands);
  CHECK(rows_of(whose(kit.rows, {odile}), "test-odile").readings.at(0).sample == 1);
  there.rulings = kit.rows.rulings;
  CHECK(rows_of(whose(there, {tobin}), "test-tobin").readings.empty());
}

TEST_CASE("names are one person's whatever their case and order; two identifiers make one person") {
  const told_person a{"Odile Marchbank", test_day(), "77", ""};
  CHECK(person_differences(a, {"marchbank, ODILE", {}, {}, "9"}).empty());
  CHECK(person_differences(a, {"Odile Marchbanks", {}, "78", {}}) ==
        std::vector<std::string>{"name", "hospital number"});
  CHECK_FALSE(is_same_person(a, {"Odile Marchbank", {}, {}, {}}));
  CHECK(is_same_person(a, {"Odile Marchbank", {}, "77", {}}));
  CHECK_FALSE(is_same_person(a, {"Odile Marchbank", std::chrono::year{1948} / 1 / 1, "77", {}}));
  CHECK(person_text(read_person(person_text(a)).value()) == person_text(a));
  CHECK(person_text({}).empty());
  CHECK_FALSE(read_person("{\"name\":1}"));
}

TEST_CASE("record, sheet and box that do not name one person are a finding that bars the test") {
  kit_of kit("FV-7001");
  kit.box("test-odile", {"Tobin Farthingale", {}, {}, {}});
  const received_kit rows = rows_of(whose(kit.rows, {odile}), "test-odile");
  const auto found = check_identity(rows, odile.who);
  REQUIRE(found.size() == 1);
  CHECK(found[0].rule == "person-differs");
  CHECK(found[0].weight == consequence::cannot_be_used);
  CHECK(found[0].words.find("Farthingale") == std::string::npos);
}

TEST_CASE("what came between two looks is told, with who and when") {
  kit_of kit("FV-7001");
  kit.box("test-odile");
  const kit_rows before = kit.rows;
  CHECK(came_between(before, kit.rows).empty());
  kit.reading("test-odile", 4);
  kit.box("test-odile");
  kit.rows.arrivals.back().by = "B. Second";
  const auto words = came_between(before, kit.rows);
  REQUIRE(words.size() == 2);
  CHECK(words[0] == "B. Second told the box (2027-04-12 09:30 UTC)");
  CHECK(words[1] == "1 reading came, of tube 4");
}

} // namespace qb::test
