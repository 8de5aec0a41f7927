// What is told later and put right, pressed on the real screens: each press asks for its fact, and
// every page fits every promised window.
#include "tests/unit/screens/mending_stages.hpp"

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

struct page_case {
  std::string screen;
  std::string must_show;
  std::function<void(stage&)> set;
};

std::vector<page_case> pages() {
  return {
      {"scorer", "scored-self",
       [](stage& s) {
         to_sugar(s);
         s.m.tell(sugar_set_aside{});
       }},
      {"drank-first", "tell-read",
       [](stage& s) {
         to_tube_1(s);
         press_all(s, {"next", "drank-first"});
       }},
      {"no-baseline", "go-on",
       [](stage& s) {
         to_tube_1(s);
         press_all(s, {"next", "drank-first", "tell-read"});
         s.settle();
       }},
      {"drink-told", "tell-read",
       [](stage& s) {
         to_drink(s);
         press_all(s, {"drank-already"});
       }},
      {"drink-what", "drink-what-spilled",
       [](stage& s) {
         to_rest(s);
         s.u.nav.open = side_page::drink_trouble;
       }},
      {"drink-kept", "drink-kept-all",
       [](stage& s) {
         to_rest(s);
         s.u.nav.open = side_page::drink_trouble;
         press_all(s, {"drink-what-vomited"});
       }},
      {"drink-when", "tell-read",
       [](stage& s) {
         to_rest(s);
         s.u.nav.open = side_page::drink_trouble;
         press_all(s, {"drink-what-vomited", "drink-kept-none"});
       }},
  };
}

std::vector<page_case> pages_of_a_loss() {
  return {
      {"salvaged", "go-on",
       [](stage& s) {
         to_rest(s);
         s.m.salvaged = salvage_note{12, false, "0123456789abcdef.damaged-1"};
         s.u.nav.open_side(side_page::salvaged);
       }},
      {"salvaged", "drank-first",
       [](stage& s) {
         to_drink(s);
         s.m.tell(record_salvaged{1, false, {}});
         s.m.salvaged = salvage_note{1, false, "0123456789abcdef.damaged-1"};
         s.u.nav.open_side(side_page::salvaged);
       }},
      {"on-paper", "try-again",
       [](stage& s) {
         to_rest(s);
         s.m.on_paper = paper_why::newer;
       }},
      {"on-paper", "closed",
       [](stage& s) {
         to_sugar(s);
         s.m.on_paper = paper_why::unreadable;
       }},
      {"on-paper", "begin-anew",
       [](stage& s) {
         s.m.s = state{};
         s.m.on_paper = paper_why::unreadable;
       }},
      {"gate-told-again", "nothing-more",
       [](stage& s) {
         to_drink(s);
         s.m.tell(record_salvaged{1, false, {}});
         s.m.introduce();
         s.m.tell(reported_red_flags{sample_number(1), {}});
         for (payload& one : gate_answers(s.m.s, s.m.at))
           if (!std::holds_alternative<reported_ready>(one)) s.m.tell(std::move(one));
         s.h.frames(1); // the step's pages begin anew with it
         s.u.nav.page = gate_page::things;
       }},
  };
}

std::vector<page_case> other_pages() {
  return {
      {"drink-part", "go-on",
       [](stage& s) {
         to_rest(s);
         s.u.nav.open = side_page::drink_part;
       }},
      {"mishap", "mishap-room-air",
       [](stage& s) {
         to_rest(s);
         s.u.nav.open = side_page::mishap;
       }},
      {"broken", "go-on",
       [](stage& s) {
         to_after_three(s);
         choose_mishap(s, "mishap-broken");
         s.settle();
       }},
      {"slip", "slip-fast-meal",
       [](stage& s) {
         to_after_three(s);
         choose_mishap(s, "mishap-slip");
       }},
      {"red-flags", "title",
       [](stage& s) {
         to_rest(s);
         tube(s, 2, 5);
       }},
      {"unwell", "emergency",
       [](stage& s) {
         to_rest(s);
         s.m.tell(reported_unwell{});
       }},
      {"wait", "quarter",
       [](stage& s) {
         to_tube_1(s);
         s.m.tell(reported_drink{s.m.at.wall, how_known::told});
         s.m.tell(drink_ended{true});
       }},
      {"finish", "open-copy",
       [](stage& s) {
         to_after_three(s);
         let_pass(s, std::chrono::hours{3});
         press_all(s, {"next"});
       }},
      {"afterwards", "title",
       [](stage& s) {
         to_after_three(s);
         let_pass(s, std::chrono::hours{3});
       }},
  };
}

} // namespace

