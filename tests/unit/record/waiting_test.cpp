// What waits for a disk: judged as if it were written, kept in the form in which it is never
// refused, told where it is not kept as it was pressed. In any order: tests/property.
#include "core/record/codec.hpp"
#include "core/record/waiting.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// A person at a disk that refuses, and what comes of it.
class at_a_disk {
public:
  explicit at_a_disk(patient& p) : p_(p) { p_.keeper.fails = true; }

  bool tell(payload wanted) {
    p_.clock.pass(1s);
    const auto done = waiting.tell(&p_.e, command{std::move(wanted)}, p_.clock.look());
    if (!done) no = done.error();
    return done.has_value();
  }
  [[nodiscard]] now_answer now() const { return what_now(waiting.shown(), p_.clock.look()); }

  // The disk takes it: the record reread from `kept`, and the waiting written to it.
  std::vector<event> returns(const std::vector<event>& kept) {
    memory_keeper keeper;
    keeper.kept = kept;
    keeper.catch_up();
    engine again(keeper, kept);
    waiting.take_over(p_.e);
    waiting.write_to(again);
    CHECK(waiting.empty());
    return again.events();
  }
  std::vector<event> returns() { return returns(p_.keeper.kept); }

  waiting_facts waiting;
  refusal no;

private:
  patient& p_;
};

// Tube 1 is closed and its label written: the drink is next.
void at_the_drink(patient& p) {
  p.through_tube_1();
  p.label(1);
}

} // namespace

TEST_CASE("feeling unwell closes the drink while the disk refuses, and going on opens it again") {
  patient p;
  at_the_drink(p);
  at_a_disk d(p);
  REQUIRE(d.tell(reported_unwell{}));
  CHECK(d.now().what == step::unwell);
  CHECK_FALSE(d.tell(drink_started{}));
  CHECK(d.no.where == "no.unwell");
  REQUIRE(d.tell(reported_red_flags{sample_number(1), {}}));
  REQUIRE(d.tell(unwell_over{}));
  CHECK(d.now().what == step::drink);
  REQUIRE(d.tell(drink_started{}));
  const instant pressed = p.clock.wall();
  CHECK(d.now().what == step::drinking);
  p.clock.pass(1h);
  const auto events = d.returns();
  CHECK(all_of<reported_unwell>(events).size() == 1);
  CHECK(all_of<unwell_over>(events).size() == 1);
  const auto drinks = all_of<drink_started>(events);
  REQUIRE(drinks.size() == 1);
  CHECK(drinks[0].at.wall == pressed);
  CHECK(d.waiting.aside().empty());
}

TEST_CASE("what was told that cuts the preparation short closes the drink while it waits") {
  patient p;
  at_the_drink(p);
  at_a_disk d(p);
  REQUIRE(d.tell(reported_slip{"fast", p.clock.wall() - 60min, how_known::told, "", "meal"}));
  CHECK(d.now().what == step::gate);
  CHECK_FALSE(d.tell(drink_started{}));
  CHECK(all_of<reported_slip>(d.returns()).size() == 1);
}

TEST_CASE("two presses of one kind that say the opposite are both kept, in their order") {
  patient p;
  p.open_and_plan();
  at_a_disk d(p);
  const std::string rule = lactulose().cautions.front().why.rule;
  REQUIRE(d.tell(reported_caution{rule, caution_answer::no, {}, "", ""}));
  REQUIRE(d.tell(reported_caution{rule, caution_answer::yes, {}, "", ""}));
  CHECK_FALSE(d.tell(reported_caution{rule, caution_answer::no, {}, "", ""}));
  CHECK(d.no.where == "no.ask-again");
  REQUIRE(d.tell(reported_red_flags{sample_number(1), {}}));
  REQUIRE(d.tell(reported_red_flags{sample_number(1), {"vomiting"}}));
  CHECK_FALSE(d.tell(unwell_over{}));
  CHECK(d.no.where == "no.not-passed");
  const auto events = d.returns();
  CHECK(all_of<reported_caution>(events).size() == 2);
  CHECK(all_of<reported_red_flags>(events).size() == 2);
  CHECK(has_warning_signs(fold_events(events)));
}

