// Files written whole, and the machine's clocks, on a real disk.
// What cannot be written is told as a value that names the file.
#include "app/machine/clocks.hpp"
#include "app/machine/disk.hpp"
#include "app/machine/files.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <sys/stat.h>

using namespace qb;

namespace {

struct folder {
  std::string path;
  folder() {
    std::string shape = (std::filesystem::temp_directory_path() / "qb-files-XXXXXX").string();
    path = mkdtemp(shape.data());
  }
  folder(const folder&) = delete;
  folder& operator=(const folder&) = delete;
  ~folder() { std::filesystem::remove_all(path); }
};

} // namespace

TEST_CASE("a file is written whole, belongs to its owner alone, and leaves nothing beside it") {
  const folder f;
  const std::string path = f.path + "/a.json";
  std::string bytes("one\0two", 7);
  bytes.append(200'000, 'x');
  REQUIRE(write_file(path, bytes));
  CHECK(*read_file(path) == bytes);
  struct stat s {};
  REQUIRE(stat(path.c_str(), &s) == 0);
  CHECK((s.st_mode & 0777U) == 0600U);
  REQUIRE(write_file(path, "short"));
  CHECK(*read_file(path) == "short");
  CHECK(std::distance(std::filesystem::directory_iterator(f.path), {}) == 1);
}

TEST_CASE("what is not there is missing, and what cannot be written is refused by name") {
  const folder f;
  const auto none = read_file(f.path + "/none");
  REQUIRE_FALSE(none);
  CHECK(none.error().kind == refusal_kind::missing);
  CHECK(none.error().file == f.path + "/none");
  CHECK_FALSE(write_file(f.path + "/no/folder/a", "x"));
  REQUIRE(make_folder(f.path + "/some/folder"));
  REQUIRE(make_folder(f.path + "/some/folder"));
  CHECK(write_file(f.path + "/some/folder/a", "x"));
  CHECK_FALSE(make_folder(f.path + "/some/folder/a"));
}

TEST_CASE("only a regular file is read: nothing is waited for, and what is endless is not begun") {
  const folder f;
  const std::string pipe = f.path + "/pipe";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  for (const std::string& path : {pipe, std::string("/dev/zero"), f.path}) {
    const auto no = read_file(path);
    REQUIRE_FALSE(no);
    CHECK(no.error().kind == refusal_kind::malformed);
    CHECK(no.error().file == path);
    CHECK(no.error().expected == "a file");
  }
  std::filesystem::create_symlink("/dev/zero", f.path + "/endless");
  CHECK_FALSE(read_file(f.path + "/endless"));
}

TEST_CASE("a link is followed where it was named, and not where somebody may have laid it") {
  const folder f;
  REQUIRE(write_file(f.path + "/a", "x"));
  std::filesystem::create_symlink(f.path + "/a", f.path + "/link");
  CHECK(read_file(f.path + "/link") == std::string("x"));
  const auto no = read_file(f.path + "/link", links::refused);
  REQUIRE_FALSE(no);
  CHECK(no.error().found == "a link");
  own_disk here;
  CHECK_FALSE(here.read(f.path + "/link"));
  CHECK(here.read(f.path + "/a") == std::string("x"));
}

TEST_CASE("a file is read up to the limit, which stands in the refusal of a longer one") {
  const folder f;
  const std::string path = f.path + "/long";
  REQUIRE(write_file(path, ""));
  std::filesystem::resize_file(path, most_file_bytes);
  CHECK(read_file(path)->size() == most_file_bytes);
  std::filesystem::resize_file(path, most_file_bytes + 1);
  const auto no = read_file(path);
  REQUIRE_FALSE(no);
  CHECK(no.error().kind == refusal_kind::out_of_range);
  CHECK(no.error().expected == "at most 16777216 bytes");
}

TEST_CASE("a failed write leaves the old file as it was") {
  const folder f;
  const std::string path = f.path + "/taken";
  REQUIRE(make_folder(path + "/inside"));
  const auto refused = write_file(path, "x"); // a folder cannot be replaced by a file
  REQUIRE_FALSE(refused);
  CHECK(refused.error().where == "rename");
  CHECK(std::filesystem::is_directory(path + "/inside"));
  CHECK(std::distance(std::filesystem::directory_iterator(f.path), {}) == 1);
}

TEST_CASE("a mirrored file is written only when its mark is new") {
  const folder f;
  const std::string path = f.path + "/outline.json";
  mirrored_file file(path);
  REQUIRE(file.show("first", "a"));
  REQUIRE(file.show("second", "a"));
  CHECK(*read_file(path) == "first");
  REQUIRE(file.show("third", "b"));
  CHECK(*read_file(path) == "third");
  mirrored_file nowhere("");
  CHECK(nowhere.show("x", "a"));
}

TEST_CASE("the zone's name is taken from the first of three places that has one") {
  CHECK(zone_name("Europe/London", "Europe/Berlin\n", "") == "Europe/London");
  CHECK(zone_name(":Europe/London", "", "") == "Europe/London");
  CHECK(zone_name("/usr/share/zoneinfo/Asia/Tokyo", "", "") == "Asia/Tokyo");
  CHECK(zone_name("UTC", "Europe/Berlin", "") == "UTC");
  CHECK(zone_name("CET-1CEST", "Europe/Berlin\n", "") == "Europe/Berlin");
  CHECK(zone_name("", "", "/usr/share/zoneinfo/America/Lima") == "America/Lima");
  CHECK(zone_name("", "", "") == "UTC");
}

TEST_CASE("the clocks go forward, and the boot has an identity") {
  const machine_clocks one = read_clocks();
  const machine_clocks two = read_clocks();
  CHECK(one.wall_ms > 1'700'000'000'000);
  CHECK(two.boot_ms >= one.boot_ms);
  CHECK(one.boot_ms > 0);
  CHECK(one.boot_id.size() == 36);
  CHECK(one.boot_id == two.boot_id);
  CHECK_FALSE(one.zone.empty());
}
