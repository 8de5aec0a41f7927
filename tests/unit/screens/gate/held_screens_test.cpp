// What stands against going on has a page of its own, at once and from every door, and that page
// offers only what may release it.
#include "core/session/decide.hpp"
#include "tests/unit/screens/gate/held_stages.hpp"

using namespace qb;
using namespace qb::test;

namespace {

const std::pair<float, float> windows[] = {{360, 640}, {480, 800}, {800, 480}};

void held_by(stage& s, const std::string& rule, caution_answer answer = caution_answer::yes) {
  nothing_stands(s);
  s.m.tell(answered(rule, answer));
}

// The steps before the drink, by name, each reached by facts alone.
std::map<std::string, std::function<void(stage&)>> steps_before_the_drink() {
  return {{"prepare", [](stage& s) { living_at(s, "2027-04-05 10:00"); }},
          {"gate", [](stage& s) { living_at(s, "2027-04-06 07:10"); }},
          {"sugar", to_sugar},
          {"symptoms",
           [](stage& s) {
             to_sugar(s);
             s.m.tell(sugar_set_aside{});
           }},
          {"tube 1", to_tube_1},
          {"drink", to_drink}};
}

} // namespace

TEST_CASE("every kind of hindrance has a page that fits, and it offers only what may release it") {
  const auto cases = held_cases();
  for (const auto& [width, height] : windows) {
    stage s(draw_agree, width, height);
    for (const hindrance_kind kind : all_hindrances) {
      for (const bool gate_passed : {false, true}) {
        REQUIRE(cases.count(kind) == 1);
        const held_case& c = cases.at(kind);
        INFO(c.screen << " of kind " << static_cast<int>(kind) << ", gate passed " << gate_passed);
        for (const bool trying : {false, true}) {
          show_afresh(s, draw_screen, [&](stage& x) {
            x.m.lab.for_trying = trying;
            stand_held(x, c, gate_passed);
          });
          CHECK(s.shown() == c.screen);
          CHECK((s.h.find("trying") != nullptr) == trying);
          look_at_leaves(s, c.screen);
        }
        const auto against = hindrances(s.m.s, s.m.at);
        REQUIRE_FALSE(against.empty());
        CHECK(against.front().what == kind);
        CHECK_FALSE(leads_on(s));
        auto offers = c.offers;
        if (has_own_page(against.front())) offers.insert("drank-first");
        CHECK(offers_of(s) == offers);
      }
    }
  }
}

TEST_CASE("a low blood sugar this morning says nothing of another day") {
  stage s(draw_screen);
  held_by(s, "morning-low-sugar");
  REQUIRE(s.shown() == "held");
  CHECK(s.h.find("title")->name == "Do not start today");
  // What to do now, and when to call for help, stand on the first leaf; there is nothing to ask.
  REQUIRE(s.h.find("why") != nullptr);
  CHECK(s.h.find("why")->name == find_caution(*s.m.s.test, "morning-low-sugar")->text);
  CHECK(s.h.state("why") == "needs-you");
  REQUIRE(s.h.find("emergency") != nullptr);
  CHECK(s.h.find("emergency")->name.find(s.m.lab.emergency) != std::string::npos);
  CHECK(s.seek("ask") == nullptr);
  held_by(s, "ask-galactosaemia");
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "This test is not for you");
  CHECK(s.seek("emergency") == nullptr); // nothing of today is to be treated
}

TEST_CASE("each question of each test is held in its own words, and released by whom it names") {
  for (const auto& [width, height] : windows) {
    stage s(draw_agree, width, height);
    std::set<std::string> seen; // most protocols share theirs
    for (std::size_t test = 0; test < s.m.tests.size(); ++test) {
      const protocol p = s.m.tests[test].test;
      for (const caution& c : questions_of(p)) {
        if (!seen.insert(c.name + c.text + c.ask + c.whom).second) continue;
        for (const auto answer : {caution_answer::yes, caution_answer::unsure}) {
          INFO(p.id << " " << c.why.rule << " " << key_of(answer));
          show_afresh(s, draw_screen, [&](stage& x) {
            nothing_stands(x, test);
            x.m.tell(answered(c.why.rule, answer));
          });
          REQUIRE(s.shown() == "held");
          CHECK(s.h.find("sugar")->name == s.m.t("screening.stop.sugar"));
          look_at_leaves(s, c.why.rule);
          const bool never = is_never(c, answered(c.why.rule, answer));
          const auto offers = offers_of(s);
          CHECK(offers.count("may-go-on") == (never || c.may_release.empty() ? 0 : 1));
          if (offers.count("may-go-on") == 0) continue;
          REQUIRE(s.press("may-go-on"));
          CHECK(s.shown() == "held-who");
          look_at_leaves(s, c.why.rule + " who");
          std::set<std::string> may{"back", "gate-who"};
          for (const releaser r : c.may_release)
            may.insert(std::string("releaser-") + key_of(r));
          s.u.nav.page = held_page::what;
          s.h.frames(1);
          s.u.nav.page = held_page::who;
          CHECK(offers_of(s) == may);
        }
      }
    }
  }
}

