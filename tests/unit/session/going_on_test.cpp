// Nobody who must not drinks: every answer of every protocol, one and two deep, and the ways past
// the gate that were once open. A hole here lets somebody drink a sugar that can harm them.
#include "tests/unit/session/at_the_sugar.hpp"

#include "core/findings/findings.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

std::vector<caution> questions_of(const protocol& p) {
  std::vector<caution> out = p.cautions;
  out.insert(out.end(), p.morning.begin(), p.morning.end());
  return out;
}

state with(state s, std::int64_t seq, payload what, const clock_reading& at) {
  return apply(std::move(s), event{seq, at, std::move(what)});
}

bool leads_on(const state& s, const clock_reading& now) {
  return decide(s, command{sugar_set_aside{}}, now).has_value() ||
         decide(s,
                command{reported_ready{
                    gate_checks(), {"fast"}, "the laboratory", releaser::laboratory}},
                now)
             .has_value() ||
         what_now(s, now).what == step::sugar;
}

} // namespace

TEST_CASE("every answer but no, of every question of every test, closes the way to the sugar") {
  for (const std::string& id : shipped_ids()) {
    const at_the_sugar p(id);
    REQUIRE(p.now().what == step::sugar);
    const clock_reading now = p.clock.look();
    const auto all = questions_of(shipped(id));
    for (const caution& c : all) {
      for (const auto answer : {caution_answer::yes, caution_answer::unsure}) {
        INFO(id << " " << c.why.rule << " " << key_of(answer));
        const state one = with(p.current(), p.current().seq + 1, said(c.why.rule, answer), now);
        CHECK_FALSE(leads_on(one, now));
        CHECK(what_now(one, now).what == step::held);
        CHECK(what_now(one, now).held_by->rule == c.why.rule);
      }
    }
  }
}

TEST_CASE("two answers deep: putting one right never opens what the other closed") {
  for (const std::string& id : shipped_ids()) {
    const at_the_sugar p(id);
    const clock_reading now = p.clock.look();
    const auto all = questions_of(shipped(id));
    for (const caution& a : all) {
      const state one =
          with(p.current(), p.current().seq + 1, said(a.why.rule, caution_answer::yes), now);
      for (const caution& b : all) {
        if (a.why.rule == b.why.rule) continue;
        INFO(id << " " << a.why.rule << " then " << b.why.rule);
        const state two = with(one, one.seq + 1, said(b.why.rule, caution_answer::unsure), now);
        CHECK_FALSE(leads_on(two, now));
        const state a_no = with(two, two.seq + 1, again(said(a.why.rule, caution_answer::no)), now);
        CHECK_FALSE(leads_on(a_no, now));
        const state b_no = with(two, two.seq + 1, again(said(b.why.rule, caution_answer::no)), now);
        CHECK_FALSE(leads_on(b_no, now));
        const state both =
            with(a_no, a_no.seq + 1, again(said(b.why.rule, caution_answer::no)), now);
        CHECK(leads_on(both, now));
      }
    }
  }
}

TEST_CASE("who may release a question is the protocol's, and nobody else does") {
  for (const std::string& id : shipped_ids()) {
    for (const caution& c : questions_of(shipped(id))) {
      for (const releaser by : {releaser::doctor, releaser::laboratory}) {
        INFO(id << " " << c.why.rule);
        at_the_sugar p(id);
        REQUIRE(p.tell(said(c.why.rule, caution_answer::yes)));
        const auto& may = c.may_release;
        const bool can =
            c.leads == leads_to::ask_first && std::find(may.begin(), may.end(), by) != may.end();
        CHECK((p.refused(released(c.why.rule, by)) == "") == can);
        CHECK((p.now().what == step::held) != can);
        // Whoever it was must be one of the two: a neighbour's word is none.
        reported_caution neighbour = released(c.why.rule, by);
        neighbour.said_by.reset();
        if (!can) CHECK(p.refused(neighbour) != "");
      }
    }
  }
}

