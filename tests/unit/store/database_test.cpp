// The connection under all stores: what a transaction leaves behind, and why a file is refused.
#include "app/store/database.hpp"

#include "app/store/statement.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline store {

namespace {

namespace fs = std::filesystem;

constexpr file_rules rules{access::make,
                           std::chrono::milliseconds{0},
                           "PRAGMA synchronous=OFF",
                           "a made-up file",
                           "another hand",
                           "one hand",
                           "a disk"};

file_rules with(access mode) {
  file_rules out = rules;
  out.mode = mode;
  return out;
}

// A path of its own with nothing there, and nothing left there.
class own_path {
public:
  own_path()
      : path_(
            (fs::temp_directory_path() / ("qb-database-" + std::to_string(::getpid()))).string()) {
    remove();
  }
  ~own_path() { remove(); }
  own_path(const own_path&) = delete;
  own_path& operator=(const own_path&) = delete;
  [[nodiscard]] const std::string& text() const { return path_; }

private:
  void remove() const {
    std::error_code none;
    fs::remove(path_, none);
    fs::remove(path_ + "-journal", none);
    fs::remove(path_ + "-copy", none);
  }
  std::string path_;
};

std::int64_t rows_of(const database& db) {
  statement count = db.prepare("SELECT count(*) FROM t");
  return count.step() == SQLITE_ROW ? count.integer(0) : -1;
}

} // namespace

TEST_CASE("a transaction that ends without a commit leaves nothing, a committed one stays") {
  const own_path path;
  auto db = database::open(path.text(), rules);
  REQUIRE(db.has_value());
  CHECK(db->is_blank().value());
  REQUIRE(db->run("CREATE TABLE t(x INTEGER) STRICT"));
  CHECK_FALSE(db->is_blank().value());
  {
    const transaction left(*db);
    REQUIRE(left.begun());
    REQUIRE(db->run("INSERT INTO t VALUES(1)"));
    CHECK(rows_of(*db) == 1);
    CHECK(db->in_transaction());
  }
  CHECK_FALSE(db->in_transaction());
  CHECK(rows_of(*db) == 0);
  {
    transaction kept(*db);
    REQUIRE(db->run("INSERT INTO t VALUES(1)"));
    REQUIRE(kept.commit());
    CHECK(kept.take_back()); // nothing is left to take back
  }
  CHECK(rows_of(*db) == 1);
}

TEST_CASE("a failed write says why, and is taken back at once") {
  const own_path path;
  auto db = database::open(path.text(), rules);
  REQUIRE(db.has_value());
  REQUIRE(db->run("CREATE TABLE t(x INTEGER NOT NULL) STRICT"));
  transaction write(*db);
  REQUIRE(db->run("INSERT INTO t VALUES(1)"));
  REQUIRE_FALSE(db->run("INSERT INTO t VALUES(NULL)"));
  const refusal no = write.failed("writing");
  CHECK(no.kind == refusal_kind::machine);
  CHECK(no.where == "writing");
  CHECK(no.found.find("NOT NULL") != std::string::npos);
  CHECK(no.expected == "a disk");
  CHECK_FALSE(db->in_transaction());
  CHECK(rows_of(*db) == 0);
}

TEST_CASE("a file that another holds is refused by who may hold it") {
  const own_path path;
  auto one = database::open(path.text(), rules);
  auto two = database::open(path.text(), rules);
  REQUIRE(one.has_value());
  REQUIRE(two.has_value());
  const transaction holding(*one);
  REQUIRE(holding.begun());
  transaction second(*two);
  CHECK_FALSE(second.begun());
  const refusal no = second.failed("writing");
  CHECK(no.found == "another hand");
  CHECK(no.expected == "one hand");
}

TEST_CASE("what a foreign schema would have SQLite do is not done") {
  const own_path path;
  {
    auto db = database::open(path.text(), rules);
    REQUIRE(db);
    REQUIRE(db->run("CREATE TABLE t(x); CREATE TABLE gone(x);"
                    "CREATE TRIGGER a AFTER INSERT ON t BEGIN DELETE FROM t; END;"
                    "CREATE VIEW v AS SELECT x FROM t;"));
  }
  auto db = database::open(path.text(), rules);
  REQUIRE(db);
  CHECK(db->run("INSERT INTO t VALUES(1)"));
  CHECK(rows_of(*db) == 1);
  CHECK_FALSE(db->run("SELECT x FROM v"));
  CHECK_FALSE(db->run("PRAGMA writable_schema=ON; UPDATE sqlite_schema SET sql='x'"));
  CHECK_FALSE(db->run("ATTACH 'another.db' AS another"));
}

