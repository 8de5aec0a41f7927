// From a tap to a durable fact: a slow disk, a failing disk, and when answers change.
// A state that showed what is not on the disk would be a promise broken.
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// What of an answer a screen shows as another picture, times left aside, with whether the next
// breath may begin.
std::string picture(const patient& p, const clock_reading& at) {
  const now_answer a = what_now(p.current(), at);
  std::string out = std::to_string(static_cast<int>(a.what)) + "/" +
                    (a.sample ? std::to_string(a.sample->value()) : "-") +
                    (a.repeating ? "r" : "") + (a.late ? "l" : "") + (a.drink_overdue ? "o" : "");
  for (const sample_number n : a.missed)
    out += " m" + std::to_string(n.value());
  for (const planned_window& w : a.holding)
    out += " h" + w.rule;
  out += a.next ? " n" + a.next->rule : "";
  out += a.to_due && *a.to_due <= duration{0} ? " due" : "";
  if (!a.sample) return out;
  const auto begin = decide(p.current(), command{breath_begun{*a.sample}}, at);
  return out + (begin ? " may" : " " + begin.error().where);
}

clock_reading later(clock_reading r, duration d) {
  r.wall += d;
  if (r.boot) *r.boot += d;
  return r;
}

} // namespace

TEST_CASE("what is told while a disk is slow waits for it and is kept with its own time") {
  patient p;
  p.through_the_drink();
  p.keeper.slow = true;
  REQUIRE(p.tell(reported_comment{"before"}));
  REQUIRE(p.e.saving());
  const instant pressed = p.clock.wall();
  REQUIRE(p.tell(reported_unwell{}));
  REQUIRE(p.tell(reported_red_flags{sample_number(1), {"vomiting"}}));
  p.clock.pass(3s);
  REQUIRE(p.tell(reported_comment{"while it is saved"}));
  CHECK_FALSE(p.current().unwell.has_value());
  CHECK(p.e.saving());
  for (int i = 0; i < 4; ++i) {
    CHECK(p.e.saving());
    p.keeper.catch_up();
    p.e.settle();
  }
  CHECK_FALSE(p.e.saving());
  CHECK(p.current().comments.size() == 2);
  REQUIRE(p.current().unwell.has_value());
  CHECK(p.current().unwell->at.wall == pressed);
  CHECK(has_warning_signs(p.current()));
  CHECK(p.e.events().size() == p.keeper.kept.size());
}

TEST_CASE("what was heard while a disk was slow is handed over whole where the disk then fails") {
  patient p;
  p.through_the_drink();
  p.keeper.slow = true;
  REQUIRE(p.tell(reported_comment{"before"}));
  const instant pressed = p.clock.wall();
  REQUIRE(p.tell(reported_unwell{}));
  REQUIRE(p.tell(reported_red_flags{sample_number(1), {"vomiting"}}));
  CHECK(p.e.expected().unwell.has_value());
  CHECK_FALSE(p.current().unwell.has_value());
  SECTION("what was on its way reached the disk") {
    p.keeper.fails = true;
    p.keeper.catch_up();
    p.e.settle();
    p.e.settle(); // tried as often as one likes: it waits
    const auto left = p.e.take_unwritten();
    REQUIRE(left.size() == 2);
    CHECK(std::holds_alternative<reported_unwell>(left[0].wanted.wanted));
    CHECK(left[0].at.wall == pressed);
    CHECK(std::holds_alternative<reported_red_flags>(left[1].wanted.wanted));
  }
  SECTION("nor did what was on its way") {
    const auto left = p.e.take_unwritten();
    REQUIRE(left.size() == 3);
    CHECK(std::get<reported_comment>(left[0].wanted.wanted).words == "before");
  }
  CHECK_FALSE(p.e.saving());
  CHECK(p.e.take_unwritten().empty());
}

TEST_CASE("what could not be kept is refused when it is pressed, also while a disk is slow") {
  patient p;
  p.through_the_drink();
  p.keeper.slow = true;
  REQUIRE(p.tell(reported_comment{"before"}));
  CHECK(p.refused(test_ended{""}) == "no.empty");
  CHECK(p.refused(reported_red_flags{sample_number(1), {""}}) == "no.empty");
}

TEST_CASE(
    "while a write is on its way nothing is shown as kept, and what follows is judged by it") {
  patient p;
  p.keeper.slow = true;
  REQUIRE(p.tell(opened{"x", "y", false, fenwick_text()}));
  CHECK(p.e.saving());
  CHECK_FALSE(p.current().opening.has_value());
  CHECK(p.refused(opened{"z", "y", false, fenwick_text()}) != ""); // it is on its way already
  REQUIRE(p.tell(invented_person()));
  CHECK(p.keeper.kept.size() == 1); // one batch at a time
  p.e.settle();
  CHECK(p.e.saving());
  p.keeper.catch_up();
  p.e.settle();
  CHECK(p.current().opening.has_value());
  CHECK(p.e.events().size() == 1);
  CHECK_FALSE(p.current().person.has_value());
  p.keeper.catch_up();
  p.e.settle();
  CHECK_FALSE(p.e.saving());
  CHECK(p.current().person.has_value());
  CHECK(p.keeper.kept.size() == 2);
}