TEST_CASE("past the gate an answer still counts: a yes on the sugar page closes it") {
  at_the_sugar p("fructose-25g");
  REQUIRE(p.now().what == step::sugar);
  REQUIRE(p.tell(said("ask-fructose-intolerance", caution_answer::yes)));
  p.is_held();
  CHECK(p.refused(sugar_set_aside{}) == "no.never");
  CHECK(p.now().what == step::held);
  CHECK(p.now().held_by->what == hindrance_kind::never);
  // Nobody's word opens it, and not one press.
  CHECK(p.refused(released("ask-fructose-intolerance", releaser::doctor)) != "");
  CHECK(p.refused(said("ask-fructose-intolerance", caution_answer::no)) == "no.ask-again");
  p.is_held();
}

TEST_CASE("not sure about hereditary fructose intolerance is final for the fructose test") {
  at_the_sugar p("fructose-25g");
  REQUIRE(p.tell(said("ask-fructose-intolerance", caution_answer::unsure)));
  CHECK(p.refused(sugar_set_aside{}) == "no.never");
  reported_caution neighbour = released("ask-fructose-intolerance", releaser::laboratory);
  neighbour.answer = caution_answer::unsure;
  CHECK(p.refused(neighbour) == "no.may-not-say");
  p.is_held();
}

TEST_CASE("an answer is taken back only by the whole question, and the laboratory sees both") {
  at_the_sugar p;
  REQUIRE(p.tell(said("ask-pregnancy", caution_answer::yes)));
  CHECK(p.refused(said("ask-pregnancy", caution_answer::no)) == "no.ask-again");
  p.clock.pass(60s);
  REQUIRE(p.tell(again(said("ask-pregnancy", caution_answer::no))));
  CHECK(p.now().what == step::sugar);
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  const auto back = std::find_if(found.begin(), found.end(),
                                 [](const finding& f) { return f.rule == "answer-taken-back"; });
  REQUIRE(back != found.end());
  CHECK(back->words == "Pregnancy: said yes at Tuesday 07:28, then no at 07:29");
  CHECK(back->weight == consequence::review);
  CHECK(back->events.size() == 2);
}

TEST_CASE("the morning's answers close the engine, not the window alone, and grow old") {
  for (const std::string rule : {"morning-weak", "morning-fever", "morning-diarrhoea",
                                 "morning-new-medicine", "morning-pregnancy"}) {
    INFO(rule);
    at_the_sugar p;
    REQUIRE(p.tell(said(rule, caution_answer::yes)));
    p.is_held();
    CHECK(p.now().held_by->rule == rule);
  }
  {
    at_the_sugar p;
    REQUIRE(p.tell(said("morning-low-sugar", caution_answer::yes)));
    CHECK(p.refused(sugar_set_aside{}) == "no.never-today");
  }
  at_the_sugar p;
  p.clock.pass(morning_answers_hold + 1s);
  CHECK(p.now().what == step::gate);
  CHECK(p.refused(sugar_set_aside{}) == "no.unanswered");
}

TEST_CASE("the answer that grows old changes by itself at the time that was told") {
  at_the_sugar p;
  const auto change = p.now().next_change;
  REQUIRE(change.has_value());
  REQUIRE(*change <= duration{morning_answers_hold});
  // Step by step to the gate: no change comes between two of those that were announced.
  for (int i = 0; i < 50 && p.now().what == step::sugar; ++i) {
    const duration left = *p.now().next_change;
    p.clock.pass(left - 1ms);
    CHECK(p.now().what == step::sugar);
    p.clock.pass(1ms);
  }
  CHECK(p.now().what == step::gate);
}

TEST_CASE("the packet's name and amount are held against the plan") {
  at_the_sugar p;
  REQUIRE(p.tell(reported_packet{"lactulose", 50, "ml"}));
  CHECK(p.refused(sugar_set_aside{}) == "no.packet");
  p.is_held();
  CHECK(p.now().held_by->what == hindrance_kind::packet_differs);
  REQUIRE(p.tell(reported_packet{"", 0, "", "sorbitol 20 g"}));
  p.is_held();
  reported_packet right = right_packet(p.current());
  CHECK(p.refused(right) == "no.ask-again");
  p.is_held();
  right.asked_again = true;
  REQUIRE(p.tell(right));
  CHECK(p.now().what == step::sugar);
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  CHECK(std::count_if(found.begin(), found.end(),
                      [](const finding& f) { return f.rule == "packet-differs"; }) == 2);
}

