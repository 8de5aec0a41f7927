// The window without the window, on a disk that refuses: what was typed and what was pressed are
// kept in memory, told, and written once the disk takes them.
#include "app/patient/shell/shell.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/support/repository.hpp"
#include "tests/unit/handover/own_folder.hpp"
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

using namespace qb;

namespace {

constexpr const char* in_full = "Maren Oakhollow";

// A person who has agreed and is asked for their name.
class person {
public:
  person() {
    auto opened = shell::open(
        {folder_.path(), repository() + "/assets", "fenwick-vale", "quarterbreath 0.1.0", {}},
        cues_);
    REQUIRE(opened.has_value());
    shell_ = std::move(*opened);
    at.draw = [this](toolkit& k) { (void)shell_->frame(k); };
    at.frames(1);
    REQUIRE(at.press("next"));
    REQUIRE(at.press("agree"));
    at.frames(1);
    REQUIRE(at.seen().screen == "who-name");
  }
  void type_name() {
    REQUIRE(at.press("who.name"));
    at.type(in_full);
    REQUIRE(at.press("key-done"));
    at.frames(2);
  }
  [[nodiscard]] bool troubled() const { return at.find("trouble") != nullptr; }
  [[nodiscard]] std::string tests() const { return tests_folder(folder_.path(), false); }

  // What the disk holds, once the program has ended.
  [[nodiscard]] std::unique_ptr<running_test> kept() {
    at.draw = [](toolkit&) {};
    shell_.reset();
    auto out = running_test::open(newest_journal(tests()).value());
    REQUIRE(out.has_value());
    return std::move(*out);
  }

  lossy_disk disk{0};
  test::harness at{360, 640};

private:
  test::own_folder folder_;
  cue_player cues_{[] {
    return result<std::unique_ptr<sound_sink>>(
        tl::unexpected(refusal{refusal_kind::machine, "", "sound", "no card", "a card"}));
  }};
  std::unique_ptr<shell> shell_;
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
  p.at.frames(3);
  CHECK(p.troubled()); // as long as it is not kept
  p.disk.space_returns();
  p.at.frames(2);
  CHECK_FALSE(p.troubled());
  CHECK(p.kept()->drafts()["who.name"] == std::string(in_full) + in_full);
}

TEST_CASE("what is pressed after a refused draft is written with it, once") {
  person p;
  p.disk.fills_up();
  p.type_name();
  REQUIRE(p.troubled());
  REQUIRE(p.at.press("unwell"));
  CHECK(p.at.seen().screen == "unwell"); // help does not wait for a disk
  p.at.frames(3);
  p.disk.space_returns();
  p.at.frames(2);
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
    p.at.frames(3);
    CHECK(p.troubled());
    CHECK(p.at.seen().screen == "who-name"); // what was known last stays on the screen
    if (presses) REQUIRE(p.at.press("unwell"));
    fs::rename(p.tests() + "-away", p.tests());
    p.at.frames(3);
    CHECK_FALSE(p.troubled());
    const auto kept = p.kept();
    CHECK(count_of<opened>(*kept) == 1);
    CHECK(count_of<reported_unwell>(*kept) == (presses ? 1 : 0));
    CHECK(kept->drafts()["who.name"] == std::string(in_full) + in_full);
  }
}
