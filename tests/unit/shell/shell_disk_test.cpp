// The window without the window, on a disk that refuses: what was typed and what was pressed are
// kept in memory, told, and written once the disk takes them.
#include "tests/support/lossy_disk.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;

namespace {

constexpr const char* in_full = "Maren Oakhollow";
constexpr const char* twice = "Maren OakhollowMaren Oakhollow";

// A person who has agreed and is asked for their name.
class person {
public:
  person() {
    REQUIRE_FALSE(at.start());
    REQUIRE(at.press("next"));
    REQUIRE(at.press("agree"));
    at.pass(std::chrono::seconds{1});
    REQUIRE(at.screen() == "who-name");
  }
  void type_name() {
    REQUIRE(at.press("who.name"));
    at.h.type(in_full);
    REQUIRE(at.press("key-done"));
    at.h.frames(2);
  }
  [[nodiscard]] bool troubled() const { return at.h.find("trouble") != nullptr; }
  [[nodiscard]] std::string tests() const { return tests_folder(at.options.data, false); }

  // What the disk holds, once the program has ended.
  [[nodiscard]] std::unique_ptr<running_test> kept() {
    at.kill();
    auto out = running_test::open(newest_journal(tests()).value());
    REQUIRE(out.has_value());
    return std::move(*out);
  }

  lossy_disk disk{0, lossy_disk::honesty::filling_up};
  test::shell_stage at;
};

template <typename Kind>
int count_of(const running_test& t) {
  int count = 0;
  for (const event& e : t.session().events())
    count += std::holds_alternative<Kind>(e.what) ? 1 : 0;
  return count;
}

} // namespace

TEST_CASE("what was typed and refused by the disk is told, and kept when the disk has room") {
  person p;
  p.type_name();
  CHECK_FALSE(p.troubled());
  p.disk.fills_up();
  p.type_name();
  CHECK(p.troubled());
  p.at.h.frames(3);
  CHECK(p.troubled()); // as long as it is not kept
  p.disk.space_returns();
  p.at.h.frames(2);
  CHECK_FALSE(p.troubled());
  CHECK(p.kept()->drafts()["who.name"] == twice);
}

TEST_CASE("what is pressed after a refused draft is written with it, once") {
  person p;
  p.disk.fills_up();
  p.type_name();
  REQUIRE(p.troubled());
  REQUIRE(p.at.press("unwell"));
  CHECK(p.at.screen() == "unwell"); // help does not wait for a disk
  p.at.h.frames(3);
  p.disk.space_returns();
  p.at.h.frames(2);
  CHECK_FALSE(p.troubled());
  const auto kept = p.kept();
  CHECK(count_of<reported_unwell>(*kept) == 1);
  CHECK(kept->drafts()["who.name"] == in_full);
}

TEST_CASE("a journal that cannot be opened again after a refused draft is tried until it can") {
  namespace fs = std::filesystem;
  for (const bool presses : {false, true}) {
    INFO("pressed meanwhile: " << presses);
    person p;
    p.type_name();
    p.disk.fills_up();
    p.type_name();
    p.disk.space_returns();
    fs::rename(p.tests(), p.tests() + "-away");
    p.at.h.frames(3);
    CHECK(p.troubled());
    CHECK(p.at.screen() == "who-name"); // what was known last stays on the screen
    if (presses) REQUIRE(p.at.press("unwell"));
    fs::rename(p.tests() + "-away", p.tests());
    p.at.h.frames(3);
    CHECK_FALSE(p.troubled());
    const auto kept = p.kept();
    CHECK(count_of<opened>(*kept) == 1);
    CHECK(count_of<reported_unwell>(*kept) == (presses ? 1 : 0));
    CHECK(kept->drafts()["who.name"] == twice);
  }
}