TEST_CASE("on the page of an answer that is final no button leads on") {
  for (const std::string rule : {"ask-galactosaemia", "morning-low-sugar"}) {
    stage s(draw_screen);
    s.settles = true;
    held_by(s, rule);
    REQUIRE(s.m.now.held_by->what == hindrance_kind::never);
    for (const std::string& key : offers_of(s)) {
      INFO(rule << " " << key);
      s.u.nav.close_side();
      REQUIRE(s.shown() == "held");
      REQUIRE(s.press(key));
      CHECK_FALSE(s.wished);
      CHECK_FALSE(leads_on(s));
      CHECK(s.m.now.what == step::held);
    }
    // Nor does the page for somebody's word, by whatever way it was opened.
    s.u.nav.close_side();
    s.u.nav.page = held_page::who;
    CHECK(s.shown() == "held");
  }
}

TEST_CASE("who said to go on is one of those the protocol names, with a name") {
  stage s(draw_screen);
  s.settles = true;
  held_by(s, "morning-fever");
  CHECK(s.shown() == "held");
  CHECK(s.h.find("title")->name == "Do not start yet. Ask the laboratory");
  CHECK(s.h.find("said")->name == "You said: yes.");
  CHECK(s.seek("say")->name == "Ask them:");
  CHECK(s.seek("ask")->name == "“Should I wait until I am well?”");
  CHECK(s.seek("waits")->name == "Your test waits. Ask today, or press “Not today”.");
  s.u.drafts.answers = answerer::person;
  REQUIRE(s.press("may-go-on"));
  CHECK_FALSE(s.press("go-on"));
  s.write("gate-who", "Ms Quill");
  CHECK_FALSE(s.press("go-on")); // a name is not enough
  REQUIRE(s.press("releaser-laboratory"));
  REQUIRE(s.press("go-on"));
  const auto* told = s.asked<reported_caution>();
  REQUIRE(told != nullptr);
  CHECK(told->rule == "morning-fever");
  CHECK(told->answer == caution_answer::yes);
  CHECK(told->outcome == asked_outcome::go_on);
  CHECK(told->who == "Ms Quill");
  CHECK(told->said_by == releaser::laboratory);
  CHECK(told->by == answerer::person);
  CHECK(s.m.now.what == step::gate);
  CHECK(s.u.drafts.gate_adviser.empty());
  CHECK_FALSE(s.u.drafts.gate_releaser);
}

TEST_CASE("whoever was chosen for one question is not chosen for another they may not release") {
  stage s(draw_screen);
  s.settles = true;
  held_by(s, "morning-fever");
  REQUIRE(s.press("may-go-on"));
  REQUIRE(s.press("releaser-laboratory"));
  s.write("gate-who", "Ms Quill");
  REQUIRE(s.press("back"));
  s.m.tell(answered("ask-pregnancy", caution_answer::yes)); // a doctor's to release
  REQUIRE(s.press("may-go-on"));
  CHECK(s.h.find("releaser-laboratory") == nullptr);
  CHECK_FALSE(s.press("go-on"));
}

TEST_CASE("a yes brings the page of what holds at once, at every step and over every side page") {
  for (const auto& [name, reach] : steps_before_the_drink()) {
    stage s(draw_screen);
    reach(s);
    s.h.frames(1);
    const made_view before = s.m;
    for (int page = 0; page <= static_cast<int>(side_page::returned); ++page) {
      const auto open = static_cast<side_page>(page);
      INFO(name << ", side page " << page);
      s.m = before;
      s.u = {};
      s.h.frames(1);
      s.u.nav.open_side(open);
      s.m.tell(answered("ask-diabetes", caution_answer::yes));
      // Whose test it is is confirmed before an answer is shown.
      CHECK(s.shown() == (open == side_page::returned ? "return" : "held"));
      if (open == side_page::returned) REQUIRE(s.press("go-on"));
      CHECK(s.shown() == "held");
      CHECK_FALSE(s.u.nav.is_side());
      CHECK_FALSE(leads_on(s));
    }
  }
}

TEST_CASE("a yes to a question opened from 'Move the start' brings it too") {
  for (const auto& [name, reach] : steps_before_the_drink()) {
    INFO(name);
    stage s(draw_screen);
    s.settles = true;
    reach(s);
    s.h.frames(1);
    s.u.nav.open_side(side_page::choose, caution_page{"ask-diabetes"});
    REQUIRE(s.shown() == "choose-cautions");
    REQUIRE(s.press("one-true"));
    CHECK(s.shown() == "held");
    // A weightier one that is told while the start is being moved shows its own page.
    s.u.nav.open_side(side_page::choose, caution_page{"ask-galactosaemia"});
    REQUIRE(s.press("one-true"));
    CHECK(s.shown() == "held");
    CHECK(s.h.find("name")->name == "Galactosaemia");
  }
}