TEST_CASE("another packet that was told before the start was moved is taken back as carefully") {
  at_the_sugar p;
  REQUIRE(p.tell(reported_packet{"", 0, "", "sorbitol 20 g"}));
  REQUIRE(p.tell(*p.current().planned));
  CHECK_FALSE(p.current().packet.has_value());
  reported_packet right = right_packet(p.current());
  CHECK(p.refused(right) == "no.ask-again");
  p.clock.pass(60s);
  right.asked_again = true;
  REQUIRE(p.tell(right));
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  const auto both = std::find_if(found.begin(), found.end(),
                                 [](const finding& f) { return f.rule == "packet-differs"; });
  REQUIRE(both != found.end());
  CHECK(both->events.size() == 2);
  CHECK(both->words == "the packet of sugar was told to say something else (sorbitol 20 g) at "
                       "Tuesday 07:28, then the right one at 07:29");
  right.asked_again = false; // told once more it takes nothing back
  CHECK(p.refused(right).empty());
}

TEST_CASE(
    "a plan that waits by rules of an earlier version is made anew, and what was told stays") {
  patient p;
  p.open_and_plan();
  const std::string old = source_file("tests/fixtures/protocols/version-1/lactulose-10g.json");
  const protocol rules = read_protocol(old).value();
  const plan_made of_then{old, rules.sugar.forms.back().form,
                          make_plan(rules, start, zone_named("Europe/London")).value()};
  CHECK(p.refused(of_then) == "no.rules-of-old"); // nobody is asked as little any more
  const clock_reading now = p.clock.look();
  const state waiting = with(p.current(), p.current().seq + 1, of_then, now);
  const now_answer a = what_now(waiting, now);
  REQUIRE(a.what == step::held);
  CHECK(a.held_by->what == hindrance_kind::old_rules);
  const auto gate = decide(
      waiting,
      command{reported_ready{gate_checks(), {"fast"}, "the laboratory", releaser::laboratory}},
      now);
  REQUIRE_FALSE(gate.has_value());
  CHECK(gate.error().where == "no.old-rules");
  const plan_made of_today = *p.current().planned;
  REQUIRE(decide(waiting, command{of_today}, now).has_value());
  const state anew = with(waiting, waiting.seq + 1, of_today, now);
  CHECK(what_now(anew, now).what == step::prepare);
  CHECK(anew.cautions.size() == p.current().cautions.size());
  CHECK(anew.washouts.size() == p.current().washouts.size());
}

TEST_CASE("50 g and 75 g of glucose are two tests: the packet of one does not open the other") {
  at_the_sugar p("glucose-75g");
  REQUIRE(p.tell(reported_packet{"glucose", 50, "g"}));
  p.is_held();
  at_the_sugar q("glucose-50g");
  REQUIRE(q.tell(reported_packet{"glucose", 75, "g"}));
  q.is_held();
}

TEST_CASE("a kit for another test, or too old, closes the sugar page too") {
  at_the_sugar p;
  REQUIRE(p.tell(
      reported_kit{"FV2C-7HM2-3N4Q", "FV-2C7H", "lactose-25g", parse_date("2027-12-31").value()}));
  CHECK(p.refused(sugar_set_aside{}) == "no.other-kit");
  p.is_held();
  REQUIRE(p.tell(reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g",
                              parse_date("2027-04-05").value()}));
  CHECK(p.refused(sugar_set_aside{}) == "no.kit-expired");
  p.is_held();
}

TEST_CASE("food told at the sugar page sends back to the gate until the laboratory agreed") {
  at_the_sugar p;
  REQUIRE(p.tell(reported_slip{"fast", p.clock.wall() - 60min, how_known::told, "toast", "meal"}));
  CHECK(p.now().what == step::gate);
  CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
  CHECK(p.refused(reported_ready{gate_checks(), {"fast"}, ""}) == "no.below-least");
  REQUIRE(p.tell(reported_ready{gate_checks(), {"fast"}, "the laboratory", releaser::laboratory}));
  CHECK(p.now().what == step::sugar);
}

