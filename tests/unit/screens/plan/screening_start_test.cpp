// When can the test be? What each answer about medicines and hours records, and the start that is
// offered for it.
#include "tests/unit/screens/plan/screening.hpp"

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

// With every caution answered no: the medicines are asked.
struct at_the_medicines : stage {
  at_the_medicines() : stage(draw_choose) {
    at_the_questions(*this);
    for (const caution& c : first_test(*this).cautions)
      m.tell(reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""});
  }
  // What is told of a washout in this frame.
  answered_washout told() {
    REQUIRE(asked<reported_washout>() != nullptr);
    return asked<reported_washout>()->what;
  }
};

} // namespace

TEST_CASE("a washout is asked in the protocol's words, and each answer is in the record at once") {
  at_the_medicines s;
  SECTION("a course whose last day lies ahead") {
    CHECK(s.shown() == "choose-antibiotics");
    CHECK(s.h.find("title")->name == "Have you taken antibiotics?");
    REQUIRE(s.press("dose-some"));
    CHECK(s.shown() == "choose-dose-antibiotics");
    REQUIRE(s.press("dose-day-more"));
    REQUIRE(s.press("next"));
    CHECK(s.told().answer == washout_answer::until);
    CHECK(date_text(*s.told().on) == "2027-04-02");
    s.settle();
    CHECK(s.shown() == "choose-laxatives");
  }
  SECTION("a medicine that is over, but not later than today") {
    s.u.nav.page = medicine_page{"laxatives"};
    REQUIRE(s.press("dose-some"));
    CHECK(s.shown() == "choose-how-laxatives");
    REQUIRE(s.press("how-no-longer"));
    REQUIRE(s.press("dose-day-more"));
    REQUIRE(s.press("dose-day-less"));
    REQUIRE(s.press("next"));
    CHECK(s.told().answer == washout_answer::last_on);
    CHECK(date_text(*s.told().on) == "2027-03-31");
  }
  SECTION("a medicine until a day that is known") {
    s.u.nav.page = medicine_page{"laxatives"};
    REQUIRE(s.press("dose-some"));
    REQUIRE(s.press("how-until"));
    CHECK(s.shown() == "choose-prescriber-laxatives"); // nobody is told to stop it
    CHECK(s.h.find("ask") != nullptr);
    CHECK_FALSE(s.wished);
    REQUIRE(s.press("was-agreed"));
    REQUIRE(s.press("dose-day-less"));
    REQUIRE(s.press("next"));
    CHECK_FALSE(s.wished); // nothing is told before it is said who agreed
    CHECK(s.shown() == "choose-who-said");
    CHECK(s.seek("who-myself") == nullptr); // laxatives may be prescribed
    CHECK(s.seek("who-other") == nullptr);
    say_who(s, "pharmacist");
    CHECK(s.told().answer == washout_answer::until);
    CHECK(date_text(*s.told().on) == "2027-04-01");
    CHECK(s.asked<reported_washout>()->who == "My pharmacist");
    CHECK(s.asked<reported_washout>()->said_by == releaser::pharmacist);
    CHECK_FALSE(s.told().agreed);
  }
  SECTION("what nobody prescribed is the person's own to pause, and never to go on with") {
    s.u.nav.page = medicine_page{"probiotics"};
    REQUIRE(s.press("dose-some"));
    REQUIRE(s.press("how-until"));
    REQUIRE(s.press("was-agreed"));
    REQUIRE(s.press("next"));
    say_who(s, "myself");
    CHECK(s.told().answer == washout_answer::until);
    CHECK(s.asked<reported_washout>()->said_by == releaser::person);
    s.settle();
    s.m.tell(reported_washout{{"probiotics", washout_answer::cannot_stop, {}, false}, ""});
    s.u.nav.page = medicine_page{"probiotics", medicine_part::who};
    s.u.drafts.plan.medicines.clear();
    CHECK(s.shown() == "choose-who-said");
    CHECK(s.seek("who-myself") == nullptr);
  }
}

