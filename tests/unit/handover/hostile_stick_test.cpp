// A stick on which somebody laid something under the name of the hand-over: nothing is waited for,
// followed, or written over, and the files go out under another name.
#include "app/handover/whose_file.hpp"
#include "app/handover/written_together.hpp"
#include "app/machine/files.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <sys/stat.h>

using namespace qb;
using namespace qb::handover;
using namespace qb::test;

namespace {

namespace fs = std::filesystem;

result<exported_files> handed_over(const own_folder& stick) {
  return write_together(this_disk(), stick.path(), {{".log.json", "{}"}, {".csv", "a"}},
                        {"quarterbreath-FV2071", "one"});
}

void goes_beside(const own_folder& stick) {
  const auto out = handed_over(stick);
  REQUIRE(out);
  CHECK(out->renamed);
  CHECK(out->paths.front() == stick.file("quarterbreath-FV2071-2.log.json"));
}

} // namespace

TEST_CASE("a pipe under the name of the hand-over is not waited for") {
  const own_folder stick;
  REQUIRE(::mkfifo(stick.file("quarterbreath-FV2071.log.json").c_str(), 0600) == 0);
  goes_beside(stick);
}

TEST_CASE("a link under the name of the hand-over is not followed, endless or out of the stick") {
  for (const std::string to :
       {"/dev/zero", "/dev/tty", "nowhere", "quarterbreath-FV2071.log.json"}) {
    const own_folder stick;
    const std::string link = stick.file("quarterbreath-FV2071.log.json");
    fs::create_symlink(to, link);
    goes_beside(stick);
    CHECK(fs::read_symlink(link) == to);
  }
}

TEST_CASE(
    "a folder, and a file of endless length, under the name of the hand-over are left alone") {
  const own_folder stick;
  fs::create_directories(stick.file("quarterbreath-FV2071.csv"));
  goes_beside(stick);
  const own_folder other;
  const std::string log = other.file("quarterbreath-FV2071.log.json");
  REQUIRE(write_file(log, ""));
  fs::resize_file(log, std::uintmax_t{1} << 33U); // a hole, which takes no room
  goes_beside(other);
}

TEST_CASE("looking for what is to be erased, links and pipes are not followed either") {
  const own_folder folder;
  REQUIRE(::mkfifo(folder.file("quarterbreath-A.log.json").c_str(), 0600) == 0);
  fs::create_symlink("quarterbreath-B.log.json", folder.file("quarterbreath-B.log.json"));
  CHECK(files_of_test(this_disk(), folder.path(), "one").empty());
}
