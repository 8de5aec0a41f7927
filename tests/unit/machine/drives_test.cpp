// Drives told from folders, and why a place did not take what was written.
// Mounting needs rights that a test may not have; the window's suite tries real ones.
#include "app/machine/drives.hpp"

#include "app/machine/files.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <cerrno>
#include <cstring>

using namespace qb;

TEST_CASE("a folder that a drive left behind is no drive; one with its own file system is") {
  const test::own_folder folder;
  const std::string left = folder.file("BLUE");
  REQUIRE(make_folder(left).has_value());
  CHECK_FALSE(is_drive(left));
  CHECK_FALSE(is_drive(folder.file("none")));
  CHECK(is_drive("/proc"));
  CHECK(drives_below({folder.path(), folder.file("none")}).empty());
  bool found = false; // /proc is a file system of its own below the root
  for (const drive& d : drives_below({"/"}))
    found = found || (d.folder == "/proc" && d.name == "proc");
  CHECK(found);
}

TEST_CASE("what stood against writing is told apart") {
  const test::own_folder folder;
  const auto because = [](int error) {
    return refusal{refusal_kind::machine, "", "write", std::strerror(error), ""};
  };
  CHECK(trouble_at(folder.path(), false, because(ENOSPC)) == place_trouble::full);
  CHECK(trouble_at(folder.path(), false, because(EROFS)) == place_trouble::read_only);
  CHECK(trouble_at(folder.path(), false, because(EIO)) == place_trouble::other);
  // It was a drive and is none any more: nothing else matters.
  CHECK(trouble_at(folder.path(), true, because(ENOSPC)) == place_trouble::gone);
}

TEST_CASE("what is written is read back, and a file is taken away for good or was not there") {
  const test::own_folder folder;
  const std::string path = folder.file("a");
  REQUIRE(write_and_read_back(path, "the bytes").has_value());
  CHECK(read_file(path).value() == "the bytes");
  CHECK_FALSE(write_and_read_back(folder.file("none/a"), "the bytes").has_value());
  REQUIRE(remove_file(path).has_value());
  CHECK(read_file(path).error().kind == refusal_kind::missing);
  CHECK(remove_file(path).has_value());
  CHECK_FALSE(remove_file(folder.path()).has_value());
}