TEST_CASE("a pipe, a device or a folder in the place of a file is refused and not waited for") {
  const own_path path;
  REQUIRE(::mkfifo(path.text().c_str(), 0600) == 0);
  for (const std::string& one :
       {path.text(), std::string("/dev/zero"), fs::temp_directory_path().string()}) {
    const auto no = database::open(one, with(access::read));
    REQUIRE_FALSE(no);
    CHECK(no.error().found == "a folder, a pipe or a device");
  }
}

TEST_CASE("a file is made only where that is wanted, and another kind is named") {
  const own_path path;
  for (const access mode : {access::read, access::write}) {
    const auto none = database::open(path.text(), with(mode));
    REQUIRE_FALSE(none.has_value());
    CHECK(none.error().kind == refusal_kind::missing);
    CHECK_FALSE(fs::exists(path.text()));
  }
  std::ofstream(path.text()) << "a letter, long enough to be taken for a header of SQLite's, "
                                "and a little longer still, as letters are";
  const auto letter = database::open(path.text(), with(access::write));
  const refusal no = letter ? letter->is_blank().error() : letter.error();
  CHECK(no.kind == refusal_kind::malformed);
  CHECK(no.found == "another kind of file");
  CHECK(no.expected == "a made-up file");
}

TEST_CASE("a format and a version that are read, and those that are not") {
  const own_path path;
  auto db = database::open(path.text(), rules);
  REQUIRE(db.has_value());
  CHECK(db->no_to_format("made-up", {"1"})->kind == refusal_kind::malformed); // no table at all
  REQUIRE(db->run("CREATE TABLE meta(key TEXT, value TEXT);"
                  "INSERT INTO meta VALUES('format','made-up'),('version','2')"));
  CHECK_FALSE(db->no_to_format("made-up", {"2"}).has_value());
  CHECK(db->no_to_format("other", {"2"})->kind == refusal_kind::malformed);
  CHECK(db->no_to_format("made-up", {"1"})->kind == refusal_kind::newer);
  CHECK(db->has_table("meta").value());
  CHECK_FALSE(db->has_table("t").value());
}

TEST_CASE("a copy holds what was committed and nothing that was not, and is its owner's alone") {
  const own_path path;
  const std::string there = path.text() + "-copy";
  auto db = database::open(path.text(), rules);
  REQUIRE(db.has_value());
  REQUIRE(db->run("CREATE TABLE t(x INTEGER) STRICT; INSERT INTO t VALUES(1),(2)"));
  auto other = database::open(path.text(), with(access::write));
  REQUIRE(other.has_value());
  {
    const transaction half_done(*other);
    REQUIRE(other->run("INSERT INTO t VALUES(3)"));
    REQUIRE(db->copy_to(there).has_value());
  }
  const auto copy = database::open(there, with(access::read));
  REQUIRE(copy.has_value());
  CHECK(rows_of(*copy) == 2);
  CHECK((fs::status(there).permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write));
  for (const auto& one : fs::directory_iterator(fs::temp_directory_path()))
    CHECK((one.path().extension() != ".new" || one.path().string().find(there) != 0));
}

TEST_CASE("a copy is made where nothing is, and a failed one leaves nothing") {
  const own_path path;
  const std::string there = path.text() + "-copy";
  auto db = database::open(path.text(), rules);
  REQUIRE(db.has_value());
  REQUIRE(db->run("CREATE TABLE t(x INTEGER) STRICT"));
  std::ofstream(there) << "a letter";
  const auto over = db->copy_to(there);
  REQUIRE_FALSE(over.has_value());
  CHECK(over.error().kind == refusal_kind::not_now);
  CHECK(over.error().file == there);
  CHECK(fs::file_size(there) == 8);
  CHECK_FALSE(db->copy_to(path.text()).has_value());
  CHECK_FALSE(db->copy_to(path.text() + "/no/folder").has_value());
  fs::remove(there);
  fs::create_symlink("nowhere", there);
  CHECK_FALSE(db->copy_to(there).has_value());
  CHECK(fs::is_symlink(there));
  fs::remove(there);
  auto other = database::open(path.text(), with(access::write));
  REQUIRE(other.has_value());
  REQUIRE(other->run("PRAGMA locking_mode=EXCLUSIVE; BEGIN EXCLUSIVE"));
  const auto held = db->copy_to(there);
  REQUIRE_FALSE(held.has_value());
  CHECK(held.error().found == "another hand");
  CHECK_FALSE(fs::exists(there));
}

} // namespace qb::inline store
