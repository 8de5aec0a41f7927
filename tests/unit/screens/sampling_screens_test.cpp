// The screens of the test itself, played through the real fold, at every promised window size:
// nothing is cut, what must be pressed now stands on the first leaf, and presses ask for their
// fact.
#include "tests/support/repository.hpp"
#include "tests/unit/screens/stage.hpp"

#include <algorithm>
#include <filesystem>

using namespace qb;
using test::planned;
using test::stage;

namespace {

// Lets time pass on the made-up clocks; what is to be done now follows.
void let_pass(stage& s, duration d) {
  s.m.at.wall += d;
  s.m.at.boot = boot_time{s.m.at.wall.time_since_epoch()};
  s.m.at.boot_id = "made-up";
  s.m.now = what_now(s.m.s, s.m.at);
}

void blow(stage& s, int n) {
  s.m.tell(breath_begun{sample_number(n)});
  let_pass(s, s.m.s.profile->bounds.lead_in + s.m.s.test->breath_most);
  s.m.tell(tube_closed{sample_number(n)});
}

reported_symptoms scored(const stage& s, int n) {
  reported_symptoms told{sample_number(n), {}, ""};
  for (const symptom& asked : s.m.s.test->symptoms)
    told.scores.push_back({asked.id, 3});
  return told;
}

// To the moment before tube 1 is blown.
void to_tube_1(stage& s) {
  planned(s.m);
  s.m.go_to("2027-04-06 07:29");
  let_pass(s, duration{0});
  s.m.pass_the_gate();
  s.m.tell(sugar_set_aside{});
  s.m.tell(scored(s, 1));
}

// To the rest after tube 1 and the drink.
void to_rest(stage& s) {
  to_tube_1(s);
  blow(s, 1);
  s.m.tell(label_written{sample_number(1)});
  s.m.tell(drink_started{});
  let_pass(s, std::chrono::seconds{30});
  s.m.tell(drink_ended{true});
}

// Stands at the due time of tube 2, and so many seconds more.
void to_due(stage& s, int seconds) {
  to_rest(s);
  let_pass(s, *s.m.now.to_due + std::chrono::seconds{seconds});
}

// A protocol that asks for a held breath.
void held_first(stage& s) {
  to_tube_1(s);
  protocol held = *s.m.s.test;
  held.breath_hold = std::chrono::seconds{15};
  s.m.s.test = frozen<protocol>(std::move(held));
}

struct moment_case {
  std::string name;
  std::string screen;
  std::string must_show; // on the first leaf
  std::function<void(stage&)> set;
};

std::vector<moment_case> sampling_moments() {
  return {
      {"sugar", "sugar", "sugar-ready",
       [](stage& s) {
         planned(s.m);
         s.m.go_to("2027-04-06 07:29");
         s.m.pass_the_gate();
       }},
      {"how to blow", "breathe-how", "title", to_tube_1},
      {"tube 1", "breathe", "begin-breath",
       [](stage& s) {
         to_tube_1(s);
         REQUIRE(s.press("next"));
       }},
      {"lead-in", "lead-in", "breath",
       [](stage& s) {
         to_tube_1(s);
         s.m.tell(breath_begun{sample_number(1)});
       }},
      {"how to blow, held", "breathe-how", "title", held_first},
      {"hold", "hold-breath", "breath",
       [](stage& s) {
         held_first(s);
         s.m.tell(breath_begun{sample_number(1)});
         let_pass(s, s.m.s.profile->bounds.lead_in);
       }},
      {"blowing", "blowing", "breath",
       [](stage& s) {
         to_tube_1(s);
         s.m.tell(breath_begun{sample_number(1)});
         let_pass(s, s.m.s.profile->bounds.lead_in);
       }},
      {"close", "close-tube", "tube-closed",
       [](stage& s) {
         to_tube_1(s);
         s.m.tell(breath_begun{sample_number(1)});
         let_pass(s, s.m.s.profile->bounds.lead_in + s.m.s.test->breath_most);
       }},
      {"unsure", "unsure", "unsure-yes",
       [](stage& s) {
         to_tube_1(s);
         s.m.tell(breath_begun{sample_number(1)});
         let_pass(s, std::chrono::minutes{9});
       }},
      {"label", "label", "label-done",
       [](stage& s) {
         to_tube_1(s);
         blow(s, 1);
       }},
      {"rest", "wait", "quarter", to_rest},
      {"soon", "heads-up", "quarter", [](stage& s) { to_due(s, -60); }},
      {"due", "breathe", "begin-breath", [](stage& s) { to_due(s, 0); }},
      {"late", "breathe-late", "late", [](stage& s) { to_due(s, 200); }},
      {"missed", "wait", "tell-missed", [](stage& s) { to_due(s, 500); }},
      {"missed, and when the next is due", "wait", "quarter", [](stage& s) { to_due(s, 500); }},
  };
}

std::vector<moment_case> other_moments() {
  return {
      {"drink", "drink", "drink-start",
       [](stage& s) {
         to_tube_1(s);
         blow(s, 1);
         s.m.tell(label_written{sample_number(1)});
       }},
      {"drink too late", "drink", "tube-1-again",
       [](stage& s) {
         to_tube_1(s);
         blow(s, 1);
         s.m.tell(label_written{sample_number(1)});
         let_pass(s, s.m.s.profile->drink.after_tube_1 + std::chrono::seconds{1});
       }},
      {"unwell", "unwell", "emergency",
       [](stage& s) {
         to_rest(s);
         s.m.tell(reported_unwell{});
       }},
      {"afterwards", "afterwards", "title",
       [](stage& s) {
         to_rest(s);
         s.m.tell(test_ended{"unwell"});
       }},
      {"stopped", "finish", "open-pack",
       [](stage& s) {
         to_rest(s);
         s.m.tell(test_ended{"unwell"});
         REQUIRE(s.press("next"));
       }},
  };
}

std::vector<std::string> wrong_with(const test::harness& h) {
  std::vector<std::string> out = h.faults();
  for (const element& e : h.seen().elements) {
    if ((e.name + e.value).find_first_of("[{") != std::string::npos)
      out.push_back(e.key + " shows " + e.name + e.value);
  }
  if (test::number_without_hours(h)) out.emplace_back("a telephone number without its hours");
  return out;
}

} // namespace

