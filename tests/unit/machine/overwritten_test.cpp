// What is removed or replaced is overwritten in its own blocks: seen through a descriptor that was
// opened before, as whoever reads the disk sees them. A raw disk is looked at in tests/faults.
#include "app/machine/files.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

using namespace qb;

namespace {

constexpr const char* name = "Maren Oakhollow";

class seen_from_before {
public:
  explicit seen_from_before(const std::string& path) : fd_(::open(path.c_str(), O_RDONLY)) {
    REQUIRE(fd_ >= 0);
  }
  seen_from_before(const seen_from_before&) = delete;
  seen_from_before& operator=(const seen_from_before&) = delete;
  ~seen_from_before() { ::close(fd_); }
  [[nodiscard]] std::string bytes() const {
    std::string out(1 << 20, '\0');
    const ssize_t n = ::pread(fd_, out.data(), out.size(), 0);
    out.resize(n < 0 ? 0 : static_cast<std::size_t>(n));
    return out;
  }
  [[nodiscard]] bool holds_a_name() const { return bytes().find(name) != std::string::npos; }

private:
  int fd_;
};

std::string long_text() {
  std::string out;
  for (int i = 0; i < 20000; ++i)
    out += name;
  return out;
}

} // namespace

TEST_CASE("a file that is removed is overwritten, all of it") {
  const test::own_folder folder;
  REQUIRE(write_file(folder.file("a"), long_text()));
  const seen_from_before was(folder.file("a"));
  REQUIRE(was.holds_a_name());
  REQUIRE(remove_file(folder.file("a")));
  CHECK_FALSE(was.holds_a_name());
  CHECK(was.bytes() == std::string(was.bytes().size(), '\0'));
}

TEST_CASE("a file that is replaced is overwritten, and the new one is not") {
  const test::own_folder folder;
  REQUIRE(write_file(folder.file("a"), long_text()));
  const seen_from_before was(folder.file("a"));
  REQUIRE(write_file(folder.file("a"), name));
  CHECK_FALSE(was.holds_a_name());
  CHECK(read_file(folder.file("a")).value() == name);
}

TEST_CASE("what another name still has is left as it is") {
  const test::own_folder folder;
  REQUIRE(write_file(folder.file("a"), name));
  std::filesystem::create_hard_link(folder.file("a"), folder.file("b"));
  REQUIRE(remove_file(folder.file("a")));
  CHECK(read_file(folder.file("b")).value() == name);
}

TEST_CASE(
    "a link that is removed takes nothing of what it leads to, and a pipe is not waited for") {
  const test::own_folder folder;
  REQUIRE(write_file(folder.file("a"), name));
  std::filesystem::create_symlink(folder.file("a"), folder.file("b"));
  REQUIRE(remove_file(folder.file("b")));
  CHECK(read_file(folder.file("a")).value() == name);
  REQUIRE(::mkfifo(folder.file("c").c_str(), 0600) == 0);
  REQUIRE(remove_file(folder.file("c")));
  CHECK_FALSE(std::filesystem::exists(folder.file("c")));
}