TEST_CASE("a yes among the morning's brings it, from the gate and from the gate opened early") {
  for (const std::string at : {"2027-04-06 07:40", "2027-04-05 22:00"}) {
    INFO(at);
    stage s(draw_screen);
    s.settles = true;
    s.u.drafts.answers = answerer::person;
    living_at(s, at);
    s.h.frames(1);
    if (s.m.now.what == step::prepare) s.u.nav.open_side(side_page::gate);
    REQUIRE(s.press("begin-checks"));
    REQUIRE(s.press("sugar-matches"));
    REQUIRE(s.shown() == "gate-morning");
    REQUIRE(s.press("morning-fever"));
    REQUIRE(s.press("some-true"));
    CHECK(s.shown() == "held");
    CHECK(s.h.find("name")->name == "Fever or infection");
    for (const caution& c : s.m.s.test->morning) {
      const auto* told = find_noted_caution(s.m.s, c.why.rule);
      REQUIRE(told != nullptr);
      const bool fever = c.why.rule == "morning-fever";
      CHECK(told->what.answer == (fever ? caution_answer::yes : caution_answer::no));
      CHECK(told->what.by == answerer::person);
    }
  }
}

TEST_CASE("two that hold come one after the other, and neither is passed over") {
  stage s(draw_screen);
  s.settles = true;
  held_by(s, "ask-diabetes");
  s.m.tell(answered("morning-fever", caution_answer::yes));
  for (const std::string name : {"Diabetes", "Fever or infection"}) {
    REQUIRE(s.shown() == "held");
    CHECK(s.h.find("name")->name == name);
    REQUIRE(s.press("may-go-on"));
    REQUIRE(s.press("releaser-doctor"));
    s.write("gate-who", "Dr Ivo Brandreth");
    REQUIRE(s.press("go-on"));
  }
  CHECK(s.m.now.what == step::gate);
}

TEST_CASE("not today leads to another day or calling off, and says when to call for help") {
  stage s(draw_screen);
  held_by(s, "morning-fever");
  REQUIRE(s.press("not-today"));
  CHECK(s.shown() == "gate-not-today");
  CHECK(s.seek("emergency")->name.find(s.m.lab.emergency) != std::string::npos);
  SECTION("call off") {
    REQUIRE(s.press("open-call-off"));
    CHECK(s.u.nav.open == side_page::call_off);
  }
  SECTION("another day") {
    REQUIRE(s.press("open-choose"));
    CHECK(s.u.nav.open == side_page::choose);
  }
  SECTION("back") {
    REQUIRE(s.press("back"));
    CHECK(s.shown() == "held");
  }
  CHECK_FALSE(s.wished);
}

TEST_CASE("that it was drunk already can be told wherever something holds, and help comes first") {
  for (const bool gate_passed : {false, true}) {
    stage s(draw_screen);
    s.settles = true;
    nothing_stands(s);
    if (gate_passed) s.m.pass_the_gate();
    s.m.tell(answered("ask-diabetes", caution_answer::yes));
    REQUIRE(s.shown() == "held");
    CHECK(offers_of(s).count("drank-first") == 1);
    REQUIRE(s.press("drank-first"));
    REQUIRE(s.press("tell-read"));
    CHECK(s.m.s.drink_start.has_value());
    REQUIRE_FALSE(s.m.s.drunk_against.empty());
    CHECK(s.m.s.drunk_against.front().rule == "ask-diabetes");
    CHECK(s.shown() == "unwell"); // help first
  }
}

TEST_CASE(
    "it can be told at the gate as well, among the slips and where the gate is asked once more") {
  stage s(draw_screen);
  living_at(s, before_the_sugar);
  CHECK(s.shown() == "gate");
  REQUIRE(s.press("open-slip"));
  CHECK(offers_of(s).count("slip-drank-first") == 1);
  s.u.nav.close_side();
  s.m.pass_the_gate();
  slip_before(s, "2027-04-06 07:00");
  CHECK(s.shown() == "gate");
  CHECK(s.h.faults() == std::vector<std::string>{});
  REQUIRE(s.press("drank-first"));
  CHECK(s.u.nav.open == side_page::drink_told);
}

TEST_CASE("age and kit can be put right, and the rest is the laboratory's") {
  stage s(draw_screen);
  s.settles = true;
  nothing_stands(s);
  s.m.tell(reported_person{"Ottilie", *parse_date("2015-05-01"), "", "QB7", s.m.lab.name});
  REQUIRE(s.shown() == "held-kit");
  CHECK(s.seek("laboratory")->value == s.m.lab.telephone);
  REQUIRE(s.press("change-who"));
  CHECK(s.u.nav.open == side_page::who);
  s.m.introduce();
  s.u.nav.close_side();
  CHECK(s.shown() == "gate");
}
