// Which test is running: by its index, else by the records themselves, and never by a file's time.
#include "app/store/running_index.hpp"

#include "app/handover/erase_test.hpp"
#include "app/machine/files.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <sys/stat.h>

using namespace qb;
using namespace qb::test;

namespace {

class tests_of_a_device {
public:
  // A test whose last entry is of that many minutes later than the first one's.
  std::string keep(const std::string& id, int minutes) {
    patient p;
    p.clock.pass(std::chrono::minutes{minutes});
    p.open_and_plan();
    const std::string path = journal_path(folder.path(), id);
    auto open = open_journal(path);
    REQUIRE(open);
    REQUIRE(open->keeper.append(p.e.events()));
    return path;
  }
  [[nodiscard]] std::optional<std::string> running() const {
    return running_journal(folder.path(), handover::journals_in(folder.path()));
  }
  void make_newest(const std::string& path) const {
    std::filesystem::last_write_time(path, std::filesystem::file_time_type::clock::now() +
                                               std::chrono::hours{5});
  }
  [[nodiscard]] std::string path(const std::string& name) const { return folder.file(name); }

  own_folder folder;
  own_disk device;
};

} // namespace

TEST_CASE("the test that was begun last runs, whatever the times of the files are") {
  tests_of_a_device d;
  const std::string one = d.keep("one", 0);
  const std::string two = d.keep("two", 50);
  REQUIRE(note_running(d.device, d.folder.path(), "one"));
  d.make_newest(two);
  CHECK(d.running() == one);
  REQUIRE(note_running(d.device, d.folder.path(), "two"));
  d.make_newest(one);
  CHECK(d.running() == two);
}

TEST_CASE("without an index, or with a damaged one, the records say which is the latest") {
  tests_of_a_device d;
  const std::string one = d.keep("one", 50);
  d.make_newest(d.keep("two", 0));
  CHECK(d.running() == one);
  REQUIRE(note_running(d.device, d.folder.path(), "two"));
  std::string text = read_file(running_index_path(d.folder.path())).value();
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::string damaged = text;
    damaged[i] = static_cast<char>(damaged[i] ^ 0x02);
    REQUIRE(write_file(running_index_path(d.folder.path()), damaged));
    CHECK(d.running() == one);
  }
  REQUIRE(note_running(d.device, d.folder.path(), "gone"));
  CHECK(d.running() == one);
}

TEST_CASE("what is no test hides none and is not waited for: empty, foreign, a pipe, a folder") {
  tests_of_a_device d;
  const std::string one = d.keep("one", 0);
  REQUIRE(write_file(d.path("empty.journal"), ""));
  REQUIRE(write_file(d.path("foreign.journal"), "a shopping list"));
  REQUIRE(::mkfifo(d.path("pipe.journal").c_str(), 0600) == 0);
  REQUIRE(make_folder(d.path("folder.journal")));
  std::filesystem::create_symlink("/dev/zero", d.path("endless.journal"));
  std::filesystem::create_symlink("/dev/zero", running_index_path(d.folder.path()));
  for (const char* name : {"empty.journal", "foreign.journal"})
    d.make_newest(d.path(name));
  CHECK(d.running() == one);
}
