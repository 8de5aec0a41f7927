// Trying the program: from the first page to the glass in one press, with nothing of the person's
// own, and three tubes to the end.
#include "app/patient/shell/trial.hpp"
#include "core/findings/findings.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("trying begins at the glass in one press and keeps nothing of a real test") {
  shell_stage s;
  REQUIRE_FALSE(s.start());
  REQUIRE(s.screen() == "agree");
  REQUIRE(s.press("try-first"));
  s.h.frames(3);
  CHECK(s.screen() == "sugar");
  CHECK(s.h.find("practice") != nullptr);
  // A kill leaves it where it was, as practice.
  s.kill();
  REQUIRE_FALSE(s.start(true));
  CHECK((s.screen() == "sugar" || s.screen() == "returned" || s.screen() == "return"));
  // Started for real again, nothing of it is there.
  s.kill();
  REQUIRE_FALSE(s.start());
  CHECK(s.screen() == "agree");
}

TEST_CASE("the facts of the trial are taken by the engine, and three tubes lead to the end") {
  patient p;
  REQUIRE(p.tell(opened{"trial", "quarterbreath test", true, fenwick_text()}));
  const offered_test whole{"lactulose-10g", lactulose_text(), lactulose()};
  for (const payload& told : trial_facts(whole, p.clock.look(), zone_named("Europe/London")))
    REQUIRE(p.tell(told));
  CHECK(is_trial(p.current()));
  CHECK(p.now().what == step::sugar);
  REQUIRE(p.tell(sugar_set_aside{}));
  p.score(1);
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  REQUIRE(p.tell(drink_ended{}));
  p.sample(2);
  p.sample(3);
  CHECK(p.now().what == step::finish);
  // Nobody was shown anything that was not kept, and nobody agreed to it.
  for (const finding& f : findings_of(p.current(), p.clock.look(), zone_named("Europe/London"))) {
    INFO(f.rule << ": " << f.words);
    CHECK(f.rule != "started-not-kept");
    CHECK(find_window(lactulose(), f.rule) == nullptr);
  }
}