TEST_CASE("a medicine that goes on leads to whom to ask, never to an order to stop") {
  at_the_medicines s;
  s.u.nav.page = medicine_page{"laxatives"};
  REQUIRE(s.press("dose-some"));
  REQUIRE(s.press("how-goes-on"));
  CHECK(s.told().answer == washout_answer::cannot_stop);
  s.settle();
  CHECK(s.shown() == "choose-advice-laxatives");
  CHECK(s.h.find("rule")->name.find("keep taking them") != std::string::npos);
  REQUIRE(s.press("allowed"));
  CHECK(s.shown() == "choose-who-said");
  for (const char* may : {"laboratory", "doctor", "diabetes", "pharmacist", "midwife"})
    CHECK(s.seek(std::string("who-") + may) != nullptr);
  CHECK(s.seek("who-other") == nullptr); // only who may say so
  REQUIRE(s.press("back"));
  REQUIRE(s.press("allowed"));
  say_who(s, "pharmacist");
  const reported_washout* agreed = s.asked<reported_washout>();
  REQUIRE(agreed != nullptr);
  CHECK(agreed->what.agreed);
  CHECK(agreed->who == "My pharmacist");
  CHECK(agreed->said_by == releaser::pharmacist);
  CHECK(agreed->what.answer == washout_answer::cannot_stop);
  s.settle();
  CHECK(s.shown() == "choose-softeners-and-fibre"); // the next without an answer
}

TEST_CASE("something that happened is asked for its day, which may be unknown") {
  stage s(draw_choose);
  at_the_questions(s);
  for (const caution& c : first_test(s).cautions)
    s.m.tell(reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""});
  s.u.nav.page = medicine_page{"colonoscopy"};
  CHECK(s.shown() == "choose-colonoscopy");
  REQUIRE(s.press("dose-some"));
  CHECK(s.h.find("title")->name == "Which day was it?");
  REQUIRE(s.press("dose-unknown"));
  REQUIRE(s.asked<reported_washout>() != nullptr);
  CHECK(s.asked<reported_washout>()->what.answer == washout_answer::unknown);
  s.settle();
  CHECK(s.shown() == "choose-advice-colonoscopy");
  REQUIRE(s.press("ask-later"));
  CHECK(s.shown() == "choose-waiting");
}

TEST_CASE("changed medicines are asked again one by one, and cancel leaves the plan as it is") {
  stage s(draw_choose);
  answered_but(s, washed("laxatives", washout_answer::last_on, "2027-03-20"));
  s.m.plan_for("2027-04-06 07:30");
  s.u.nav.open = side_page::choose;
  ask_medicines_again(s.u, first_test(s));
  CHECK(s.shown() == "choose-antibiotics");
  CHECK(s.seek("said")->name == "You said: not in that time.");
  REQUIRE(s.press("as-before"));
  CHECK(s.shown() == "choose-laxatives");
  CHECK(s.seek("said")->name == "You said: the last was on Saturday 20 March.");
  const auto before = s.m.s.seq;
  REQUIRE(s.press("cancel"));
  CHECK_FALSE(s.wished);
  CHECK(s.m.s.seq == before);
  s.u.nav.open = side_page::choose;
  CHECK(s.shown() == "choose-start"); // nothing is left to be asked
}