TEST_CASE("the truth is never refused, and a drink against the judgement opens the page of help") {
  at_the_sugar p("fructose-25g");
  REQUIRE(p.tell(said("ask-fructose-intolerance", caution_answer::yes)));
  REQUIRE(p.tell(reported_drink{p.clock.wall() - 60s, how_known::told}));
  CHECK(p.now().what == step::unwell);
  REQUIRE(p.current().drunk_against.size() == 1);
  CHECK(p.current().drunk_against.front().what == hindrance_kind::never);
  // Going on is not offered: only help, and stopping.
  CHECK(p.refused(unwell_over{true}) == "no.final-sign");
  REQUIRE(p.tell(test_ended{"unwell"}));
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  const auto drunk = std::find_if(found.begin(), found.end(),
                                  [](const finding& f) { return f.rule == "drunk-against"; });
  REQUIRE(drunk != found.end());
  CHECK(drunk->weight == consequence::review);
  CHECK(drunk->words.find("not this test") != std::string::npos);
}

TEST_CASE("stop, unwell, warning signs and the drink are told with nothing planned and after the "
          "end") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  for (const bool planned : {false, true}) {
    INFO(planned);
    if (planned) {
      at_the_sugar q;
      REQUIRE(q.tell(test_ended{"stopped"}));
      CHECK(q.refused(test_ended{"stopped"}) == "");
      CHECK(q.refused(reported_unwell{}) == "");
      CHECK(q.refused(reported_red_flags{sample_number(1), {"fainting"}}) == "");
      CHECK(q.refused(reported_drink{q.clock.wall() - 60s, how_known::told}) == "");
      continue;
    }
    CHECK(p.refused(test_ended{"stopped"}) == "");
    CHECK(p.refused(reported_unwell{}) == "");
    CHECK(p.refused(reported_red_flags{sample_number(1), {"fainting"}}) == "");
    CHECK(p.refused(reported_drink{p.clock.wall() - 60s, how_known::told}) == "");
    CHECK(p.now().what == step::unwell);
  }
}

TEST_CASE("a high start hides no warning: 6 then 10 asks for the signs") {
  patient p;
  p.through_tube_1();
  REQUIRE(p.tell(reported_symptoms{sample_number(1), {{"pain", 6}}, ""}));
  CHECK_FALSE(asks_red_flags(p.current(), sample_number(1)));
  REQUIRE(p.tell(reported_symptoms{sample_number(2), {{"pain", 10}}, ""}));
  CHECK(asks_red_flags(p.current(), sample_number(2)));
}

TEST_CASE("after a final sign no going on is offered, after a milder one it must have passed") {
  for (const warning_sign& sign : lactulose().warnings.signs) {
    INFO(sign.id);
    patient p;
    p.through_the_drink();
    REQUIRE(p.tell(reported_red_flags{sample_number(1), {sign.id}}));
    CHECK(p.now().what == step::unwell);
    CHECK(p.refused(unwell_over{}) == (sign.is_final ? "no.final-sign" : "no.not-passed"));
    CHECK((p.refused(unwell_over{true}) == "") != sign.is_final);
  }
}

TEST_CASE("the same answer told again does not undo that somebody said: not this test") {
  at_the_sugar p;
  reported_caution refused = said("ask-pregnancy", caution_answer::yes);
  refused.outcome = asked_outcome::not_this_test;
  refused.who = "My midwife";
  REQUIRE(p.tell(refused));
  CHECK(p.refused(said("ask-pregnancy", caution_answer::yes)) == "no.ask-again");
  REQUIRE(p.tell(refused));
  CHECK(p.refused(sugar_set_aside{}) == "no.refused");
  CHECK(p.refused(released("ask-pregnancy", releaser::doctor)) == "no.ask-again");
  REQUIRE(p.tell(again(released("ask-pregnancy", releaser::doctor))));
  CHECK(p.now().what == step::sugar);
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  CHECK(std::any_of(found.begin(), found.end(), [](const finding& f) {
    return f.rule == "answer-taken-back" && f.words.find("not this test") != std::string::npos;
  }));
}
