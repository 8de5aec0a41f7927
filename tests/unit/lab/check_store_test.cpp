// A store that is well, copied, and one in which something was touched.
#include "tests/unit/lab/laboratory.hpp"

#include "app/store/statement.hpp"

#include <sqlite3.h>
#include <sys/stat.h>

namespace qb::lab {

using Catch::Matchers::Contains;

namespace {

// Another program's hand on the store.
void touch(const laboratory& lab, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(lab.path("store.db").c_str(), &db) == SQLITE_OK);
  CHECK(run_sql(db, sql.c_str()));
  sqlite3_close(db);
}

// Two kits with log, box and readings.
void fill(laboratory& lab) {
  lab.import();
  lab.import({"test-2", "FV-3002"});
  REQUIRE(lab.box("FV-3001", "y") == 0);
  REQUIRE(lab.readings(std::string(table_head) + "FV-3001,1,4,1,,2027-04-09 10:30\n") == 0);
  ::chmod(lab.path("store.db").c_str(), 0600);
}

} // namespace

TEST_CASE("a store that was filled by every command is well, and so is its copy") {
  laboratory lab;
  fill(lab);
  CHECK(lab.check() == 0);
  CHECK_THAT(lab.out, Contains("2 tests by log, 2 versions, 2 kits") && Contains("nothing amiss"));
  REQUIRE(lab.back_up_to("copy.db") == 0);
  CHECK_THAT(lab.out, Contains("copy.db: 2 tests by log, 2 versions, 2 kits"));
  CHECK(lab.back_up_to("copy.db") == 2); // never over what is there
  CHECK(lab.back_up_to("store.db") == 2);
  CHECK(lab.check() == 0);
}

TEST_CASE("what a foreign hand added is named, and a store with a trigger is not worked with") {
  laboratory lab;
  fill(lab);
  touch(lab, "CREATE TABLE mine(x); CREATE VIEW v AS SELECT 1;");
  CHECK(lab.check() != 0);
  CHECK_THAT(lab.out, Contains("! foreign: a table mine that") && Contains("a view v that"));
  touch(lab, "DROP VIEW v; CREATE TRIGGER t AFTER INSERT ON log BEGIN DELETE FROM log; END;");
  CHECK(lab.check() != 0);
  CHECK_THAT(lab.out, Contains("a trigger t that"));
  CHECK(lab.import_file("c.log.json", make_log({"test-3", "FV-3003"})) == 2);
  CHECK_THAT(lab.err, Contains("trigger t"));
}

TEST_CASE("rows whose test or kit is nowhere else are named") {
  laboratory lab;
  fill(lab);
  touch(lab, "CREATE TABLE IF NOT EXISTS log_signature(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
             " test_id TEXT NOT NULL, digest TEXT NOT NULL, print TEXT NOT NULL,"
             " body TEXT NOT NULL, UNIQUE(test_id, digest, body)) STRICT;"
             "INSERT INTO log_signature VALUES(NULL,'test-9','d','p','b');"
             "UPDATE bench_tube SET kit='FV-9999' WHERE sample=3;");
  CHECK(lab.check() == 2);
  CHECK_THAT(lab.out, Contains("! orphan test-9: 1 row of log_signature") &&
                          Contains("! orphan FV-9999: 1 row of bench_tube"));
}

TEST_CASE("a damaged row is named with its kit, and the others are looked at all the same") {
  laboratory lab;
  fill(lab);
  touch(lab, "UPDATE log_packed SET body = substr(body, 1, 500) WHERE test_id='test-1';"
             "UPDATE log SET head = 'other' WHERE test_id='test-2';"
             "UPDATE bench_reading SET h2 = 'many';");
  CHECK(lab.check() == 1);
  CHECK_THAT(lab.out, Contains("! log FV-3001: a log that cannot be read") &&
                          Contains("! log FV-3002: the row beside a log says other") &&
                          Contains("! receiving FV-3001: "));
}

TEST_CASE("a log that does not match its own record is named by the check") {
  laboratory lab;
  REQUIRE(lab.import_file("a.log.json", changed(make_log(), "a little wind", "a gale")) == 0);
  CHECK(lab.check() == 2);
  CHECK_THAT(lab.out, Contains("! log FV-3001: the log of") && Contains("its own record"));
}

TEST_CASE("a store that others may read gets a note, a missing one and a letter are refused") {
  laboratory lab;
  CHECK(lab.check() == 2);
  lab.import();
  ::chmod(lab.path("store.db").c_str(), 0644);
  CHECK(lab.check() == 0);
  CHECK_THAT(lab.out, Contains("note: others than its owner may read the store"));
  lab.put("store.db", "a letter, long enough to be taken for a header of SQLite's, and a little "
                      "longer still, as letters are in spring");
  CHECK(lab.check() == 2);
}

TEST_CASE("a store whose pages were damaged says so, and the check ends") {
  laboratory lab;
  fill(lab);
  std::fstream f(lab.path("store.db"), std::ios::in | std::ios::out | std::ios::binary);
  f.seekp(4096 * 3);
  f << std::string(4096, '\x5a');
  f.close();
  CHECK(lab.check() == 1);
  CHECK_THAT(lab.out, Contains("! damage: "));
}

} // namespace qb::lab