TEST_CASE("days and hours at home bind the start that is offered, with the reason in words") {
  stage s(draw_choose);
  answered_but(s, washed("antibiotics", washout_answer::last_on, "2027-03-20"));
  s.u.drafts.plan.home.answered = false;
  s.u.drafts.plan.date.reset();
  const auto look = [&] {
    s.m.preview = preview_plan(s.u.drafts.plan, s.m.s, s.m.tests, s.m.at.wall, s.m.z);
    s.h.frames(1);
  };
  CHECK(s.shown() == "choose-hours");
  CHECK(s.h.find("title")->name.find("about 4 hours") != std::string::npos);
  SECTION("any day is fine") {
    REQUIRE(s.press("any-day"));
    look();
    CHECK(s.u.drafts.plan.date == *parse_date("2027-04-17")); // 28 days after 20 March
    CHECK(s.h.find("binding")->name.find("Antibiotics") != std::string::npos);
    CHECK(s.h.find("post")->name.find("May") != std::string::npos);
  }
  SECTION("only on Tuesdays, up from seven") {
    REQUIRE(s.press("some-days"));
    for (const char day : std::string("134567"))
      REQUIRE(s.press(std::string("day-") + day));
    REQUIRE(s.press("next"));
    CHECK(s.shown() == "choose-times");
    REQUIRE(s.press("home-from-more"));
    REQUIRE(s.press("home-from-more"));
    REQUIRE(s.press("next"));
    look();
    CHECK(s.shown() == "choose-start");
    CHECK(s.u.drafts.plan.date == *parse_date("2027-04-20")); // the first Tuesday from then on
    CHECK(s.m.preview.earliest_text.find("08:00") != std::string::npos); // awake an hour before
    s.u.drafts.plan.date = *parse_date("2027-04-18");
    look();
    const auto& broken = s.m.preview.broken;
    REQUIRE(broken.size() == 1);
    CHECK(broken.front().rule == rule_home);
    CHECK(broken.front().later_by == std::chrono::hours{40}); // from Sunday 08:00 to Tuesday
    CHECK_FALSE(s.press("next"));
  }
  SECTION("no day at all cannot be said") {
    REQUIRE(s.press("some-days"));
    for (const char day : std::string("1234567"))
      REQUIRE(s.press(std::string("day-") + day));
    CHECK_FALSE(s.press("next"));
  }
}

TEST_CASE("a start after the kit's last day is not offered, and none may be left at all") {
  stage s(draw_choose);
  answered_but(s, washed("antibiotics", washout_answer::last_on, "2027-03-20"));
  const bool in_time = GENERATE(true, false);
  s.m.tell(reported_kit{"FV-L2-4K7-9", "FV-4K7", "lactulose-10g",
                        *parse_date(in_time ? "2027-04-20" : "2027-04-10")});
  s.u.drafts.plan.date = *parse_date("2027-04-21");
  s.m.preview = preview_plan(s.u.drafts.plan, s.m.s, s.m.tests, s.m.at.wall, s.m.z);
  CHECK(s.shown() == "choose-start");
  REQUIRE(s.m.preview.broken.size() == 1);
  CHECK(s.m.preview.broken.front().rule == rule_kit_expiry);
  CHECK_FALSE(s.m.preview.possible.has_value());
  if (in_time) {
    CHECK(s.h.find("too-soon")->name.find("Saturday 17 April 07:30") != std::string::npos);
    CHECK_FALSE(s.press("next"));
    CHECK(s.press("use-earliest"));
  } else {
    CHECK(s.h.find("no-start")->name == s.m.t("choose.start.none.kit-expiry"));
    CHECK_FALSE(s.press("next"));
    CHECK_FALSE(s.press("use-earliest"));
  }
}

TEST_CASE("the plan says of medicines what was told") {
  stage s(draw_timeline);
  test::planned(s.m);
  s.m.tell(washed("antibiotics", washout_answer::never));
  s.m.tell(washed("laxatives", washout_answer::last_on, "2027-03-28"));
  auto paused =
      std::get<reported_washout>(washed("prokinetics", washout_answer::until, "2027-04-03"));
  paused.who = "My doctor";
  paused.said_by = releaser::doctor;
  s.m.tell(paused);
  s.m.tell(washed("colonoscopy", washout_answer::last_on, "2027-03-10"));
  s.m.tell(reported_washout{
      {"anti-diarrhoeals", washout_answer::cannot_stop, {}, true}, "My doctor", releaser::doctor});
  s.h.frames(1);
  const auto moments = plan_moments(s.m.get(), *s.m.s.test, s.m.s.planned->what);
  const auto row = [&](const std::string& words) {
    const auto found = std::find_if(moments.begin(), moments.end(), [&](const moment& m) {
      return m.words.find(words) != std::string::npos;
    });
    REQUIRE(found != moments.end());
    return *found;
  };
  CHECK(row("Colonoscopy, as you told us").time == "Wednesday 10 March");
  CHECK(row("Laxatives: the last dose").state == moment_state::past);
  CHECK(row("Medicines that speed up the gut: the last dose").state == moment_state::next);
  CHECK(row("My doctor").words.find("Medicines for diarrhoea: keep taking") == 0);
  CHECK(std::none_of(moments.begin(), moments.end(), [](const moment& m) {
    return m.words.find("Antibiotics") != std::string::npos;
  }));
}
