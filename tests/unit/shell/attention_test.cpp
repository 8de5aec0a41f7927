// How the person is called: what the record says of it, when the page stands in swapped colours,
// and the choice of silence at the gate.
#include "app/patient/shell/attention.hpp"
#include "tests/unit/screens/diet_pages.hpp"
#include "tests/unit/ui/contrast.hpp"

using namespace qb;
using test::contrast;
using test::gate_at;
using test::stage;

namespace {

now_answer due_by(duration late) {
  now_answer now;
  now.what = step::breathe;
  now.sample = sample_number(2);
  now.to_due = -late;
  return now;
}

std::string attention_keys(const stage& s) {
  std::string out;
  for (const element& e : s.h.seen().elements)
    out += e.key + " ";
  return out;
}

} // namespace

TEST_CASE("the record says how the person is called, in the words of what was chosen") {
  using items = std::vector<std::string>;
  CHECK(reported_attention({true, false, true}).items == items{"sound heard", "awake held"});
  CHECK(reported_attention({true, true, true}).items == items{"silent chosen", "awake held"});
  CHECK(reported_attention({false, false, false}).items == items{"no sound card", "awake refused"});
  CHECK(reported_attention({false, true, false}).items == items{"no sound card", "awake refused"});
}

TEST_CASE("attention is told once the gate is passed, and again only when it changes") {
  test::made_view m;
  test::planned(m);
  m.go_to("2027-04-06 07:35");
  const attention with_sound{true, false, true};
  CHECK_FALSE(attention_to_report(m.s, m.now, with_sound));
  m.pass_the_gate();
  const auto told = attention_to_report(m.s, m.now, with_sound);
  REQUIRE(told);
  CHECK(told->name == attention_list);
  m.tell(*told);
  CHECK_FALSE(attention_to_report(m.s, m.now, with_sound));
  const attention card_gone{false, false, true};
  REQUIRE(attention_to_report(m.s, m.now, card_gone));
  m.tell(*attention_to_report(m.s, m.now, card_gone));
  CHECK_FALSE(attention_to_report(m.s, m.now, card_gone));
  m.tell(test_ended{"stopped"});
  CHECK_FALSE(attention_to_report(m.s, m.now, with_sound));
}

TEST_CASE("the whole screen calls where no sound can, as long as the tube is due") {
  const attention silent{true, true, true};
  const attention no_card{false, false, true};
  const attention heard{true, false, true};
  for (const attention& a : {silent, no_card}) {
    CHECK(screen_calls(due_by(duration{0}), a));
    CHECK(screen_calls(due_by(std::chrono::minutes{9}), a));
    CHECK_FALSE(screen_calls(due_by(-duration{1}), a));
    now_answer begun = due_by(duration{5000});
    begun.what = step::lead_in;
    CHECK_FALSE(screen_calls(begun, a));
    now_answer again = due_by(duration{5000});
    again.repeating = true;
    CHECK_FALSE(screen_calls(again, a));
  }
  CHECK_FALSE(screen_calls(due_by(duration{5000}), heard));
}

TEST_CASE("the screen's call stands still: in ten minutes it changes once") {
  const attention silent{true, true, true};
  int changes = 0;
  bool before = false;
  for (int ms = -60'000; ms <= 600'000; ms += 100) {
    const bool calls = screen_calls(due_by(duration{ms}), silent);
    changes += calls != before ? 1 : 0;
    before = calls;
  }
  CHECK(changes == 1);
}

TEST_CASE("swapped colours turn a light page dark and a dark one light, to be seen from afar") {
  for (const look usual : {look::light, look::dark, look::high_contrast}) {
    const theme calm = make_theme(usual);
    const theme calling = make_theme(swapped_look(usual));
    CHECK(contrast(calm.paper, calling.paper) >= 7.0);
    CHECK(contrast(calling.ink, calling.paper) >= 7.0);
  }
}

TEST_CASE("at the gate silence can be chosen, which ticks that the screen is watched") {
  stage s(draw_gate);
  gate_at(s, "2027-04-06 07:40", gate_page::things);
  s.u.drafts.ticked = {"sugar-matches"};
  REQUIRE(s.shown() == "gate-things");
  INFO(attention_keys(s));
  REQUIRE(s.press("silent"));
  CHECK(s.u.drafts.silent);
  CHECK(s.h.state("sound") == "on");
  CHECK(s.h.find("sound")->name == s.m.t("attention.check.silent"));
  CHECK(s.h.find("try-sound") == nullptr);
  SECTION("and taken back, with nothing said of what is heard") {
    REQUIRE(s.press("silent"));
    CHECK_FALSE(s.u.drafts.silent);
    CHECK(s.h.state("sound") != "on");
    CHECK(s.h.find("try-sound") != nullptr);
  }
  SECTION("and the gate opens") {
    for (const char* id : {"tubes-ready", "power", "home-until-end"})
      REQUIRE(s.press(id));
    REQUIRE(s.press("next"));
    CHECK(s.shown() == "gate-check");
  }
}

TEST_CASE("without a card there is no silence to choose") {
  stage s(draw_gate);
  gate_at(s, "2027-04-06 07:40", gate_page::things);
  s.m.sound = false;
  s.h.frames(1);
  CHECK(s.h.find("silent") == nullptr);
  CHECK(s.h.find("sound")->name == s.m.t("gate.check.no-sound"));
}

TEST_CASE("the gate's list fits with silence chosen") {
  for (const auto& [width, height] :
       {std::pair{360.0F, 640.0F}, {480.0F, 800.0F}, {800.0F, 480.0F}}) {
    stage s(draw_gate, width, height);
    gate_at(s, "2027-04-06 07:40", gate_page::things);
    for (const bool silent : {false, true}) {
      s.u.drafts.silent = silent;
      s.h.frames(2);
      CHECK(test::wrong_on(s.h) == std::vector<std::string>{});
    }
  }
}

TEST_CASE("a sound that stopped and a screen that may go dark are said, and fit") {
  for (const auto& [width, height] :
       {std::pair{360.0F, 640.0F}, {480.0F, 800.0F}, {800.0F, 480.0F}}) {
    stage s(draw_gate, width, height);
    gate_at(s, "2027-04-06 07:40", gate_page::things);
    s.h.draw = [&s](toolkit& k) {
      view v = s.m.get();
      v.sound_lost = true;
      v.may_go_dark = true;
      (void)s.what(k, v, s.u);
    };
    s.h.frames(2);
    REQUIRE(s.h.seen().screen == "gate-things");
    CHECK(test::wrong_on(s.h) == std::vector<std::string>{});
    while (s.h.find("page-more") != nullptr) {
      REQUIRE(s.h.press("page-more"));
      CHECK(test::wrong_on(s.h) == std::vector<std::string>{});
    }
    s.what = draw_wait;
    s.m.now = {};
    s.m.now.what = step::wait;
    s.m.now.sample = sample_number(3);
    s.m.now.to_due = std::chrono::minutes{9};
    s.h.frames(2);
    REQUIRE(s.h.find("sound-lost") != nullptr);
    CHECK(test::wrong_on(s.h) == std::vector<std::string>{});
  }
}
