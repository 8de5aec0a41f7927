// A breath that went wrong is told with one press: what it leads to is the protocol's, what was
// told stays, and what is told later stands beside it.
#include "core/findings/findings.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number two(2);

struct at_tube_2 : patient {
  at_tube_2() {
    through_the_drink();
    score(1);
    sample(2);
  }
  [[nodiscard]] std::vector<finding> spoiled() const {
    std::vector<finding> out;
    for (const finding& f : findings_of(current(), clock.look(), zone_named("Europe/London"))) {
      if (f.rule == "breath-spoiled") out.push_back(f);
    }
    return out;
  }
};

} // namespace

TEST_CASE("room air leads to the same tube again, and the laboratory sees both breaths") {
  at_tube_2 p;
  REQUIRE(p.tell(reported_spoil{two, "room-air", ""}));
  CHECK(p.now().repeating);
  REQUIRE(p.spoiled().size() == 1);
  CHECK(p.spoiled()[0].weight == consequence::review);
  CHECK(p.spoiled()[0].sample == two);
  p.breathe(2);
  CHECK_FALSE(p.now().repeating);
  REQUIRE(p.spoiled().size() == 1);
  CHECK(p.spoiled()[0].weight == consequence::note); // the breath that counts is another
  CHECK(p.spoiled()[0].words ==
        "tube 2: told as \"I paused and breathed in room air\"; blown again");
}

TEST_CASE("what the protocol does not repeat, and what is told too late, is the laboratory's") {
  at_tube_2 p;
  SECTION("something else") {
    REQUIRE(p.tell(reported_spoil{two, "other", "a cough"}));
  }
  SECTION("no time is left before tube 3") {
    p.wait_for(3);
    REQUIRE(p.tell(reported_spoil{two, "room-air", ""}));
  }
  SECTION("its own time is over") {
    p.clock.pass(8min); // the profile: last_call_s 450
    REQUIRE(p.tell(reported_spoil{two, "room-air", ""}));
  }
  SECTION("a later tube was closed") {
    p.sample(3);
    REQUIRE(p.tell(reported_spoil{two, "room-air", ""}));
  }
  CHECK_FALSE(p.now().repeating);
  CHECK_FALSE(p.tube(2).repeat_reason.has_value());
  REQUIRE(p.spoiled().size() == 1);
  CHECK(p.spoiled()[0].weight == consequence::review);
}

TEST_CASE("what was told of a breath is taken back by a later fact, and both are seen") {
  at_tube_2 p;
  REQUIRE(p.tell(reported_spoil{two, "room-air", ""}));
  REQUIRE(p.tell(reported_spoil{two, "", ""}));
  CHECK_FALSE(p.now().repeating);
  REQUIRE(p.spoiled().size() == 2);
  for (const finding& f : p.spoiled())
    CHECK(f.weight == consequence::note);
  CHECK(p.refused(reported_spoil{two, "", ""}) == "no.nothing-to-take-back");
  REQUIRE(p.tell(reported_spoil{two, "lid-late", ""}));
  CHECK(p.spoiled().back().weight == consequence::review);
}

TEST_CASE("only a breath that was taken can have gone wrong, in a way the protocol has") {
  at_tube_2 p;
  CHECK(p.refused(reported_spoil{sample_number(3), "room-air", ""}) == "no.not-taken");
  CHECK(p.refused(reported_spoil{two, "moonlight", ""}) == "no.spoil");
  CHECK(p.refused(reported_spoil{sample_number(24), "room-air", ""}) == "no.no-such-tube");
}

TEST_CASE("what is told of a breath goes with it where two tubes change places") {
  at_tube_2 p;
  p.sample(3);
  REQUIRE(p.tell(reported_spoil{sample_number(3), "other", ""}));
  REQUIRE(p.tell(corrected{p.tube(3).taken->seq, right_tube{two}, "mixed up"}));
  REQUIRE(p.spoiled().size() == 1);
  CHECK(p.spoiled()[0].sample == two);
}