TEST_CASE("at every moment of the test the one thing to do stands on the first leaf") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_screen, width, height);
    for (const auto& cases : {sampling_moments(), other_moments()}) {
      for (const moment_case& c : cases) {
        for (const bool practice : {false, true}) {
          s.m = {};
          s.u = {};
          s.m.practice = practice;
          s.m.can_practise = false;
          c.set(s);
          s.h.frames(2);
          INFO(c.name << (practice ? " in practice" : "") << " at " << width << "x" << height);
          CHECK(s.h.seen().screen == c.screen);
          CHECK(s.h.find(c.must_show) != nullptr);
          CHECK(wrong_with(s.h) == std::vector<std::string>{});
        }
      }
    }
  }
}

TEST_CASE("a drink that is overdue has a headline of its own, and nothing says to drink now") {
  stage s(draw_screen);
  to_tube_1(s);
  blow(s, 1);
  s.m.tell(label_written{sample_number(1)});
  REQUIRE(s.shown() == "drink");
  CHECK(s.h.find("title")->name == "Drink all of it now");
  CHECK(s.seek("how") != nullptr);
  let_pass(s, s.m.s.profile->drink.after_tube_1 + std::chrono::seconds{1});
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "Do not drink yet");
  CHECK(s.h.find("overdue")->name.find("Blow into tube 1 again first") != std::string::npos);
  CHECK(s.seek("how") == nullptr);
}

TEST_CASE("in practice nothing is measured or drunk: every such sentence says so") {
  const std::string real = "In the real test: ";
  const auto says_so = [&](stage& s, const char* key) {
    const element* said = s.seek(key);
    REQUIRE(said != nullptr);
    CHECK((said->name.find(real) == 0) == s.m.practice);
  };
  for (const bool practice : {true, false}) {
    INFO((practice ? "practice" : "real"));
    stage s(draw_screen);
    s.m.practice = practice;
    s.m.can_practise = false;
    planned(s.m);
    s.m.go_to("2027-04-06 07:29");
    let_pass(s, duration{0});
    s.m.pass_the_gate();
    REQUIRE(s.shown() == "sugar");
    says_so(s, "title");
    says_so(s, "how");
    s.m.tell(sugar_set_aside{});
    s.m.tell(scored(s, 1));
    blow(s, 1);
    s.m.tell(label_written{sample_number(1)});
    REQUIRE(s.shown() == "drink");
    says_so(s, "title");
    says_so(s, "how");
    s.m.tell(drink_started{});
    REQUIRE(s.shown() == "drinking");
    says_so(s, "title");
    says_so(s, "how");
  }
}

