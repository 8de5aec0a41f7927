// Who may do what: every act, every role, every way of naming somebody.
#include "core/laboratory/people.hpp"

#include <catch2/catch.hpp>
#include <iterator>

using namespace qb;
using Catch::Contains;

namespace {

std::vector<person_at_work> both() {
  return {{"R. Ashdown", "ra", {true, false}, "", ""},
          {"Dr L. Fennimore", "lf", {false, true}, "", ""},
          {"Dr P. Ottoline", "po", {true, true}, "", ""}};
}

constexpr work_roles every_role[] = {{false, false}, {true, false}, {false, true}, {true, true}};

} // namespace

TEST_CASE("only a reader concludes, sets aside, forgets, and changes the laboratory") {
  for (const work_act act : {work_act::conclude, work_act::set_aside, work_act::forget,
                             work_act::make_key, work_act::set_up, work_act::change_people})
    for (const work_roles& roles : every_role) {
      INFO(act_words(act) << " as " << roles_text(roles));
      CHECK(may(roles, act) == roles.reader);
    }
}

TEST_CASE("only the bench receives, enters sheets and readings, issues kits and takes requests") {
  for (const work_act act : {work_act::receive, work_act::enter_paper, work_act::measure,
                             work_act::issue_kits, work_act::take_requests})
    for (const work_roles& roles : every_role) {
      INFO(act_words(act) << " as " << roles_text(roles));
      CHECK(may(roles, act) == roles.bench);
    }
}

TEST_CASE("who has no role may do nothing, and a role more never takes an act away") {
  for (const work_act act : all_work_acts) {
    INFO(act_words(act));
    CHECK_FALSE(may({false, false}, act));
    CHECK(may({true, true}, act));
    CHECK(may({true, true}, act) == (may({true, false}, act) || may({false, true}, act)));
  }
}

TEST_CASE("with a list, whoever acts is one of it and may do just that, however they are named") {
  const auto people = both();
  for (const work_act act : all_work_acts)
    for (const person_at_work& p : people)
      for (const std::string& named : {p.name, p.code, " " + p.name + " "}) {
        INFO(named << ": " << act_words(act));
        const auto who = acting_person(&people, named, act);
        CHECK(who.has_value() == may(p.roles, act));
        if (who) CHECK(who->name == p.name);
        if (!who) CHECK_THAT(sentence(who.error()), Contains("Dr P. Ottoline (po, bench+reader)"));
      }
}

TEST_CASE("a name is one name, however its accents and its large letters were typed") {
  std::vector<person_at_work> people = both();
  people[1].name = "Dr Zo\u00EB Fennimore";
  for (const char* typed : {"Dr Zoe\u0308 Fennimore", "DR ZO\u00CB FENNIMORE"}) {
    CAPTURE(typed);
    const auto who = acting_person(&people, typed, work_act::conclude);
    REQUIRE(who.has_value());
    CHECK(who->code == "lf");
  }
  people[2].name = "dr zoe\u0308 fennimore";
  CHECK_FALSE(check_people(people).has_value());
}

TEST_CASE("blank and unknown names are refused with the list, for every act") {
  const auto people = both();
  for (const work_act act : all_work_acts)
    for (const char* named : {"", " ", "\t", "r ashdown", "R. Ashdow", "Ashdown", "none"}) {
      INFO("\"" << named << "\": " << act_words(act));
      const auto who = acting_person(&people, named, act);
      REQUIRE_FALSE(who.has_value());
      CHECK_THAT(sentence(who.error()), Contains("R. Ashdown (ra, bench)"));
    }
}

TEST_CASE("without a laboratory any plain name will do, and never a blank one") {
  for (const work_act act : all_work_acts) {
    CHECK(acting_person(nullptr, "R. Ashdown", act)->name == "R. Ashdown");
    for (const std::string& named :
         {std::string(), std::string(" "), std::string("a\nb"), std::string(101, 'a')})
      CHECK_FALSE(acting_person(nullptr, named, act).has_value());
  }
  const std::vector<person_at_work> nobody;
  CHECK_FALSE(acting_person(&nobody, "R. Ashdown", work_act::receive).has_value());
}

TEST_CASE("a list tells people apart, and has a reader") {
  CHECK(check_people(both()).has_value());
  auto people = both();
  people.push_back({"Another", "RA", {true, false}, "", ""});
  CHECK_THAT(sentence(check_people(people).error()), Contains("tell people apart"));
  people.back() = {"r. ashdown", "x", {true, false}, "", ""};
  CHECK_FALSE(check_people(people).has_value());
  people.back() = {"LF", "y", {true, false}, "", ""}; // another's code
  CHECK_FALSE(check_people(people).has_value());
  CHECK_THAT(sentence(check_people({both().front()}).error()), Contains("no reader"));
}

TEST_CASE("a person is told as name, code and roles") {
  const auto p = read_person_at_work(" Dr L. Fennimore/ lf /bench+reader").value();
  CHECK(p.name == "Dr L. Fennimore");
  CHECK(p.code == "lf");
  CHECK(roles_text(p.roles) == "bench+reader");
  for (const char* text : {"", "a / b", "a / b / c", " / b / reader", "a / / reader",
                           "a / b c / reader", "a / b / reader / d", "a / b / none"}) {
    INFO(text);
    CHECK_FALSE(read_person_at_work(text).has_value());
  }
}
