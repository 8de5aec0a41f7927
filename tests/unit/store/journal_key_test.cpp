// The key of a journal: made before the first row, mended from its other copy, destroyed in place.
#include "app/store/journal_key.hpp"

#include "app/machine/files.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <fcntl.h>
#include <linux/capability.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

using namespace qb;

namespace {

namespace fs = std::filesystem;

event_row row(std::int64_t n) {
  return {n, "{\"name\":\"Maren Oakhollow\",\"seq\":" + std::to_string(n) + "}",
          std::string(64, 'a')};
}

// What may stand in the place of a copy and cannot be read as one.
enum class unread { folder, link, pipe, far_too_long };
constexpr unread every_unread[] = {unread::folder, unread::link, unread::pipe,
                                   unread::far_too_long};

// A journal of two rows and a draft, closed.
class kept {
public:
  kept() {
    QB_BELIEVE(make_private_file(journal()));
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
  // Something is in that copy's place that tells nothing now.
  void take_away(int n, unread how) const {
    fs::rename(copy(n), copy(n) + "-kept");
    if (how == unread::folder) fs::create_directory(copy(n));
    if (how == unread::link) fs::create_symlink(copy(n) + "-kept", copy(n));
    if (how == unread::pipe) REQUIRE(::mkfifo(copy(n).c_str(), 0600) == 0);
    if (how == unread::far_too_long) REQUIRE(write_file(copy(n), std::string(5000, '0')));
  }
  [[nodiscard]] bool is_away(int n, unread how) const {
    const auto is = fs::symlink_status(copy(n)).type();
    if (how == unread::folder) return is == fs::file_type::directory;
    if (how == unread::link) return is == fs::file_type::symlink;
    if (how == unread::pipe) return is == fs::file_type::fifo;
    return is == fs::file_type::regular && fs::file_size(copy(n)) == 5000;
  }

private:
  test::own_folder folder_;
};

std::string flipped(std::string bytes, std::size_t at) {
  bytes[at] = static_cast<char>(bytes[at] ^ 0x11);
  return bytes;
}

// Looks with the eyes of a person who is not the system's keeper: whoever is it gives up, for that
// moment, the right to read and write what is shut (capabilities(7)).
class as_a_person {
public:
  static void opens(const std::string& path) { QB_BELIEVE(::chmod(path.c_str(), 0600) == 0); }
  static void shut(const std::string& path) { QB_BELIEVE(::chmod(path.c_str(), 0) == 0); }
  template <class Look>
  void looks(const Look& look) const {
    const given_up until_the_end;
    look();
  }

private:
  class given_up {
  public:
    given_up() {
      QB_BELIEVE(::syscall(SYS_capget, &head_, had_.data()) == 0);
      auto left = had_;
      left[0].effective &= ~(1U << CAP_DAC_OVERRIDE | 1U << CAP_DAC_READ_SEARCH);
      QB_BELIEVE(::syscall(SYS_capset, &head_, left.data()) == 0);
    }
    given_up(const given_up&) = delete;
    given_up& operator=(const given_up&) = delete;
    ~given_up() { QB_BELIEVE(::syscall(SYS_capset, &head_, had_.data()) == 0); }

  private:
    __user_cap_header_struct head_{_LINUX_CAPABILITY_VERSION_3, 0};
    std::array<__user_cap_data_struct, _LINUX_CAPABILITY_U32S_3> had_{};
  };
};

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
  const std::string key = k.text(1);
  k.put(1, flipped(key, 50));
  k.put(2, "");
  const auto no = journal_file::open(k.journal());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::malformed);
  CHECK(no.error().found == "a key that is damaged");
  CHECK(read_file(k.journal()).value() == before);
  CHECK(k.text(1) == flipped(key, 50)); // the one that it was, but for a byte
  CHECK(k.text(2).empty());
  CHECK_FALSE(is_erased_journal(k.journal()));
}

TEST_CASE("a copy that cannot be read now is written over by nobody: the other opens the test") {
  for (const unread how : every_unread) {
    for (const int copy : {1, 2}) {
      INFO("copy " << copy << ", kind " << static_cast<int>(how));
      const kept k;
      k.take_away(copy, how);
      CHECK(k.rows() == 2);
      CHECK(k.is_away(copy, how));
    }
  }
}

