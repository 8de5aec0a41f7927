// The window without the window, on a disk that refuses: what was typed and what was pressed are
// kept in memory, told, and written once the disk takes them.
#include "app/handover/erase_test.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;
using namespace qb::test;

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
    auto out = running_test::open(handover::journals_in(tests()).at(0), at_once());
    REQUIRE(out.has_value());
    return std::move(*out);
  }

  lossy_disk disk{0, lossy_disk::honesty::filling_up};
  test::shell_stage at;
};

template <typename Kind>
int count_in(const std::vector<event>& events) {
  int count = 0;
  for (const event& e : events)
    count += std::holds_alternative<Kind>(e.what) ? 1 : 0;
  return count;
}

template <typename Kind>
int count_of(const running_test& t) {
  return count_in<Kind>(t.session().events());
}

// The program on the record of somebody who got as far as `p`, with a disk that can fill up.
class at_work {
public:
  explicit at_work(const patient& p) {
    at.keep(p, "one");
    REQUIRE_FALSE(at.start());
    REQUIRE(at.press("go-on"));
  }
  void fills_up() { disk.fills_up(); }
  void returns() {
    disk.space_returns();
    at.pass(std::chrono::seconds{1});
  }
  [[nodiscard]] bool says(const std::string& key) const {
    return at.says(at.running->texts()(key));
  }

  lossy_disk disk{0, lossy_disk::honesty::filling_up};
  shell_stage at;
};

patient with_a_plan() {
  patient p;
  p.open_and_plan();
  return p;
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

TEST_CASE("feeling unwell closes the drink while a disk refuses, and a drink after it is kept") {
  at_work w(at_the_drink());
  REQUIRE(w.at.screen() == "drink");
  w.fills_up();
  REQUIRE(w.at.press("unwell"));
  w.at.pass(std::chrono::seconds{2});
  CHECK(w.at.screen() == "unwell");
  CHECK(w.at.h.find("drink-start") == nullptr);
  w.at.feels_better();
  CHECK(w.at.screen() == "drink");
  REQUIRE(w.at.press("drink-start"));
  const instant pressed = w.at.m.clock.wall();
  CHECK(w.at.screen() == "drinking");
  CHECK(w.says("trouble.disk"));
  CHECK(w.says("trouble.paper.drink-began"));
  w.at.pass(std::chrono::seconds{30});
  w.returns();
  CHECK_FALSE(w.says("trouble.disk"));
  CHECK(w.at.screen() == "drinking");
  w.at.kill();
  const auto events = w.at.journal_of("one");
  CHECK(count_in<reported_unwell>(events) == 1);
  CHECK(count_in<unwell_over>(events) == 1);
  CHECK(count_in<drink_started>(events) == 1);
  const state s = fold_events(events);
  REQUIRE(s.drink_start);
  CHECK(std::chrono::abs(s.drink_start->at.wall - pressed) < std::chrono::seconds{1});
  CHECK(s.drunk_against.empty());
}

TEST_CASE("a test is not left for practice while something of it waits for the disk, and says so") {
  at_work w(with_a_plan());
  REQUIRE(w.at.screen() == "prepare");
  w.fills_up();
  REQUIRE(w.at.press("unwell"));
  w.at.feels_better();
  REQUIRE(w.at.press("other-things"));
  REQUIRE(w.at.press("other-practise"));
  CHECK(w.says("trouble.then"));
  CHECK(w.at.h.find("practice") == nullptr);
  w.returns();
  REQUIRE(w.at.press("other-things"));
  REQUIRE(w.at.press("other-practise"));
  CHECK(w.at.h.find("practice") != nullptr);
  w.at.kill();
  CHECK(count_in<reported_unwell>(w.at.journal_of("one")) == 1);
  CHECK(count_in<unwell_over>(w.at.journal_of("one")) == 1);
}

TEST_CASE("practice is not left while something of it waits for the disk") {
  lossy_disk disk(0, lossy_disk::honesty::filling_up);
  shell_stage s;
  s.keep(with_a_plan(), "one");
  s.keep(with_a_plan(), "practice", true);
  REQUIRE_FALSE(s.start(true));
  if (s.screen() == "return") REQUIRE(s.press("go-on"));
  REQUIRE(s.screen() == "prepare");
  disk.fills_up();
  REQUIRE(s.press("unwell"));
  s.feels_better();
  REQUIRE(s.press("other-things"));
  REQUIRE(s.press("other-leave"));
  CHECK(s.says(s.running->texts()("trouble.then")));
  CHECK(s.h.find("practice") != nullptr);
  disk.space_returns();
  s.pass(std::chrono::seconds{1});
  s.kill();
  CHECK(count_in<reported_unwell>(s.journal_of("practice", true)) == 1);
  CHECK(count_in<reported_unwell>(s.journal_of("one")) == 0);
}

TEST_CASE("a window that was left open offers no practice from the fast on") {
  at_work w(with_a_plan());
  REQUIRE(w.at.press("other-things"));
  const auto offered = [&] {
    while (w.at.h.find("other-practise") == nullptr && w.at.h.find("page-more") != nullptr)
      REQUIRE(w.at.press("page-more"));
    return w.at.h.find("other-practise") != nullptr;
  };
  CHECK(offered());
  REQUIRE(w.at.press("back"));
  // Nobody presses anything until the fast has begun: eleven hours before the start.
  w.at.pass(utc("2027-04-05T19:30:00Z") - w.at.m.clock.wall());
  REQUIRE(w.at.screen() == "prepare");
  REQUIRE(w.at.press("other-things"));
  CHECK_FALSE(offered());
}