TEST_CASE("who feels unwell reads the emergency call before the permission to eat") {
  stage s(draw_screen);
  to_rest(s);
  s.m.tell(reported_unwell{});
  REQUIRE(s.shown() == "unwell");
  const auto& all = s.h.seen().elements;
  const auto place = [&](const char* key) {
    return std::find_if(all.begin(), all.end(), [&](const element& e) { return e.key == key; }) -
           all.begin();
  };
  CHECK(place("emergency") < place("eat"));
  CHECK(s.seek("eat") != nullptr);
}

TEST_CASE("one press begins the breath, one says that the tube is closed") {
  stage s(draw_screen);
  to_tube_1(s);
  REQUIRE(s.press("next")); // how it is blown was read
  REQUIRE(s.press("begin-breath"));
  REQUIRE(s.asked<breath_begun>() != nullptr);
  s.m.tell(breath_begun{sample_number(1)});
  let_pass(s, s.m.s.profile->bounds.lead_in + s.m.s.test->breath_most);
  REQUIRE(s.press("tube-closed"));
  CHECK(s.asked<tube_closed>() != nullptr);
}

TEST_CASE("a score left out is told as none, never as 0") {
  stage s(draw_screen);
  planned(s.m);
  s.m.go_to("2027-04-06 07:29");
  s.m.pass_the_gate();
  s.m.tell(sugar_set_aside{});
  s.m.tell(reported_scorer{true, ""});
  for (const char* key : {"score-skip", "score-0", "score-10"})
    REQUIRE(s.press(key));
  REQUIRE(s.press("symptoms-done"));
  const auto* told = s.asked<reported_symptoms>();
  REQUIRE(told != nullptr);
  REQUIRE(told->scores.size() == 3);
  CHECK_FALSE(told->scores[0].score.has_value());
  CHECK(told->scores[1].score == 0);
  CHECK(told->scores[2].score == 10);
}

TEST_CASE(
    "the label shows the device's own time of the closing, and nothing else is to be copied") {
  stage s(draw_screen);
  to_tube_1(s);
  blow(s, 1);
  CHECK(s.shown() == "label");
  std::string words;
  for (const element& e : s.h.seen().elements)
    words += e.name + " " + e.value + "\n";
  CHECK(words.find("07:29") != std::string::npos);
  CHECK(words.find("6 April 2027") != std::string::npos);
}

TEST_CASE("a breath that nobody saw closed can be told with its time, or taken again") {
  stage s(draw_screen);
  to_tube_1(s);
  s.m.tell(breath_begun{sample_number(1)});
  let_pass(s, std::chrono::minutes{9});
  REQUIRE(s.press("unsure-yes"));
  CHECK(s.shown() == "tell");
  REQUIRE(s.press("tell-read"));
  const auto* told = s.asked<reported_breath>();
  REQUIRE(told != nullptr);
  CHECK(told->how == how_known::told);
  CHECK(s.m.at.wall - told->closed == std::chrono::minutes{9});
}

TEST_CASE("drawing twice from one state gives the same picture and asks for nothing") {
  stage s(draw_screen);
  to_rest(s);
  s.h.frames(2);
  const auto first = s.h.picture();
  s.h.frames(1);
  CHECK(s.h.picture() == first);
  CHECK_FALSE(s.wished);
}

TEST_CASE("what to do afterwards is read once, whatever page is opened after it") {
  stage s(draw_screen);
  to_rest(s);
  s.m.tell(test_ended{"unwell"});
  REQUIRE(s.shown() == "afterwards");
  REQUIRE(s.press("next"));
  REQUIRE(s.shown() == "finish");
  REQUIRE(s.press("open-pack"));
  REQUIRE(s.press("back"));
  CHECK(s.shown() == "finish");
}
