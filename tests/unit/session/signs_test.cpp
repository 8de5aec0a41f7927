// The warning signs are asked before anything leads on: after a score that calls for them, and of
// whoever felt unwell. A door past them lets somebody go on with pain in the chest.
#include "tests/unit/session/at_the_sugar.hpp"

using namespace qb;
using namespace qb::test;

namespace {

const sample_number one(1);
const sample_number two(2);

reported_symptoms scored(sample_number n, int pain) {
  return {n, {{"pain", pain}}, ""};
}

} // namespace

TEST_CASE("who felt unwell says which warning signs are there before going on, and never before "
          "the help") {
  patient p;
  p.through_the_drink();
  REQUIRE(p.tell(reported_unwell{}));
  CHECK(p.now().what == step::unwell);
  CHECK(wants_signs_told(p.current()));
  CHECK(p.refused(unwell_over{}) == "no.signs-first");
  CHECK(p.refused(unwell_over{true}) == "no.signs-first");
  SECTION("stopping asks nothing") {
    CHECK(p.refused(test_ended{"unwell"}) == "");
  }
  SECTION("none of them: the test goes on") {
    REQUIRE(p.tell(reported_red_flags{one, {}}));
    CHECK(p.now().what == step::unwell);
    REQUIRE(p.tell(unwell_over{}));
    CHECK_FALSE(p.current().unwell.has_value());
  }
  SECTION("one that is final: no going on") {
    REQUIRE(p.tell(reported_red_flags{one, {"chest"}}));
    CHECK(p.refused(unwell_over{true}) == "no.final-sign");
  }
  SECTION("a milder one: only once it has passed, and unwell again asks again") {
    REQUIRE(p.tell(reported_red_flags{one, {"pain"}}));
    CHECK(p.refused(unwell_over{}) == "no.not-passed");
    REQUIRE(p.tell(unwell_over{true}));
    REQUIRE(p.tell(reported_unwell{}));
    CHECK(p.refused(unwell_over{}) == "no.signs-first");
    REQUIRE(p.tell(reported_red_flags{one, {}}));
    // What was told at that tube before stays for the laboratory.
    CHECK(p.tube(1).red_flags->present == std::vector<std::string>{"pain"});
  }
}

TEST_CASE("the warning signs come before a tube that is due") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2);
  p.label(2);
  REQUIRE(p.tell(scored(two, 10)));
  CHECK(p.now().what == step::red_flags);
  p.clock.pass(15min);
  CHECK(p.now().what == step::red_flags);
  REQUIRE(p.tell(reported_red_flags{two, {}}));
  CHECK(p.now().what == step::breathe);
}

TEST_CASE("the worst pain before tube 1 asks for the warning signs first, and nothing leads on") {
  at_the_sugar p;
  REQUIRE(p.tell(sugar_set_aside{}));
  REQUIRE(p.tell(scored(one, 9)));
  CHECK(p.now().what == step::red_flags);
  CHECK(p.refused(breath_begun{one}) == "no.signs-first");
  REQUIRE(p.tell(reported_red_flags{one, {}}));
  CHECK(p.now().what == step::breathe);
  SECTION("told higher they are asked again, told lower they are not") {
    REQUIRE(p.tell(scored(one, 10)));
    CHECK(p.now().what == step::red_flags);
    REQUIRE(p.tell(scored(one, 4)));
    CHECK(p.now().what == step::breathe);
    REQUIRE(p.tell(scored(one, 9)));
    CHECK(p.now().what == step::breathe); // they were asked at 9
  }
  SECTION("told while the breath is taken they come after it, before the drink") {
    REQUIRE(p.tell(breath_begun{one}));
    REQUIRE(p.tell(scored(one, 10)));
    p.clock.pass(10s);
    REQUIRE(p.tell(tube_closed{one}));
    CHECK(p.now().what == step::red_flags);
    CHECK(p.refused(drink_started{}) == "no.signs-first");
  }
}

TEST_CASE("another packet that is read out after the drink opens the page of help") {
  patient p;
  p.through_the_drink();
  REQUIRE_FALSE(p.current().unwell.has_value());
  REQUIRE(p.tell(reported_packet{"", 0, "", "sorbitol 20 g"}));
  CHECK(p.now().what == step::unwell);
  REQUIRE(p.current().drunk_against.size() == 1);
  CHECK(p.current().drunk_against.front().what == hindrance_kind::packet_differs);
}
