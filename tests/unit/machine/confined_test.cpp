// Work in a child with limits: it answers, or is ended at one of them, and this process goes on.
#include "app/machine/confined.hpp"

#include "app/machine/files.hpp"

#include <catch2/catch.hpp>

#include <csignal>
#include <unistd.h>

using namespace qb;

namespace {

constexpr std::size_t mebibyte = 1024UL * 1024UL;
constexpr confinement narrow{64 * mebibyte, 1, 2, mebibyte};

refusal no_of(const std::function<std::string()>& work) {
  const auto answer = confined(work, narrow, "the work");
  REQUIRE_FALSE(answer);
  CHECK(answer.error().where == "the work");
  return answer.error();
}

} // namespace

TEST_CASE("a child answers with any bytes, also with none, and changes nothing here") {
  int counted = 0;
  const std::string bytes("a\0b", 3);
  const auto work = [&] {
    ++counted;
    return bytes;
  };
  CHECK(confined(work, narrow, "") == bytes);
  CHECK(counted == 0);
  CHECK(confined([] { return std::string(); }, narrow, "") == std::string());
  CHECK(confined([] { return std::string(mebibyte, 'x'); }, narrow, "")->size() == mebibyte);
}

TEST_CASE("a child that works for ever is ended by its processor time, and one that waits by its "
          "deadline") {
  const auto works = no_of([]() -> std::string {
    const volatile bool for_ever = true;
    while (for_ever) {
    }
    return {};
  });
  CHECK(works.kind == refusal_kind::out_of_range);
  CHECK(works.expected == "at most 1 s");
  const auto waits = no_of([]() -> std::string {
    for (;;)
      ::pause();
  });
  CHECK(waits.kind == refusal_kind::out_of_range);
}

TEST_CASE("a child that asks for all memory gets none, and one that says too much is not heard") {
  const auto takes = no_of([] { return std::string(200 * mebibyte, 'x'); });
  CHECK(takes.kind == refusal_kind::out_of_range);
  CHECK(takes.expected == "at most 64 MiB of memory");
  const auto says = no_of([] { return std::string(2 * mebibyte, 'x'); });
  CHECK(says.kind == refusal_kind::out_of_range);
}

TEST_CASE("a child that falls over takes nothing along") {
  CHECK(no_of([]() -> std::string {
          std::raise(SIGSEGV);
          return {};
        }).kind == refusal_kind::malformed);
  CHECK(no_of([]() -> std::string { throw 1; }).kind == refusal_kind::malformed);
}

TEST_CASE("a child opens no file") {
  CHECK(confined([] { return std::string(read_file("/proc/self/statm") ? "read" : "not read"); },
                 narrow, "") == std::string("not read"));
}
