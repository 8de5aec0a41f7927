// The key of a journal: made before the first row, mended from its other copy, destroyed in place.
#include "app/store/journal_key.hpp"

#include "app/machine/files.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/stat.h>

using namespace qb;

namespace {

namespace fs = std::filesystem;

event_row row(std::int64_t n) {
  return {n, "{\"name\":\"Maren Oakhollow\",\"seq\":" + std::to_string(n) + "}",
          std::string(64, 'a')};
}

// A journal of two rows and a draft, closed.
class kept {
public:
  kept() {
    auto j = journal_file::open(journal());
    REQUIRE(j.has_value());
    REQUIRE(j->append({row(1), row(2)}).has_value());
    REQUIRE(j->keep_draft("who.name", "Maren Oakhollow").has_value());
  }
  [[nodiscard]] std::string journal() const { return folder_.file("a.journal"); }
  [[nodiscard]] std::string copy(int n) const { return folder_.file("a.key-" + std::to_string(n)); }
  [[nodiscard]] std::string text(int n) const { return read_file(copy(n)).value(); }
  [[nodiscard]] std::size_t rows() const {
    const auto j = journal_file::open(journal());
    return j && j->drafts()->size() == 1 ? j->read_all().value().size() : 0;
  }
  void put(int n, const std::string& bytes) const { REQUIRE(write_file(copy(n), bytes)); }

private:
  test::own_folder folder_;
};

std::string flipped(std::string bytes, std::size_t at) {
  bytes[at] = static_cast<char>(bytes[at] ^ 0x11);
  return bytes;
}

// What lies at the beginning of an open file, whatever it is called by now.
std::string beginning_of(int fd) {
  std::string out(1000, '\0');
  const ssize_t n = ::pread(fd, out.data(), out.size(), 0);
  out.resize(n < 0 ? 0 : static_cast<std::size_t>(n));
  return out;
}

} // namespace

TEST_CASE("no word of a row or a draft is in any file, and the key is its owner's alone") {
  const kept k;
  for (const auto& file : fs::directory_iterator(fs::path(k.journal()).parent_path())) {
    CHECK(read_file(file.path().string())->find("Oakhollow") == std::string::npos);
    struct stat about {};
    REQUIRE(::stat(file.path().c_str(), &about) == 0);
    CHECK((about.st_mode & 0777U) == 0600U);
  }
  CHECK(k.text(1) == k.text(2));
  CHECK(kept().text(1) != k.text(1)); // each test has one of its own
}

TEST_CASE("either copy opens the test, wherever the other is damaged, and mends it") {
  const kept k;
  const std::string right = k.text(1);
  for (const int damaged : {1, 2}) {
    for (std::size_t at = 0; at < right.size(); ++at) {
      INFO("copy " << damaged << ", byte " << at);
      k.put(damaged, flipped(right, at));
      REQUIRE(k.rows() == 2);
      REQUIRE(k.text(damaged) == right);
    }
    k.put(damaged, right.substr(0, 40));
    CHECK(k.rows() == 2);
    fs::remove(k.copy(damaged));
    CHECK(k.rows() == 2);
    CHECK(k.text(damaged) == right);
  }
}

TEST_CASE("with both copies damaged the journal is refused as damaged, and stays as it is") {
  const kept k;
  const std::string before = read_file(k.journal()).value();
  k.put(1, flipped(k.text(1), 50));
  k.put(2, "");
  const auto no = journal_file::open(k.journal());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::malformed);
  CHECK(no.error().found == "no key that can be read");
  CHECK(read_file(k.journal()).value() == before);
  CHECK_FALSE(is_erased_journal(k.journal()));
}

TEST_CASE(
    "a kill anywhere between the key and the first row leaves nothing, or a test that goes on") {
  const kept whole;
  const std::string key = whole.text(1);
  for (const bool second : {false, true}) {
    for (const bool file : {false, true}) {
      const test::own_folder folder;
      const std::string path = folder.file("b.journal");
      REQUIRE(write_file(folder.file("b.key-1"), key));
      if (second) REQUIRE(write_file(folder.file("b.key-2"), key));
      if (file) REQUIRE(make_private_file(path));
      auto j = journal_file::open(path);
      REQUIRE(j.has_value());
      REQUIRE(j->append({row(1)}).has_value());
      { const journal_file closed = std::move(*j); }
      CHECK(journal_file::open(path)->read_all().value().size() == 1);
      CHECK(read_file(folder.file("b.key-2")).value() == key);
    }
  }
}

