// What another of the laboratory's sugars must never meet counts without a kit's code, wherever it
// was answered.
#include "core/session/other_sugars.hpp"
#include "tests/unit/session/at_the_sugar.hpp"

#include <algorithm>
#include <map>

using namespace qb;
using namespace qb::test;

namespace {

constexpr const char* of_lactulose = "ask-galactosaemia";

std::vector<const protocol*> all_shipped() {
  std::vector<const protocol*> out;
  for (const std::string& id : shipped_ids())
    out.push_back(&shipped(id));
  return out;
}

bool asks(const std::vector<caution>& all, const std::string& rule) {
  return std::any_of(all.begin(), all.end(), [&](const caution& c) { return c.why.rule == rule; });
}

reported_kit kit_of(const std::string& id) {
  return {"FV2C-7HW2-4K6D", "FV-2C7H", id, parse_date("2027-12-31").value()};
}

} // namespace

TEST_CASE("without a kit code every question that forbids another sugar is asked, and only asked "
          "about") {
  for (const protocol* p : all_shipped()) {
    const state nobody;
    const auto asked = asked_before_plan(nobody, *p, all_shipped());
    for (const protocol* other : all_shipped()) {
      for (const caution& c : other->cautions) {
        if (c.leads != leads_to::not_this_test) continue;
        INFO(p->id << " " << c.why.rule);
        const bool in_other_words = std::any_of(
            asked.begin(), asked.end(), [&](const caution& x) { return x.question == c.question; });
        CHECK((asks(asked, c.why.rule) || in_other_words));
      }
    }
    for (std::size_t i = p->cautions.size(); i < asked.size(); ++i) {
      CHECK(asked[i].leads == leads_to::ask_first);
      CHECK(asked[i].unsure_leads == leads_to::ask_first);
      CHECK(asked[i].may_release == std::vector<releaser>{releaser::laboratory});
    }
    state with_kit;
    with_kit = apply(std::move(with_kit), event{1, {}, kit_of(p->id)});
    CHECK(asked_before_plan(with_kit, *p, all_shipped()).size() == p->cautions.size());
  }
}

TEST_CASE("a yes to what another sugar must never meet keeps the plan back, whoever asks") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  const protocol& glucose = shipped("glucose-75g");
  const plan_made wanted{shipped_file("glucose-75g"), glucose.sugar.forms.back().form,
                         make_plan(glucose, start, zone_named("Europe/London")).value()};
  REQUIRE(p.refused(wanted) == "");
  const auto answer = GENERATE(caution_answer::yes, caution_answer::unsure);
  REQUIRE(p.tell(said(of_lactulose, answer)));
  CHECK(p.refused(wanted) == "no.ask-first");
  CHECK(asks(asked_before_plan(p.current(), glucose, all_shipped()), of_lactulose));
  SECTION("the laboratory knows what it packed") {
    reported_caution word = released(of_lactulose, releaser::laboratory);
    word.for_test = glucose.id;
    word.asked_again = true;
    REQUIRE(p.tell(word));
    CHECK(p.refused(wanted) == "");
  }
  SECTION("a doctor does not") {
    reported_caution word = released(of_lactulose, releaser::doctor);
    word.for_test = glucose.id;
    word.asked_again = true;
    CHECK(p.refused(word) == "no.may-not-say"); // of the test that was planned last
    CHECK(p.refused(wanted) == "no.ask-first");
  }
  SECTION("a kit's code says which sugar it is") {
    REQUIRE(p.tell(kit_of(glucose.id)));
    CHECK(p.refused(wanted) == "");
  }
}

TEST_CASE("told at the sugar page it brings its own page at once, and the sugar stays closed") {
  at_the_sugar p("glucose-75g");
  REQUIRE(p.now().what == step::sugar);
  REQUIRE(p.tell(said(of_lactulose, caution_answer::yes)));
  p.is_held();
  REQUIRE(p.now().what == step::held);
  CHECK(p.now().held_by == hindrance{hindrance_kind::ask_first, of_lactulose});
  CHECK(p.refused(released(of_lactulose, releaser::doctor)) == "no.may-not-say");
  REQUIRE(p.tell(released(of_lactulose, releaser::laboratory)));
  CHECK(p.now().what == step::sugar);
}

TEST_CASE("a question has one id in all shipped tests, so that its answer counts in all of them") {
  std::map<std::string, std::string> id_of;
  for (const protocol* p : all_shipped()) {
    for (const auto* list : {&p->cautions, &p->morning}) {
      for (const caution& c : *list) {
        const std::string& id = id_of.emplace(c.question, c.why.rule).first->second;
        INFO(p->id << " " << c.why.rule << " " << id);
        CHECK(id == c.why.rule);
      }
    }
  }
  // Ids of earlier protocols, which records keep.
  CHECK(is_same_question("no-fructose-intolerance", "ask-fructose-intolerance"));
  CHECK(is_same_question("no-lactose-galactosaemia", "no-lactulose-galactosaemia"));
  CHECK_FALSE(is_same_question("ask-galactosaemia", "ask-fructose-intolerance"));
}

TEST_CASE("a yes told for one sugar stands against another that asks the same, whatever the kit") {
  for (const char* id : {"no-fructose-intolerance", "ask-fructose-intolerance"}) {
    patient p;
    REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
    REQUIRE(p.tell(invented_person()));
    REQUIRE(p.tell(said(id, caution_answer::yes)));
    REQUIRE(p.tell(kit_of("fructose-25g")));
    const protocol& fructose = shipped("fructose-25g");
    const plan_made planned{shipped_file("fructose-25g"), fructose.sugar.forms.back().form,
                            make_plan(fructose, start, zone_named("Europe/London")).value()};
    CHECK(p.refused(planned) == "no.never");
    // And it becomes a no only by the whole question once more.
    CHECK(p.refused(said("ask-fructose-intolerance", caution_answer::no)) == "no.ask-again");
    REQUIRE(p.tell(again(said("ask-fructose-intolerance", caution_answer::no))));
    CHECK(p.refused(planned) == "");
    REQUIRE(p.current().cautions.size() == 1);
    CHECK(p.current().cautions.front().earlier.size() == 1);
  }
}

TEST_CASE("a box that lacks a tube holds the test until the laboratory says that it may go on") {
  for (const protocol* p : all_shipped()) {
    at_the_sugar at(p->id);
    REQUIRE(at.tell(said("morning-tubes", caution_answer::yes)));
    at.is_held();
    CHECK(at.refused(released("morning-tubes", releaser::doctor)) == "no.may-not-say");
    REQUIRE(at.tell(released("morning-tubes", releaser::laboratory)));
    CHECK(at.now().what == step::sugar);
  }
}

TEST_CASE("what is printed on the packet is asked about with the packet in hand") {
  for (const protocol* p : all_shipped())
    CHECK(is_of_the_morning(*p, "no-packet-allergy"));
}
