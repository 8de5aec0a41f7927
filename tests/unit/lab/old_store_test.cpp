// A store that a version before tests had rows of their own left behind: read as it was, nothing
// merged, nothing lost, and a copy of the file kept before anything is written.
#include "tests/unit/lab/laboratory.hpp"

#include <sqlite3.h>

namespace qb::lab {

using Catch::Contains;

namespace {

// tests/fixtures/stores/before-tests.sql: FV-7001 with two people's logs and one person's box,
// readings, override and conclusion; FV-7002 with log and box; FV-7003 with sheet and box; FV-7004
// with a box.
void old_store(const laboratory& lab) {
  std::ifstream in(repository() + "/tests/fixtures/stores/before-tests.sql", std::ios::binary);
  const std::string made{std::istreambuf_iterator<char>(in), {}};
  REQUIRE_FALSE(made.empty());
  sqlite3* raw = nullptr;
  REQUIRE(sqlite3_open(lab.store().c_str(), &raw) == SQLITE_OK);
  REQUIRE(sqlite3_exec(raw, made.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(raw);
}

bool copied(const laboratory& lab) {
  return std::filesystem::exists(lab.store() + ".before-1");
}

} // namespace

TEST_CASE(
    "two people under one kit of an old store are stopped and shown, and nobody has the box") {
  laboratory lab;
  lab.at.now = "2027-04-13 10:30";
  old_store(lab);
  CHECK_THAT(lab.work(true), Contains("test old-a") && Contains("test old-b"));
  CHECK(lab.report("FV-7001", "json") == 2);
  for (const char* test : {"old-a", "old-b"}) {
    CAPTURE(test);
    lab.at.test = test;
    CHECK(lab.report("FV-7001", "json") == 0);
    CHECK_THAT(lab.out, Contains("kit-shared") && Contains("\"conclusion\":null"));
  }
  CHECK_FALSE(copied(lab));
  lab.at.test = "old-a";
  CHECK(lab.assign({"FV-7001", "the name on the label"}) == 0);
  CHECK(copied(lab));
  CHECK(lab.report("FV-7001", "json") == 0);
  CHECK_THAT(lab.out, Contains("For the doctor to judge.") && !Contains("kit-shared"));
  lab.at.test = "old-b";
  CHECK(lab.report("FV-7001", "json") == 0);
  CHECK_THAT(lab.out, !Contains("For the doctor to judge.") && Contains("Farthingale"));
}

TEST_CASE("one person's kit, a sheet and a box of an old store are read as they were") {
  laboratory lab;
  lab.at.now = "2027-04-13 10:30";
  old_store(lab);
  const std::string work = lab.work();
  CHECK_THAT(work, Contains("FV-7002     lactulose-10g  2027-04-12") && Contains("FV-7003") &&
                       Contains("FV-7004"));
  CHECK(lab.report("FV-7003", "json") == 0);
  CHECK(lab.box("FV-7003", "y !4") == 0);
  CHECK_THAT(lab.out, Contains("the lid of tube 4"));
  CHECK(lab.report("FV-7003", "json") == 0);
  CHECK_THAT(lab.out, Contains("lid-bad"));
}

TEST_CASE("two people whose kit number was kept in two spellings are joined, stopped and shown") {
  laboratory lab;
  lab.at.now = "2027-04-13 10:30";
  old_store(lab);
  sqlite3* raw = nullptr;
  REQUIRE(sqlite3_open(lab.store().c_str(), &raw) == SQLITE_OK);
  REQUIRE(sqlite3_exec(raw,
                       "UPDATE log SET kit_number = 'fv 7001' WHERE test_id = 'old-b';"
                       "UPDATE bench_reading SET kit = 'FV 7001'",
                       nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(raw);
  CHECK_THAT(lab.work(true), Contains("test old-a") && Contains("test old-b"));
  CHECK(copied(lab));
  CHECK(lab.report("FV-7001", "json") == 2);
  CHECK_THAT(lab.err, Contains("2 tests of that number"));
  lab.at.test = "old-a";
  CHECK(lab.assign({"FV-7001", "the name on the label"}) == 0);
  CHECK(lab.report("FV-7001", "json") == 0);
  CHECK_THAT(lab.out, Contains("\"h2_ppm\":34") && Contains("For the doctor to judge."));
}

TEST_CASE("a log taken into an old store leaves what was there as it was, and a copy of the file") {
  laboratory lab;
  lab.at.now = "2027-04-13 10:30";
  old_store(lab);
  const auto texts = [&] {
    std::string out;
    const auto store = lab_store::open(lab.store()).value();
    const auto rows = store.list().value();
    for (const log_row& row : rows) {
      const auto versions = store.versions_of(row.test_id).value();
      for (const log_row& version : versions)
        if (row.test_id != "test-1") out += version.body + "\n";
    }
    return out;
  };
  const std::string before = texts();
  CHECK(before.size() > 10000);
  lab.import();
  CHECK(texts() == before);
  CHECK(copied(lab));
  CHECK(lab.check() == 0);
  lab.import_file("b.log.json", make_log({"test-2", "FV-3002"}));
  CHECK_FALSE(std::filesystem::exists(lab.store() + ".before-2"));
}

} // namespace qb::lab