TEST_CASE("every page on which something is told later or put right fits every promised window") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    auto all = pages();
    for (const auto& more : {pages_of_a_loss(), other_pages()})
      all.insert(all.end(), more.begin(), more.end());
    for (const page_case& c : all) {
      stage s(draw_screen, width, height);
      c.set(s);
      s.h.frames(2);
      INFO(c.screen << " at " << width << "x" << height);
      CHECK(s.h.seen().screen == c.screen);
      CHECK(s.h.find(c.must_show) != nullptr);
      CHECK(wrong_with(s.h) == std::vector<std::string>{});
    }
  }
}

TEST_CASE("the pages that put a time, a tube or a score right fit every promised window") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  const std::vector<std::pair<std::string, std::vector<std::string>>> ways{
      {"mishap-time", {"right-on", "right-time-less", "right-on"}},
      {"mishap-tube", {"right-on", "right-other-2"}},
      {"mishap-drink-time", {"right-emptied", "right-time-less", "right-on"}},
      {"mishap-score", {"right-on", "right-bloating", "score-4"}}};
  for (const auto& [width, height] : sizes) {
    for (const auto& [menu, keys] : ways) {
      stage s(draw_screen, width, height);
      to_after_three(s);
      choose_mishap(s, menu);
      for (const std::string& key : keys) {
        s.h.frames(2);
        INFO(menu << ", before " << key << ", at " << width << "x" << height);
        CHECK(wrong_with(s.h) == std::vector<std::string>{});
        REQUIRE(s.press(key));
      }
      CHECK(s.shown() == "right-why");
      CHECK(wrong_with(s.h) == std::vector<std::string>{});
    }
  }
}

TEST_CASE("'I drank the sugar' before tube 1 is told with its time, then says whom to call") {
  stage s(draw_screen);
  to_tube_1(s);
  press_all(s, {"next", "drank-first", "tell-minutes-less", "tell-minutes-less"});
  REQUIRE(s.press("tell-guess"));
  const auto* told = s.asked<reported_drink>();
  REQUIRE(told != nullptr);
  CHECK(told->how == how_known::estimated);
  CHECK(s.m.at.wall - told->started == std::chrono::minutes{2});
  s.settle();
  CHECK(s.shown() == "no-baseline");
  CHECK(s.h.find("call")->name.find(s.m.lab.telephone) != std::string::npos);
  REQUIRE(s.press("go-on"));
  CHECK(s.shown() == "drinking");
}

TEST_CASE("a drink that could not be finished is told with how much was kept") {
  stage s(draw_screen);
  to_drink(s);
  s.m.tell(drink_started{});
  REQUIRE(s.press("drink-part"));
  REQUIRE(s.asked<drink_ended>() != nullptr);
  CHECK_FALSE(s.asked<drink_ended>()->all_of_it);
  s.settle();
  CHECK(s.shown() == "drink-kept");
  REQUIRE(s.press("drink-kept-less-than-half"));
  const auto* told = s.asked<reported_drink_trouble>();
  REQUIRE(told != nullptr);
  CHECK(told->what == drink_mishap::unfinished);
  CHECK(told->kept == drink_part::less_than_half);
  s.settle();
  CHECK(s.shown() == "drink-part");
}

