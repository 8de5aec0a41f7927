// What counts after a record was damaged and read again: questions of another sugar, and a drink.
// All orders of losses and tellings, at random, are in tests/property/after_loss_test.cpp.
#include "core/session/after_loss.hpp"
#include "tests/unit/session/at_the_sugar.hpp"

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

// Of lactulose and lactose; a test of glucose does not ask it.
constexpr const char* of_another = "ask-galactosaemia";

// A record that was read again with something lost; that question may have been answered.
struct read_again {
  state s;
  clock_double clock;

  explicit read_again(const patient& p) : s(p.current()), clock(p.clock) {
    add(record_salvaged{1, false, {of_another}});
    clock.pass(60s);
  }
  void add(payload what) { s = apply(std::move(s), event{s.seq + 1, clock.look(), what}); }
  bool tell(payload what) {
    if (!decide(s, command{what}, clock.look())) return false;
    add(std::move(what));
    return true;
  }
  // All that is asked of this test itself, up to the gate.
  void tell_the_rest() {
    REQUIRE(tell(*s.person));
    REQUIRE(tell(reported_red_flags{sample_number(1), {}}));
    REQUIRE(tell(reported_checklist{told_again_list, {}}));
    for (const washout& w : s.test->washouts)
      REQUIRE(tell(reported_washout{{w.why.rule, washout_answer::never, {}, false}, ""}));
    std::vector<payload> all = gate_answers(s, clock.look());
    all.pop_back();
    for (payload& one : all)
      REQUIRE(tell(std::move(one)));
  }
  [[nodiscard]] bool stands(const hindrance& h) const {
    const auto all = hindrances(s, clock.look());
    return std::find(all.begin(), all.end(), h) != all.end();
  }
  [[nodiscard]] bool was_drunk_against(const hindrance& h) const {
    const auto& all = s.drunk_against;
    return std::find(all.begin(), all.end(), h) != all.end();
  }
};

const hindrance unanswered{hindrance_kind::unanswered, of_another};
const hindrance to_ask{hindrance_kind::ask_first, of_another};

} // namespace

TEST_CASE("another sugar's question whose answer may be lost is asked again, and holds the sugar") {
  const at_the_sugar p("glucose-75g");
  read_again r(p);
  r.tell_the_rest();
  CHECK(lost_answers(r.s, *r.s.test) == std::vector<std::string>{of_another});
  CHECK(r.stands(unanswered));
  payload ready = gate_answers(r.s, r.clock.look()).back();
  CHECK_FALSE(r.tell(ready));
  SECTION("a no lets the person go on") {
    REQUIRE(r.tell(said(of_another, caution_answer::no)));
    CHECK(lost_answers(r.s, *r.s.test).empty());
    CHECK(r.tell(ready));
    CHECK(what_now(r.s, r.clock.look()).what == step::sugar);
  }
  SECTION("a yes leads to the laboratory") {
    REQUIRE(r.tell(said(of_another, caution_answer::yes)));
    CHECK(r.stands(to_ask));
    CHECK_FALSE(r.tell(ready));
    CHECK(what_now(r.s, r.clock.look()).what == step::held);
  }
}

TEST_CASE("an answer to another sugar's question that was not lost, but permits, is asked again") {
  at_the_sugar p("glucose-75g");
  REQUIRE(p.tell(said(of_another, caution_answer::no)));
  read_again r(p);
  r.tell_the_rest();
  CHECK(r.stands(unanswered));
}

TEST_CASE("a drink begun after a loss is weighed by another sugar's questions as well") {
  const at_the_sugar p("glucose-75g");
  read_again r(p);
  r.tell_the_rest();
  r.clock.pass(60s);
  REQUIRE(r.tell(reported_drink{r.clock.wall(), how_known::told}));
  CHECK(r.was_drunk_against(unanswered));
  CHECK(what_now(r.s, r.clock.look()).what == step::unwell); // what to do now comes first
}

TEST_CASE(
    "a yes about another sugar stands against a drink, whether it was begun before the record "
    "was read again or after") {
  const duration ago = GENERATE(duration{0}, duration{600s});
  at_the_sugar p("glucose-75g");
  REQUIRE(p.tell(said(of_another, caution_answer::yes)));
  p.clock.pass(700s);
  read_again r(p);
  REQUIRE(r.tell(*r.s.person));
  REQUIRE(r.tell(reported_drink{r.clock.wall() - ago, how_known::told}));
  CHECK(r.was_drunk_against(to_ask));
  CHECK(what_now(r.s, r.clock.look()).what == step::unwell);
  // What was asked before the loss is not held against who drank before it.
  CHECK(r.was_drunk_against({hindrance_kind::packet_unread, ""}) == (ago == duration{0}));
}