TEST_CASE("a destroyed key is overwritten where it lies, and with it the test is erased") {
  const kept k;
  const std::string right = k.text(1);
  const std::string secret_line = right.substr(right.find('\n') + 1, 64);
  const int first = ::open(k.copy(1).c_str(), O_RDONLY);
  const int other = ::open(k.copy(2).c_str(), O_RDONLY);
  REQUIRE(beginning_of(first).find(secret_line) != std::string::npos);
  REQUIRE(destroy_journal_key(k.journal()));
  for (const int fd : {first, other}) {
    CHECK(beginning_of(fd).find(secret_line) == std::string::npos);
    ::close(fd);
  }
  CHECK(is_erased_journal(k.journal()));
  const auto no = journal_file::open(k.journal());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found == "a test that was erased");
  CHECK_FALSE(make_journal_key(k.journal()));
}

TEST_CASE("killed while it destroys its key a test is whole or erased, and never half of it") {
  const kept k;
  const std::string right = k.text(1);
  const std::string zeros = [&] {
    const kept gone;
    REQUIRE(destroy_journal_key(gone.journal()));
    return gone.text(1);
  }();
  REQUIRE(zeros.size() == right.size());
  for (std::size_t done = 0; done <= right.size(); ++done) {
    INFO(done << " bytes of the first copy overwritten");
    k.put(1, zeros.substr(0, done) + right.substr(done));
    const bool erased = is_erased_journal(k.journal());
    CHECK(erased == (k.text(1) == zeros));
    CHECK(k.rows() == (erased ? 0 : 2));
    k.put(2, right); // as it was, where opening mended nothing
  }
}

TEST_CASE(
    "a link in a copy's place is neither read nor followed, and the other copy is destroyed") {
  const kept k;
  const std::string right = k.text(1);
  const std::string elsewhere = k.copy(1) + "-elsewhere";
  fs::rename(k.copy(1), elsewhere);
  fs::create_symlink(elsewhere, k.copy(1));
  REQUIRE(destroy_journal_key(k.journal()));
  CHECK(read_file(elsewhere).value() == right);
  CHECK(is_erased_journal(k.journal()));
}

TEST_CASE("rows are sealed to their numbers: moved, swapped or emptied they are refused") {
  for (const char* change :
       {"UPDATE event SET seq=3 WHERE seq=2",
        "UPDATE event SET sealed=(SELECT e.sealed FROM event e WHERE e.seq=1) WHERE seq=2",
        "UPDATE event SET sealed=x'' WHERE seq=1", "UPDATE event SET sealed=zeroblob(90)"}) {
    const kept k;
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open(k.journal().c_str(), &db) == SQLITE_OK);
    REQUIRE(run_sql(db, change));
    sqlite3_close(db);
    INFO(change);
    const auto j = journal_file::open(k.journal());
    REQUIRE(j.has_value());
    const auto no = j->read_all();
    REQUIRE_FALSE(no.has_value());
    CHECK(no.error().kind == refusal_kind::malformed);
    CHECK(no.error().found == "a row that was changed");
  }
}

TEST_CASE("a journal from before keys is read and goes on unsealed until it is done") {
  const test::own_folder folder;
  const std::string path = folder.file("a.journal");
  test::write_unsealed_journal(path, {row(1), row(2)});
  {
    auto j = journal_file::open(path);
    REQUIRE(j.has_value());
    CHECK(j->drafts().value().at("who.name") == "Maren Oakhollow");
    REQUIRE(j->append({row(3)}).has_value());
    REQUIRE(j->keep_draft("who.name", "Maren").has_value());
  }
  auto again = journal_file::open(path);
  REQUIRE(again.has_value());
  CHECK(again->read_all().value().size() == 3);
  CHECK(again->read_all().value()[2].body == row(3).body);
  CHECK(again->drafts().value().at("who.name") == "Maren");
  CHECK_FALSE(fs::exists(folder.file("a.key-1")));
  REQUIRE(again->erase().has_value());
  { const journal_file closed = std::move(*again); }
  CHECK(is_erased_journal(path));
  CHECK(read_file(path)->find("Oakhollow") == std::string::npos);
}
