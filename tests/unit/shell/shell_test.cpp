// The shell on a made machine: one look at the clocks a frame, a disk that refuses, a kill,
// practice and the real test kept apart. What needs a real window stays in tests/window.
#include "tests/support/lossy_disk.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// A test whose drink is over; tube 2 is due in some minutes.
patient after_the_drink() {
  patient p;
  p.through_the_drink();
  return p;
}

} // namespace

TEST_CASE("a frame looks at the clocks once, whatever it shows") {
  shell_stage s;
  s.keep(after_the_drink(), "one");
  REQUIRE_FALSE(s.start());
  CHECK(s.screen() == "return");
  for (const char* key : {"go-on", "unwell", "unwell-over"}) {
    REQUIRE(s.press(key));
    const int before = s.m.looks;
    s.h.frames(3);
    CHECK(s.m.looks == before + 3);
  }
}

TEST_CASE("an empty device begins with the agreement, and no file is there before it") {
  shell_stage s;
  REQUIRE_FALSE(s.start());
  CHECK(s.screen() == "agree");
  CHECK(std::filesystem::is_empty(tests_folder(s.options.data, false)));
  for (const char* key : {"next", "agree"})
    REQUIRE(s.press(key));
  s.kill();
  const auto events = s.journal_of("made-1");
  REQUIRE(events.size() == 1);
  CHECK(std::get<opened>(events[0].what).program == "quarterbreath test");
}

TEST_CASE("a kill loses nothing that was pressed: it comes back to the same test and step") {
  shell_stage s;
  s.keep(after_the_drink(), "one");
  REQUIRE_FALSE(s.start());
  REQUIRE(s.press("go-on"));
  REQUIRE(s.press("unwell"));
  CHECK(s.screen() == "unwell");
  s.restart();
  CHECK(s.screen() == "unwell"); // help first, also after a kill
  s.feels_better();
  CHECK(s.screen() == "wait");
  s.restart();
  CHECK(s.screen() == "return");
  CHECK(s.says("Maren"));
  s.kill();
  CHECK(all_of<reported_unwell>(s.journal_of("one")).size() == 1);
  CHECK(all_of<resumed>(s.journal_of("one")).size() == 3);
}

TEST_CASE("a tube closed on a full disk keeps its own time, and is written once there is room") {
  lossy_disk disk(0, lossy_disk::honesty::filling_up);
  shell_stage s;
  patient p = after_the_drink();
  p.wait_for(2);
  s.keep(p, "one");
  REQUIRE_FALSE(s.start());
  REQUIRE(s.press("go-on"));
  REQUIRE(s.screen() == "breathe");
  REQUIRE(s.press("begin-breath"));
  for (int i = 0; i < 60 && s.h.find("tube-closed") == nullptr; ++i)
    s.pass(std::chrono::seconds{1});
  disk.fills_up();
  REQUIRE(s.press("tube-closed"));
  const instant closed = s.m.clock.wall();
  const std::string trouble = s.running->texts()("trouble.disk");
  s.pass(std::chrono::seconds{1});
  CHECK(s.says(trouble));
  CHECK(s.says(s.running->texts()("trouble.paper.closed", {{"n", "2"}})));
  CHECK(s.screen() == "label"); // the test goes on as if it were written
  s.pass(std::chrono::seconds{30});
  CHECK(s.says(trouble));
  REQUIRE(s.press("unwell")); // help does not wait for a disk
  CHECK(s.screen() == "unwell");
  disk.space_returns();
  s.pass(std::chrono::seconds{1});
  CHECK_FALSE(s.says(trouble));
  s.kill();
  const auto closings = all_of<tube_closed>(s.journal_of("one"));
  REQUIRE(closings.size() == 2);
  CHECK(std::chrono::abs(closings.back().at.wall - closed) < std::chrono::seconds{1});
  CHECK(all_of<reported_unwell>(s.journal_of("one")).size() == 1);
}

TEST_CASE("practice is kept in a folder of its own and never touches the test behind it") {
  shell_stage s;
  patient p;
  p.open_and_plan();
  s.keep(p, "real");
  const std::size_t before = p.e.events().size();
  REQUIRE_FALSE(s.start(true));
  for (const char* key : {"next", "agree"})
    REQUIRE(s.press(key));
  s.restart();
  s.kill();
  CHECK(s.journal_of("made-1", true).size() >= 1);
  CHECK(std::get<opened>(s.journal_of("made-1", true)[0].what).rehearsal);
  CHECK(all_of<opened>(s.journal_of("real")).size() == 1);
  CHECK(s.journal_of("real").size() >= before);
}

TEST_CASE("practice is refused from the fast of a real test on") {
  shell_stage s;
  s.keep(after_the_drink(), "one");
  const auto no = s.start(true);
  REQUIRE(no);
  CHECK(no->kind == refusal_kind::not_now);
  CHECK(no->where == "--rehearsal");
}

TEST_CASE("the device is kept awake from the gate to the end of the test, and only then") {
  shell_stage s;
  s.keep(after_the_drink(), "one");
  REQUIRE_FALSE(s.start());
  CHECK(s.m.awake().asked);
  REQUIRE(s.press("go-on"));
  s.kill();
  const auto told = all_of<reported_checklist>(s.journal_of("one"));
  REQUIRE_FALSE(told.empty());
  const auto& last = std::get<reported_checklist>(told.back().what);
  CHECK(last.name == attention_list);
  CHECK(last.items == std::vector<std::string>{"no sound card", "awake held"});
}

TEST_CASE("a machine that does not agree to stay awake is told in the record and on the page") {
  shell_stage s;
  s.m.agrees_to_wake = false;
  s.keep(after_the_drink(), "one");
  REQUIRE_FALSE(s.start());
  s.kill();
  const auto told = all_of<reported_checklist>(s.journal_of("one"));
  REQUIRE_FALSE(told.empty());
  CHECK(std::get<reported_checklist>(told.back().what).items.back() == "awake refused");
}