TEST_CASE("a drink that the record refuses by then is a drink all the same, at its own time") {
  patient p;
  at_the_drink(p);
  std::vector<event> other = p.keeper.kept;
  at_a_disk d(p);
  REQUIRE(d.tell(drink_started{}));
  const instant pressed = p.clock.wall();
  // Meanwhile the record has become another: somebody said in it that they feel unwell.
  other.push_back(event{p.current().seq + 1, p.clock.look(), reported_unwell{}});
  const auto events = d.returns(other);
  CHECK(all_of<drink_started>(events).empty());
  const auto drinks = all_of<reported_drink>(events);
  REQUIRE(drinks.size() == 1);
  CHECK(std::get<reported_drink>(drinks[0].what).started == pressed);
  CHECK(std::get<reported_drink>(drinks[0].what).how == how_known::observed);
  CHECK(fold_events(events).drink_start->at.wall == pressed);
  REQUIRE(d.waiting.aside().size() == 1);
  CHECK(d.waiting.aside()[0].pressed == pressed);
  CHECK(d.waiting.aside()[0].noted);
  d.waiting.forget_aside();
  CHECK(d.waiting.aside().empty());
}

TEST_CASE("the end of a drink that was kept otherwise is kept as it was pressed") {
  patient p;
  at_the_drink(p);
  std::vector<event> other = p.keeper.kept;
  at_a_disk d(p);
  REQUIRE(d.tell(drink_started{}));
  REQUIRE(d.tell(drink_ended{false}));
  other.push_back(event{p.current().seq + 1, p.clock.look(), reported_unwell{}});
  const auto events = d.returns(other);
  CHECK(all_of<reported_drink>(events).size() == 1);
  CHECK(all_of<drink_ended>(events).size() == 1);
  CHECK(all_of<reported_comment>(events).empty());
}

TEST_CASE("whatever else the record refuses by then is kept as a comment that names it") {
  patient p;
  at_the_drink(p);
  std::vector<event> other = p.keeper.kept;
  at_a_disk d(p);
  REQUIRE(d.tell(repeat_wanted{sample_number(1), "spoiled"}));
  other.push_back(event{p.current().seq + 1, p.clock.look(), test_ended{"stopped"}});
  const auto notes = all_of<reported_comment>(d.returns(other));
  REQUIRE(notes.size() == 1);
  CHECK(std::get<reported_comment>(notes[0].what).words ==
        "Pressed, and could not be kept as it was: repeat-wanted "
        "{\"reason\":\"spoiled\",\"sample\":1}");
  REQUIRE(d.waiting.aside().size() == 1);
  CHECK(d.waiting.aside()[0].noted);
}

TEST_CASE("what no record can hold any more is told") {
  patient p;
  at_the_drink(p);
  at_a_disk d(p);
  REQUIRE(d.tell(repeat_wanted{sample_number(1), "spoiled"}));
  CHECK(d.returns({}).empty());
  REQUIRE(d.waiting.aside().size() == 1);
  CHECK_FALSE(d.waiting.aside()[0].noted);
}

TEST_CASE("a write that was said to have failed and reached the disk is not written twice") {
  patient p;
  at_the_drink(p);
  at_a_disk d(p);
  REQUIRE(d.tell(reported_unwell{}));
  const clock_reading pressed = p.clock.look();
  std::vector<event> reached = p.keeper.kept;
  reached.push_back(event{p.current().seq + 1, pressed, reported_unwell{}});
  REQUIRE(d.tell(reported_red_flags{sample_number(1), {}}));
  REQUIRE(d.tell(unwell_over{}));
  const auto events = d.returns(reached);
  CHECK(all_of<reported_unwell>(events).size() == 1);
  CHECK(all_of<unwell_over>(events).size() == 1);
}

TEST_CASE("a correction of what itself waits is refused: only the record can name it") {
  patient p;
  at_the_drink(p);
  at_a_disk d(p);
  REQUIRE(d.tell(drink_started{}));
  const std::int64_t drink = d.waiting.shown().drink_start->seq;
  CHECK_FALSE(d.tell(corrected{drink, right_time{p.clock.wall(), how_known::told}, "a clock"}));
  CHECK(d.no.where == "no.not-saved");
}

TEST_CASE("what a slow disk had accepted when it failed waits first of all") {
  patient p;
  at_the_drink(p);
  p.keeper.slow = true;
  REQUIRE(p.tell(reported_comment{"before"}));
  REQUIRE(p.tell(reported_unwell{}));
  p.keeper.catch_up();
  at_a_disk d(p); // it fails with what was heard
  p.e.settle();
  CHECK_FALSE(d.tell(drink_started{}));
  CHECK(d.now().what == step::unwell);
  const auto events = d.returns();
  CHECK(all_of<reported_comment>(events).size() == 1);
  CHECK(all_of<reported_unwell>(events).size() == 1);
}