TEST_CASE("being sick after the drink is told with when, and never called a result") {
  stage s(draw_screen);
  to_rest(s);
  let_pass(s, std::chrono::minutes{6});
  choose_mishap(s, "mishap-trouble");
  press_all(s, {"drink-what-vomited", "drink-kept-more-than-half", "tell-minutes-less"});
  REQUIRE(s.press("tell-read"));
  const auto* told = s.asked<reported_drink_trouble>();
  REQUIRE(told != nullptr);
  CHECK(told->what == drink_mishap::vomited);
  CHECK(told->kept == drink_part::more_than_half);
  CHECK(s.m.at.wall - told->when == std::chrono::minutes{1});
}

TEST_CASE("a time, a tube and a score are put right with a reason that is chosen") {
  stage s(draw_screen);
  to_after_three(s);
  const instant was = s.m.s.of(sample_number(3)).taken->closed;
  choose_mishap(s, "mishap-time");
  press_all(s, {"right-on", "right-time-less", "right-time-less", "right-on"});
  REQUIRE(s.press("right-why-clock"));
  const auto* fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(std::get<right_time>(fact->to).time == was - std::chrono::minutes{2});
  CHECK(fact->reason == "I read it off another clock");
  CHECK(fact->seq == s.m.s.of(sample_number(3)).taken->seq);

  choose_mishap(s, "mishap-tube");
  press_all(s, {"right-tube-less", "right-on", "right-other-3"});
  REQUIRE(s.press("right-why-mixed"));
  fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(fact->seq == s.m.s.of(sample_number(2)).taken->seq);
  CHECK(std::get<right_tube>(fact->to).really == sample_number(3));

  choose_mishap(s, "mishap-score");
  press_all(s, {"right-on", "right-pain", "score-skip"});
  REQUIRE(s.press("right-why-later"));
  fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(std::get<right_score>(fact->to).symptom == "pain");
  CHECK_FALSE(std::get<right_score>(fact->to).score.has_value());
}

TEST_CASE("what spoiled a breath is told with one press, and blown again while there is time") {
  stage s(draw_screen);
  to_after_three(s);
  s.m.tell(label_written{sample_number(3)});
  choose_mishap(s, "mishap-room-air");
  REQUIRE(s.asked<reported_spoil>() != nullptr);
  CHECK(s.asked<reported_spoil>()->what == "room-air");
  CHECK(s.asked<reported_spoil>()->sample == sample_number(3));
  CHECK_FALSE(s.u.nav.is_side()); // straight to the breath
}

TEST_CASE("the likely ones stand on the first leaf, each with what it leads to") {
  for (const auto& [width, height] : {std::pair<float, float>{360, 640}, {480, 800}}) {
    stage s(draw_screen, width, height);
    to_after_three(s);
    s.u.nav.open_side(side_page::mishap);
    CHECK(s.shown() == "mishap");
    for (const char* key : {"mishap-room-air", "mishap-straw-early", "mishap-lid-late"}) {
      INFO(key << " at " << width);
      CHECK(s.h.find(key) != nullptr);
    }
  }
}

TEST_CASE("of an earlier tube it is told for the laboratory, and taken back the same way") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-earlier");
  CHECK(s.shown() == "mishap-earlier");
  REQUIRE(s.press("spoil-tube-less"));
  for (int panel = 0; panel < 6 && !s.press("spoil-lid-late"); ++panel)
    REQUIRE(s.press("page-more"));
  REQUIRE(s.asked<reported_spoil>() != nullptr);
  CHECK(s.asked<reported_spoil>()->sample == sample_number(2));
  s.settle();
  CHECK(s.shown() == "mishap-told");
  REQUIRE(s.press("go-on"));
  choose_mishap(s, "mishap-earlier");
  REQUIRE(s.press("spoil-tube-less"));
  for (int panel = 0; panel < 6 && !s.press("spoil-taken-back"); ++panel)
    REQUIRE(s.press("page-more"));
  REQUIRE(s.asked<reported_spoil>() != nullptr);
  CHECK(s.asked<reported_spoil>()->what.empty());
}

