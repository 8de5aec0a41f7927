// The journal on a real file: kept rows, one copy at a time, other kinds of file, failures, drafts.
// It is the only place where a person's morning is kept, so it refuses rather than guesses.
#include "app/store/journal_file.hpp"

#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace qb;

namespace {

namespace fs = std::filesystem;

// A folder of its own, gone with the test.
class own_folder {
public:
  own_folder() {
    std::string name = (fs::temp_directory_path() / "qb-journal-XXXXXX").string();
    QB_BELIEVE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~own_folder() {
    std::error_code none;
    fs::remove_all(path_, none);
  }
  own_folder(const own_folder&) = delete;
  own_folder& operator=(const own_folder&) = delete;
  [[nodiscard]] std::string file(const char* name = "a.journal") const {
    return (path_ / name).string();
  }

private:
  fs::path path_;
};

event_row row(std::int64_t n) {
  return {n, "{\"seq\":" + std::to_string(n) + "}", std::string(64, 'a')};
}

void sql(const std::string& path, const char* text) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  REQUIRE(sqlite3_exec(db, text, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(db);
}

} // namespace

TEST_CASE("rows are read back as they were kept, after closing and opening again") {
  const own_folder folder;
  {
    auto j = journal_file::open(folder.file());
    REQUIRE(j.has_value());
    CHECK(j->last_seq() == 0);
    REQUIRE(j->append({row(1), row(2)}).has_value());
    REQUIRE(j->append({row(3)}).has_value());
    CHECK(j->last_seq() == 3);
  }
  const auto j = journal_file::open(folder.file());
  REQUIRE(j.has_value());
  CHECK(j->last_seq() == 3);
  const auto rows = j->read_all();
  REQUIRE(rows.has_value());
  REQUIRE(rows->size() == 3);
  CHECK((*rows)[1].body == "{\"seq\":2}");
  CHECK((*rows)[2].hash == std::string(64, 'a'));
}

TEST_CASE("a second copy of the program is refused while the first has the test") {
  const own_folder folder;
  {
    const auto first = journal_file::open(folder.file());
    REQUIRE(first.has_value());
    const auto second = journal_file::open(folder.file());
    REQUIRE_FALSE(second.has_value());
    CHECK(second.error().found == "a second copy of the program using this test");
    CHECK(exit_status(second.error()) == 1);
  }
  CHECK(journal_file::open(folder.file()).has_value());
}

TEST_CASE("another kind of file is refused and left as it was") {
  const own_folder folder;
  std::ofstream(folder.file()) << std::string(5000, 'x');
  const auto no = journal_file::open(folder.file());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found == "another kind of file");
  CHECK(exit_status(no.error()) == 2);
  CHECK(fs::file_size(folder.file()) == 5000);
  // A database of another program.
  const std::string other = folder.file("other.journal");
  sql(other, "CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT);"
             "INSERT INTO meta VALUES('format','quarterbreath-lab-store'),('version','1');");
  CHECK(journal_file::open(other).error().found == "another kind of file");
}

TEST_CASE("a journal of a newer version is refused in its own words") {
  const own_folder folder;
  REQUIRE(journal_file::open(folder.file()).has_value());
  sql(folder.file(), "UPDATE meta SET value='3' WHERE key='version'");
  const auto no = journal_file::open(folder.file());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::newer);
  CHECK(no.error().found == "3");
}

TEST_CASE("a batch is kept whole or not at all, and after a failure nothing more is written") {
  const own_folder folder;
  auto j = journal_file::open(folder.file());
  REQUIRE(j.has_value());
  REQUIRE(j->append({row(1)}).has_value());
  // The second row of the batch has a number that is taken.
  const auto failed = j->append({row(2), row(1)});
  REQUIRE_FALSE(failed.has_value());
  CHECK(exit_status(failed.error()) == 1);
  CHECK(j->last_seq() == 1);
  REQUIRE(j->failure().has_value());
  const auto later = j->append({row(2)});
  REQUIRE_FALSE(later.has_value());
  CHECK(sentence(later.error()) == sentence(failed.error()));
  CHECK(j->read_all().value().size() == 1);
  // Opened again it goes on.
  j = journal_file::open(folder.file("b.journal"));
  auto again = journal_file::open(folder.file());
  REQUIRE(again.has_value());
  CHECK(again->append({row(2)}).has_value());
}

TEST_CASE("a folder that cannot hold the file is a failure of the machine") {
  const auto no = journal_file::open("/nowhere/at/all.journal");
  REQUIRE_FALSE(no.has_value());
  CHECK(exit_status(no.error()) == 1);
  CHECK(no.error().file == "/nowhere/at/all.journal");
}

TEST_CASE("what was typed and not yet confirmed is kept key by key, and an empty text removes it") {
  const own_folder folder;
  {
    auto j = journal_file::open(folder.file());
    REQUIRE(j->keep_draft("who.name", "Maren").has_value());
    REQUIRE(j->keep_draft("who.name", "Maren Oakhollow").has_value());
    REQUIRE(j->keep_draft("who.kit", "FV-2071").has_value());
    REQUIRE(j->keep_draft("who.doctor", "x").has_value());
    REQUIRE(j->keep_draft("who.doctor", "").has_value());
    REQUIRE(j->keep_draft("who.nothing", "").has_value());
  }
  const auto j = journal_file::open(folder.file());
  const auto kept = j->drafts();
  REQUIRE(kept.has_value());
  CHECK(*kept == std::map<std::string, std::string>{{"who.kit", "FV-2071"},
                                                    {"who.name", "Maren Oakhollow"}});
  CHECK(j->last_seq() == 0); // drafts are not part of the record
}

TEST_CASE("each commit is synced: the file is set to FULL and PERSIST") {
  // SQLite's documentation of PRAGMA synchronous: FULL (2) syncs at the critical moments.
  const own_folder folder;
  {
    auto j = journal_file::open(folder.file());
    REQUIRE(j->append({row(1)}).has_value());
    // PERSIST leaves the rollback journal in place, its head overwritten with zeros: it keeps its
    // blocks until they are overwritten, and rolls nothing back.
    std::ifstream side(folder.file() + "-journal", std::ios::binary);
    std::string head(8, 'x');
    REQUIRE(side.read(head.data(), 8));
    CHECK(head == std::string(8, '\0'));
  }
  const std::string source = test::source_file("app/store/journal_file.cpp");
  CHECK(source.find("PRAGMA synchronous=FULL") != std::string::npos);
}

TEST_CASE("a process that dies in the middle leaves the test free and what was kept whole") {
  const own_folder folder;
  const pid_t child = ::fork();
  if (child == 0) {
    auto j = journal_file::open(folder.file());
    const bool good = j.has_value() && j->append({row(1), row(2)}).has_value();
    ::raise(good ? SIGKILL : SIGTERM);
    ::_exit(1);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFSIGNALED(status));
  CHECK(WTERMSIG(status) == SIGKILL);
  const auto j = journal_file::open(folder.file());
  REQUIRE(j.has_value());
  CHECK(j->read_all().value().size() == 2);
}