TEST_CASE("where no copy is whole and one cannot be read now, that one is named and all stays") {
  for (const unread how : every_unread) {
    for (const int copy : {1, 2}) {
      for (const bool other_there : {false, true}) {
        INFO("copy " << copy << ", kind " << static_cast<int>(how));
        const kept k;
        const std::string other = flipped(k.text(3 - copy), 40);
        k.put(3 - copy, other);
        if (!other_there) fs::remove(k.copy(3 - copy));
        k.take_away(copy, how);
        const auto no = journal_file::open(k.journal());
        REQUIRE_FALSE(no.has_value());
        CHECK(no.error().file == k.copy(copy));
        CHECK_FALSE(is_erased_journal(k.journal()));
        CHECK_FALSE(make_journal_key(k.journal()));
        CHECK(k.is_away(copy, how));
        CHECK(fs::exists(k.copy(3 - copy)) == other_there);
        if (other_there) CHECK(k.text(3 - copy) == other);
      }
    }
  }
}

TEST_CASE("a copy that the person may not read stays as it is") {
  const kept k;
  const as_a_person who;
  for (const int copy : {1, 2}) {
    const std::string right = k.text(copy);
    who.shut(k.copy(copy));
    who.looks([&] { CHECK(k.rows() == 2); });
    who.opens(k.copy(copy));
    CHECK(k.text(copy) == right);
  }
  k.put(2, flipped(k.text(2), 40));
  who.opens(k.copy(2));
  who.shut(k.copy(1));
  who.looks([&] {
    const auto no = journal_file::open(k.journal());
    REQUIRE_FALSE(no.has_value());
    CHECK(no.error().file == k.copy(1));
    CHECK(no.error().kind == refusal_kind::machine);
  });
  who.opens(k.copy(1));
  CHECK(k.rows() == 2);
}

TEST_CASE("what cannot be destroyed is told before anything is, and both copies stay") {
  const kept k;
  const std::string right = k.text(1);
  const as_a_person who;
  who.shut(k.copy(2));
  who.looks([&] {
    const auto no = destroy_journal_key(k.journal());
    REQUIRE_FALSE(no.has_value());
    CHECK(no.error().file == k.copy(2));
  });
  who.opens(k.copy(2));
  CHECK(k.text(1) == right);
  CHECK(k.text(2) == right);
  CHECK(k.rows() == 2);
}

TEST_CASE("two copies of different keys both stay, and the first is believed") {
  const kept k;
  const std::string right = k.text(1);
  const std::string foreign = kept().text(1);
  k.put(2, foreign);
  CHECK(k.rows() == 2);
  CHECK(k.text(1) == right);
  CHECK(k.text(2) == foreign);
}

TEST_CASE("a damaged copy is destroyed too, however long it is by now") {
  for (const std::size_t size : {std::size_t{0}, std::size_t{40}, std::size_t{70000}}) {
    INFO(size << " bytes");
    const kept k;
    const std::string right = k.text(1);
    std::string damaged = right;
    damaged.resize(size, 'x');
    k.put(1, damaged);
    k.put(2, flipped(right, 50));
    const int first = ::open(k.copy(1).c_str(), O_RDONLY);
    REQUIRE(destroy_journal_key(k.journal()));
    CHECK(is_erased_journal(k.journal()));
    CHECK(k.text(1) == k.text(2));
    CHECK(beginning_of(first) == k.text(1)); // in its own blocks
    ::close(first);
  }
}

TEST_CASE("copies set aside keep their bytes, and open the journal once they are mended by hand") {
  const kept k;
  const std::string right = k.text(1);
  const std::string aside = k.copy(1) + "-aside";
  k.put(1, flipped(right, 40));
  k.put(2, "");
  REQUIRE(set_journal_key_aside(k.journal(), aside));
  CHECK(read_file(aside + ".key-1").value() == flipped(right, 40));
  CHECK(read_file(aside + ".key-2").value().empty());
  CHECK_FALSE(fs::exists(k.copy(1)));
  CHECK(journal_file::open(k.journal()).error().found == "no key");
  k.put(1, flipped(read_file(aside + ".key-1").value(), 40));
  CHECK(k.rows() == 2);
  REQUIRE(set_journal_key_aside(k.journal(), aside)); // a whole one stays where it is
  CHECK(k.text(1) == right);
}

TEST_CASE("every file that holds a part of a key is told from all others") {
  for (const char* name :
       {"/t/one.key-1", "/t/one.key-2", "/t/one.damaged-1.key-1", "/t/one.key-2.77-0.new"})
    CHECK(is_key_file(name));
  for (const char* name : {"/t/one.journal", "/t.key-1/one.plan", "/t/one.damaged-1", "/t/one"})
    CHECK_FALSE(is_key_file(name));
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
