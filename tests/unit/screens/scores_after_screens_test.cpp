// The pages of scores that belong to no tube, at every promised window size: waiting for them, each
// of their questions, and what the last page offers later the same day.
#include "app/patient/screens/mending/mending.hpp"
#include "tests/unit/screens/mending_stages.hpp"

#include <functional>

using namespace qb;
using namespace qb::test;

namespace {

constexpr std::size_t lactose = 2; // of the made view's tests: half an hour, then six hours

void to_last_tube(stage& s) {
  s.m.open();
  s.m.introduce();
  s.m.plan_for("2027-04-06 07:30", lactose);
  s.m.go_to("2027-04-06 07:29");
  let_pass(s, duration{0});
  s.m.pass_the_gate();
  s.m.tell(sugar_set_aside{});
  s.m.tell(reported_scorer{true, ""});
  score(s, 1, 0);
  blow(s, 1);
  s.m.tell(drink_started{});
  let_pass(s, std::chrono::seconds{30});
  s.m.tell(drink_ended{true});
  for (int n = 2; n <= static_cast<int>(s.m.s.test->samples()); ++n) {
    let_pass(s, *s.m.now.to_due);
    blow(s, n);
    score(s, n, 1);
  }
}

void to_the_question(stage& s) {
  to_last_tube(s);
  let_pass(s, *s.m.now.to_due);
}

void to_finish(stage& s) {
  to_last_tube(s);
  s.m.tell(reported_symptoms_after{score_time::after_last, {}, ""});
  s.u.drafts.afterwards_read = true;
}

void to_later(stage& s) {
  to_finish(s);
  let_pass(s, *s.m.now.to_due);
}

void answer_all(stage& s, const char* key) {
  for (std::size_t i = 0; i < s.m.s.test->symptoms.size(); ++i)
    REQUIRE(s.press(key));
}

struct page_case {
  const char* screen;
  const char* must_show; // on the first leaf
  std::function<void(stage&)> set;
};

std::vector<page_case> pages() {
  return {{"rest", "not-now", to_last_tube},
          {"symptoms-bloating", "score-10", to_the_question},
          {"symptoms-check", "symptoms-done",
           [](stage& s) {
             to_the_question(s);
             answer_all(s, "score-3");
           }},
          {"finish", "later", to_finish},
          {"finish", "open-later", to_later},
          {"symptoms-bloating", "not-now", [](stage& s) {
             to_later(s);
             REQUIRE(s.seek("open-later") != nullptr);
             REQUIRE(s.press("open-later"));
           }}};
}

} // namespace

TEST_CASE("each page of scores after the tubes shows what it asks on its first leaf") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    for (const page_case& c : pages()) {
      for (const bool practice : {false, true}) {
        stage s(draw_screen, width, height);
        s.m.practice = practice;
        s.m.can_practise = false;
        c.set(s);
        INFO(c.screen << (practice ? " in practice" : "") << " at " << width << "x" << height);
        CHECK(s.shown() == c.screen);
        CHECK(s.h.find(c.must_show) != nullptr);
        s.fits_on_every_leaf();
      }
    }
  }
}

TEST_CASE("the wait after the last tube is passed by one press, and nothing is told as a score") {
  stage s(draw_screen);
  to_last_tube(s);
  REQUIRE(s.press("not-now"));
  const auto* told = s.asked<reported_symptoms_after>();
  REQUIRE(told != nullptr);
  CHECK(told->when == score_time::after_last);
  CHECK(told->scores.empty());
  s.settle();
  CHECK(s.shown() == "afterwards");
}

TEST_CASE("scores after the last tube are told as given, one left out as none") {
  stage s(draw_screen);
  to_the_question(s);
  CHECK(s.shown() == "symptoms-bloating");
  CHECK(s.h.find("title")->name == "After the tubes: Bloating");
  for (const char* key : {"score-skip", "score-0", "score-7", "score-2", "score-1"})
    REQUIRE(s.press(key));
  REQUIRE(s.press("symptoms-done"));
  const auto* told = s.asked<reported_symptoms_after>();
  REQUIRE(told != nullptr);
  REQUIRE(told->scores.size() == 5);
  CHECK_FALSE(told->scores[0].score.has_value());
  CHECK(told->scores[1].score == 0);
  CHECK(told->scores[2].score == 7);
  CHECK(s.u.drafts.after[0] == sample_draft{});
}

TEST_CASE("later the same day the last page offers them, and putting them off tells nothing") {
  stage s(draw_screen);
  to_finish(s);
  CHECK(s.shown() == "finish");
  CHECK(s.seek("later")->name.find("13:29") != std::string::npos);
  CHECK(s.h.find("open-later") == nullptr);
  let_pass(s, *s.m.now.to_due);
  s.h.frames(1);
  REQUIRE(s.seek("open-later") != nullptr);
  REQUIRE(s.press("open-later"));
  REQUIRE(s.press("not-now"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "finish");
  REQUIRE(s.press("open-later"));
  answer_all(s, "score-4");
  REQUIRE(s.press("symptoms-done"));
  const auto* told = s.asked<reported_symptoms_after>();
  REQUIRE(told != nullptr);
  CHECK(told->when == score_time::later);
  s.settle();
  CHECK(s.shown() == "finish");
  CHECK(s.h.find("open-later") == nullptr);
}

TEST_CASE("a draft of the later scores is left where it is when their day ends meanwhile") {
  stage s(draw_screen);
  to_later(s);
  REQUIRE(s.press("open-later"));
  REQUIRE(s.press("score-4"));
  let_pass(s, std::chrono::hours{12});
  s.h.frames(1); // the page of a moment that is over closes itself
  CHECK(s.shown() == "finish");
  CHECK(s.h.find("open-later") == nullptr);
  CHECK_FALSE(s.wished);
}

TEST_CASE("a wrong score after the tubes is chosen beside the tubes and put right") {
  stage s(draw_screen);
  to_the_question(s);
  reported_symptoms_after told{score_time::after_last, {}, ""};
  for (const symptom& asked : s.m.s.test->symptoms)
    told.scores.push_back({asked.id, 2});
  s.m.tell(told);
  const std::int64_t seq = s.m.s.seq;
  open_put_right(s.m.get(), s.u, right_what::score);
  REQUIRE(s.shown() == "right-tube");
  REQUIRE(s.press("right-after-last"));
  REQUIRE(s.shown() == "right-symptom");
  CHECK(s.h.find("title")->name == "Which feeling after the last tube?");
  REQUIRE(s.press("right-pain"));
  REQUIRE(s.press("score-5"));
  REQUIRE(s.press("right-why-pressed"));
  const auto* wished = s.asked<corrected>();
  REQUIRE(wished != nullptr);
  CHECK(wished->seq == seq);
  CHECK(std::get<right_score>(wished->to).score == 5);
}