TEST_CASE("beside the number stand its hours, and outside them what to do") {
  stage s(draw_screen);
  to_after_three(s); // half past seven and later: the laboratory opens at 8:30
  choose_mishap(s, "mishap-broken");
  s.settle();
  CHECK(s.shown() == "broken");
  CHECK(s.seek("what")->name.find(s.m.lab.telephone_hours) != std::string::npos);
  REQUIRE(s.seek("laboratory-outside") != nullptr);
  CHECK(s.seek("laboratory-outside")->name.find(s.m.lab.outside_hours) != std::string::npos);
  CHECK(s.seek("laboratory-outside")->name.find("Tuesday 08:30") != std::string::npos);
  let_pass(s, std::chrono::hours{2}); // somebody answers now
  CHECK(s.seek("laboratory-outside") == nullptr);
}

TEST_CASE("what was wrong can be put right when the test is behind") {
  stage s(draw_screen);
  to_after_three(s);
  let_pass(s, std::chrono::hours{3});
  REQUIRE(s.shown() == "afterwards");
  REQUIRE(s.press("next"));
  REQUIRE(s.shown() == "finish");
  for (int panel = 0; panel < 4 && !s.press("mishap"); ++panel)
    REQUIRE(s.press("page-more"));
  CHECK(s.shown() == "mishap");
  REQUIRE(s.seek("mishap-lid") != nullptr); // told, and nothing is blown any more
  CHECK(s.seek("mishap-lid")->value.find("Blow again") == std::string::npos);
  CHECK(s.seek("mishap-time") != nullptr);
}

TEST_CASE("who scores is asked before the first score, and can be changed") {
  stage s(draw_screen);
  to_sugar(s);
  s.m.tell(sugar_set_aside{});
  REQUIRE(s.press("scored-for"));
  REQUIRE(s.asked<reported_scorer>() != nullptr);
  CHECK_FALSE(s.asked<reported_scorer>()->self);
  s.settle();
  CHECK(s.shown() == "symptoms-bloating");
  to_rest(s);
  choose_mishap(s, "mishap-scorer");
  REQUIRE(s.press("scored-self"));
  CHECK(s.asked<reported_scorer>()->self);
}

TEST_CASE("warning signs: none goes on, one of them leads to what to do now") {
  stage s(draw_screen);
  to_rest(s);
  tube(s, 2, 5);
  REQUIRE(s.press("red-flags-none"));
  REQUIRE(s.asked<reported_red_flags>() != nullptr);
  CHECK(s.asked<reported_red_flags>()->present.empty());
  while (s.h.find("page-back") != nullptr)
    REQUIRE(s.h.press("page-back"));
  REQUIRE(s.press("drowsy"));
  while (s.h.find("page-back") != nullptr)
    REQUIRE(s.h.press("page-back"));
  CHECK(s.h.find("red-flags-none") == nullptr);
  CHECK(s.h.find("red-flags-some") != nullptr); // on the first leaf as on every other
  REQUIRE(s.press("red-flags-some"));
  s.settle();
  CHECK(s.m.s.of(sample_number(2)).red_flags->present == std::vector<std::string>{"drowsy"});
  CHECK(s.shown() == "unwell");
}

TEST_CASE("two tubes close together are asked about before the breath and when told") {
  stage s(draw_screen);
  to_rest(s);
  let_pass(s, *s.m.now.to_due + std::chrono::minutes{7});
  blow(s, 2);
  score(s, 2, 0);
  lab_profile rules = *s.m.s.profile;
  rules.bounds.apart = std::chrono::minutes{9};
  s.m.s.profile = std::move(rules);
  let_pass(s, *s.m.now.to_due);
  REQUIRE(s.press("begin-breath"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "breathe-close");
  REQUIRE(s.press("close-wait"));
  CHECK(s.shown() == "breathe");
  press_all(s, {"begin-breath", "close-begin"});
  CHECK(s.asked<breath_begun>() != nullptr);
  s.wished.reset();
  press_all(s, {"already-blown", "tell-read"});
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "tell-close");
  REQUIRE(s.press("close-change"));
  CHECK(s.shown() == "tell");
  press_all(s, {"tell-guess", "close-yes"});
  REQUIRE(s.asked<reported_breath>() != nullptr);
  CHECK(s.asked<reported_breath>()->how == how_known::estimated);
}
