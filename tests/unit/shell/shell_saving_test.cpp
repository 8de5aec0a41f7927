// The window without the window, on a machine whose writes become durable later: what was pressed
// is kept when the write is durable and not before, the page says so meanwhile, nothing that is
// pressed by then is lost or taken twice, and whoever leaves the test waits for it.
#include "app/handover/erase_test.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// The program on the record of somebody who got as far as `p`, whose writes are slow from now on.
class at_a_slow_store {
public:
  explicit at_a_slow_store(const patient& p) {
    at.keep(p, "one");
    REQUIRE_FALSE(at.start());
    REQUIRE(at.press("go-on"));
    store().catch_up();
    store().slow = true;
  }
  [[nodiscard]] later_disk& store() { return at.m.store; }
  [[nodiscard]] bool says(const std::string& key) const {
    return at.says(at.running->texts()(key));
  }
  void becomes_durable() {
    for (int most = 20; most > 0; --most) {
      store().catch_up();
      at.h.frames(2);
    }
  }
  // Power goes, and the program is started again.
  void power_cut() {
    at.kill();
    store().power_cut();
    store().slow = false;
    REQUIRE_FALSE(at.start());
  }

  shell_stage at;
};

template <typename Kind>
std::size_t in_journal(at_a_slow_store& s) {
  s.at.kill();
  return all_of<Kind>(s.at.journal_of("one")).size();
}

} // namespace

TEST_CASE("a press is kept when its write is durable; until then its page stands and says so") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.screen() == "drink");
  REQUIRE(s.at.press("drink-start"));
  CHECK(s.at.screen() == "drink");
  CHECK_FALSE(s.says("trouble.saving")); // shorter than this it would be a flicker
  CHECK(s.at.next <= 1.0);               // looked at soon again
  s.at.pass(std::chrono::milliseconds{300});
  CHECK(s.at.screen() == "drink");
  CHECK(s.says("trouble.saving"));
  s.becomes_durable();
  CHECK(s.at.screen() == "drinking");
  CHECK_FALSE(s.says("trouble.saving"));
}

TEST_CASE("what was not durable when power went was never said to be kept, and what was is") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.press("drink-start"));
  SECTION("before the write is durable") {
    s.power_cut();
    REQUIRE(s.at.press("go-on"));
    CHECK(s.at.screen() == "drink");
    CHECK(in_journal<drink_started>(s) == 0);
  }
  SECTION("after it") {
    s.becomes_durable();
    REQUIRE(s.at.screen() == "drinking");
    s.power_cut();
    REQUIRE(s.at.press("go-on"));
    CHECK(s.at.screen() == "drinking");
    CHECK(in_journal<drink_started>(s) == 1);
  }
}

TEST_CASE("a second press while the first is saved is no second fact and no refusal") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.press("drink-start"));
  REQUIRE(s.at.press("drink-start"));
  CHECK(s.says("trouble.saving"));
  s.becomes_durable();
  CHECK(s.at.screen() == "drinking");
  CHECK_FALSE(s.says("trouble.saving"));
  CHECK(s.at.h.find("trouble") == nullptr);
  CHECK(in_journal<drink_started>(s) == 1);
}

TEST_CASE("feeling unwell is heard at once while a write is on its way, with its own time") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.press("drink-start"));
  s.at.pass(std::chrono::seconds{2});
  REQUIRE(s.at.press("unwell"));
  const instant pressed = s.at.m.clock.wall();
  s.becomes_durable();
  CHECK(s.at.screen() == "unwell");
  s.at.kill();
  const auto told = all_of<reported_unwell>(s.at.journal_of("one"));
  REQUIRE(told.size() == 1);
  CHECK(told[0].at.wall == pressed);
}

TEST_CASE("what the store refuses waits with its own time, is told, and is shown as pressed") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.press("drink-start"));
  const instant pressed = s.at.m.clock.wall();
  s.store().refuse();
  s.at.pass(std::chrono::seconds{1});
  CHECK(s.says("trouble.disk"));
  CHECK(s.at.screen() == "drinking"); // the test goes on as if it were written
  // It was handed over again, and is refused again.
  s.at.pass(std::chrono::seconds{1});
  CHECK(s.says("trouble.disk"));
  CHECK(s.at.screen() == "drinking");
  CHECK(s.says("trouble.paper.drink-began"));
  s.store().refuse();
  s.at.pass(std::chrono::seconds{1});
  CHECK(s.says("trouble.disk"));
  CHECK(s.at.screen() == "drinking");
  s.becomes_durable();
  CHECK_FALSE(s.says("trouble.disk"));
  CHECK(s.at.screen() == "drinking");
  s.at.kill();
  const auto told = all_of<drink_started>(s.at.journal_of("one"));
  REQUIRE(told.size() == 1);
  CHECK(told[0].at.wall == pressed);
}

TEST_CASE("what is pressed while a refused write is handed over again is kept behind it") {
  at_a_slow_store s(at_the_drink());
  REQUIRE(s.at.press("drink-start"));
  s.store().refuse();
  s.at.pass(std::chrono::seconds{1});
  REQUIRE(s.at.screen() == "drinking");
  REQUIRE(s.at.press("drink-end"));
  CHECK(s.at.screen() != "drinking");
  s.becomes_durable();
  CHECK(in_journal<drink_started>(s) == 1);
  CHECK(in_journal<drink_ended>(s) == 1);
}

TEST_CASE("nobody begins a test twice, or leaves or erases one, while a write is on its way") {
  shell_stage at;
  REQUIRE_FALSE(at.start());
  REQUIRE(at.press("next"));
  at.m.store.slow = true;
  REQUIRE(at.press("agree"));
  const std::string screen = at.screen();
  if (at.h.find("agree") != nullptr) REQUIRE(at.press("agree"));
  at.m.store.catch_up();
  at.pass(std::chrono::seconds{1});
  CHECK(at.screen() == "who-name");
  CHECK(screen != "who-name");
  CHECK(handover::journals_in(tests_folder(at.options.data, false)).size() == 1);
}

TEST_CASE("a test that is erased is said to be saving until its erasing is durable") {
  patient p;
  p.open_and_plan();
  at_a_slow_store s(p);
  REQUIRE(s.at.press("other-things"));
  for (const char* key : {"other-erase", "erase-on", "erase-all", "erase-undo", "erase-now"})
    REQUIRE(s.at.press(key));
  CHECK(s.at.screen() == "erased");
  s.at.pass(std::chrono::milliseconds{300});
  CHECK(s.says("trouble.saving"));
  s.becomes_durable();
  CHECK_FALSE(s.says("trouble.saving"));
  CHECK(s.at.screen() == "erased");
}