TEST_CASE("after a failed write nothing is folded and nothing more is accepted") {
  patient p;
  p.through_the_drink();
  const auto seq = p.current().seq;
  const auto kept = p.keeper.kept.size();
  p.keeper.fails = true;
  CHECK_FALSE(p.tell(reported_comment{"lost"}));
  CHECK(exit_status(p.no) == 1);
  CHECK(p.current().seq == seq);
  CHECK_FALSE(p.e.saving());
  p.keeper.fails = false; // the disk has room again, but the keeper was not reopened
  CHECK_FALSE(p.tell(reported_comment{"still refused"}));
  CHECK(p.no.kind == refusal_kind::machine);
  CHECK(p.e.failure().has_value());
  CHECK(p.keeper.kept.size() == kept);
  CHECK(p.current().comments.empty());
}

TEST_CASE("an engine made anew from what was kept has the same state") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  engine again(p.keeper, p.keeper.kept);
  CHECK(again.current().seq == p.current().seq);
  CHECK(again.events().size() == p.e.events().size());
  for (std::size_t i = 0; i < again.events().size(); ++i)
    CHECK(again.events()[i].seq == static_cast<std::int64_t>(i) + 1);
  CHECK(again.current().grid->anchor.wall == p.current().grid->anchor.wall);
  CHECK(again.current().of(sample_number(2)).taken->closed == p.tube(2).taken->closed);
}

TEST_CASE("a command and what the clocks did before it are one batch, the clocks first") {
  patient p;
  p.open_and_plan();
  p.clock.step(10min);
  REQUIRE(p.tell(reported_comment{"x"}));
  REQUIRE(p.keeper.kept.size() == 5);
  CHECK(std::holds_alternative<clock_changed>(p.keeper.kept[3].what));
  CHECK(std::holds_alternative<reported_comment>(p.keeper.kept[4].what));
}

TEST_CASE("the next change is when the answer changes, and not before") {
  patient p;
  p.open_and_plan();
  int steps = 0;
  // From the morning four weeks before to the end of the test, with nothing done on the grid.
  const auto follow = [&](bool every_wake_shows) {
    while (const auto change = p.now().next_change) {
      REQUIRE(*change > duration{0});
      const clock_reading here = p.clock.look();
      const std::string now = picture(p, here);
      INFO(now << " in " << change->count() << " ms");
      CHECK(picture(p, later(here, *change - 1ms)) == now);
      CHECK(picture(p, later(here, *change / 2)) == now);
      if (every_wake_shows) CHECK(picture(p, later(here, *change)) != now);
      p.clock.pass(*change);
      ++steps;
      if (steps > 200) break;
    }
  };
  follow(true); // up to the start
  CHECK(steps >= 4);
  for (payload& told : gate_answers(p.current(), p.clock.look()))
    REQUIRE(p.tell(std::move(told)));
  REQUIRE(p.tell(sugar_set_aside{}));
  p.score(1);
  REQUIRE(p.tell(breath_begun{sample_number(1)}));
  follow(true); // through the breath until it is unsure
  REQUIRE(p.tell(breath_abandoned{sample_number(1), ""}));
  p.breathe(1);
  p.label(1);
  const int before_drink = steps;
  // The drink falls overdue and all tubes go by; some of their edges do not show under the drink.
  follow(false);
  CHECK(steps > before_drink + 10);
  // Long before the last, the morning's answers are too old for a drink.
  CHECK(p.now().what == step::gate);
  p.clock.pass(1h);
  CHECK(p.now().missed.size() == 9);
}

TEST_CASE("the next change on the grid, with the drink taken and all tubes let go by") {
  patient p;
  p.through_the_drink();
  p.score(1);
  int steps = 0;
  while (const auto change = p.now().next_change) {
    const clock_reading here = p.clock.look();
    const std::string now = picture(p, here);
    INFO(now << " in " << change->count() << " ms");
    CHECK(picture(p, later(here, *change - 1ms)) == now);
    CHECK(picture(p, later(here, *change)) != now);
    p.clock.pass(*change);
    REQUIRE(++steps < 100);
  }
  CHECK(p.now().what == step::finish);
  // For each of nine tubes: heads-up, may begin, due, late, last call.
  CHECK(steps == 45);
}
