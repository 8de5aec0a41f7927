// Kit numbers that an earlier version kept as they were typed, brought under their one form.
#include "app/store/lab_store.hpp"
#include "app/store/receiving_store.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sqlite3.h>
#include <unistd.h>

namespace qb {

namespace {

namespace fs = std::filesystem;

// A laboratory's store in a folder of its own, gone with the test.
class old_file {
public:
  old_file() : folder_(fs::temp_directory_path() / ("qb-folding-" + std::to_string(::getpid()))) {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    std::ofstream{path()};
    REQUIRE(lab_store::open(path()));
    auto db = receiving_store::open(path());
    REQUIRE(db->put(arrival_row{0, "FV-1", "at", "by", "no", "p", "", "", "no", "no", "told"}));
  }
  ~old_file() { fs::remove_all(folder_); }
  old_file(const old_file&) = delete;
  old_file& operator=(const old_file&) = delete;
  [[nodiscard]] std::string path() const { return folder_ / "store.db"; }
  [[nodiscard]] std::size_t copies() const {
    std::size_t n = 0;
    while (fs::exists(path() + ".before-" + std::to_string(n + 1)))
      ++n;
    return n;
  }
  void sql(const std::string& text) const {
    sqlite3* raw = nullptr;
    REQUIRE(sqlite3_open(path().c_str(), &raw) == SQLITE_OK);
    const int done = sqlite3_exec(raw, text.c_str(), nullptr, nullptr, nullptr);
    INFO(sqlite3_errmsg(raw));
    CHECK(done == SQLITE_OK);
    sqlite3_close(raw);
  }

private:
  fs::path folder_;
};

reading_row gas(const char* kit, std::int64_t tube, const char* h2, const char* test = "") {
  reading_row r;
  r.kit = kit;
  r.sample = tube;
  r.h2 = h2;
  r.measured_at = "2027-04-09T10:30";
  r.test = test;
  return r;
}

// Keeps a reading and answers its entry, by a connection that was opened before there was anything
// to fold.
std::int64_t put(receiving_store& db, const reading_row& row) {
  REQUIRE(db.put({row}));
  return db.find(row.kit)->readings.back().entry;
}

} // namespace

TEST_CASE("rows of every spelling come under the one form when the store is opened") {
  const old_file file;
  auto old = receiving_store::open(file.path()).value();
  (void)put(old, gas("FV-1", 4, "7"));
  file.sql("UPDATE bench_arrival SET kit = 'fv 1'");
  file.sql("INSERT INTO bench_override VALUES(NULL,'fv–1','lid-bad',4,'by','why','at',0,'');"
           "INSERT INTO bench_ruling VALUES(NULL,'FV-2','reading',1,0,'moved','','fv  1',4,'[]',"
           "'by','why','at')");
  REQUIRE(lab_store::open(file.path()));
  const auto rows = receiving_store::open(file.path())->find("FV-1");
  CHECK(rows->arrivals.size() == 1);
  CHECK(rows->readings.size() == 1);
  CHECK(rows->overrides.size() == 1);
  REQUIRE(rows->rulings.size() == 1);
  CHECK(rows->rulings.front().to_kit == "FV-1");
  CHECK(file.copies() == 1);
}

TEST_CASE("a store whose numbers have their form is not touched, and gets no copy") {
  const old_file file;
  file.sql("UPDATE bench_arrival SET kit = '=1+1'"); // no kit number: it stands for itself
  const auto bytes = [&] {
    std::ifstream in(file.path(), std::ios::binary);
    return std::string{std::istreambuf_iterator<char>(in), {}};
  };
  const std::string before = bytes();
  REQUIRE(lab_store::open(file.path()));
  CHECK(bytes() == before);
  CHECK(file.copies() == 0);
}

TEST_CASE("one reading under two spellings stays once, and what was decided about either stands") {
  const old_file file;
  auto db = receiving_store::open(file.path()).value();
  const std::int64_t first = put(db, gas("FV-1", 4, "7"));
  const std::int64_t second = put(db, gas("fv 1", 4, "7"));
  const std::int64_t other = put(db, gas("fv 1", 4, "8"));
  REQUIRE(db.put(choice_row{0, "fv 1", 4, second, "by", "why", "at"}));
  REQUIRE(db.put(choice_row{0, "fv 1", 4, other, "by", "why", "at"}));
  REQUIRE(lab_store::open(file.path()));
  const auto rows = receiving_store::open(file.path())->find("FV-1");
  REQUIRE(rows->readings.size() == 2);
  CHECK(rows->readings[0].entry == first);
  CHECK(rows->readings[1].entry == other);
  REQUIRE(rows->choices.size() == 2);
  CHECK(rows->choices[0].reading == first);
  CHECK(rows->choices[1].reading == other);
}

TEST_CASE("the same figures of two tests are two readings, whatever their spelling") {
  const old_file file;
  auto old = receiving_store::open(file.path()).value();
  (void)put(old, gas("FV-1", 4, "7", "test-1"));
  (void)put(old, gas("fv 1", 4, "7", "test-2"));
  REQUIRE(lab_store::open(file.path()));
  const auto db = receiving_store::open(file.path());
  CHECK(db->find("FV-1", {"test-1", "test-2"})->readings.size() == 2);
  CHECK(file.copies() == 0); // nothing was changed
}

TEST_CASE("folding is done once: another opening changes nothing and copies nothing") {
  const old_file file;
  file.sql("UPDATE bench_arrival SET kit = 'fv 1'");
  REQUIRE(lab_store::open(file.path()));
  REQUIRE(lab_store::open(file.path()));
  CHECK(file.copies() == 1);
}

} // namespace qb
