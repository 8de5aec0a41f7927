// The kit's code on the screen, the stops it may lead to, and the tubes that stay empty.
#include "core/protocol/kit_code.hpp"
#include "core/session/limits.hpp"
#include "core/sheet/sheet.hpp"
#include "tests/unit/screens/kit_stages.hpp"

#include <algorithm>
#include <imgui.h>

using namespace qb;
using test::at_kit;
using test::code_of;
using test::lactose;
using test::plan_lactose;
using test::planned;
using test::stage;
using test::tell_kit;
using test::tell_tubes;

namespace {

std::string complaint(stage& s) {
  s.h.frames(1);
  const element* hint = s.h.find("who.code-hint");
  return hint == nullptr || hint->role != "note" ? "" : hint->name;
}

bool says(stage& s, const std::string& key, const std::string& words) {
  const element* e = s.h.find(key);
  return e != nullptr && (e->name + e->value).find(words) != std::string::npos;
}

} // namespace

TEST_CASE("a kit code says which kit, for which test, and until when; pressing on tells it") {
  stage s(draw_who);
  at_kit(s);
  REQUIRE(s.shown() == "who-kit-code");
  CHECK_FALSE(s.press("this-kit"));
  s.write("who.code", "fv2c 7hm2");
  CHECK(complaint(s) == "A kit code has 12 characters. You typed only 8.");
  CHECK_FALSE(s.press("this-kit"));
  s.u.drafts.who.code = "";
  s.h.frames(1);
  s.write("who.code", code_of("M2"));
  s.h.frames(1);
  CHECK(s.h.value("who.code") == code_of("M2"));
  CHECK(says(s, "kit-1", "FV-2C7H"));
  CHECK(says(s, "kit-2", "Lactose breath test, 25 g"));
  CHECK(says(s, "kit-3", "31 December 2027"));
  REQUIRE(s.press("this-kit"));
  const reported_kit* told = s.asked<reported_kit>();
  REQUIRE(told != nullptr);
  CHECK(told->code == code_of("M2"));
  CHECK(told->kit_number == "FV-2C7H");
  CHECK(told->protocol_id == "lactose-25g");
  CHECK(date_text(told->expires) == "2027-12-31");
}

TEST_CASE("a kit told by its code gives the kit number and the laboratory of the labels") {
  stage s(draw_who);
  at_kit(s);
  s.u.drafts.who.code = code_of("M2");
  REQUIRE(s.press("this-kit"));
  s.settle();
  CHECK(s.shown() == "who-check"); // the laboratory is not asked for: the code says it
  REQUIRE(s.press("right"));
  const reported_person* told = s.asked<reported_person>();
  REQUIRE(told != nullptr);
  CHECK(told->kit_number == "FV-2C7H");
  CHECK(told->laboratory == s.m.lab.name);
}

TEST_CASE("a kit whose fact was refused is asked for again") {
  stage s(draw_who);
  at_kit(s);
  s.u.drafts.who.code = code_of("M2");
  REQUIRE(s.press("this-kit"));
  CHECK(s.shown() == "who-kit-code"); // nothing was settled
}

TEST_CASE("a wrong kit code says at once what is wrong with it") {
  stage s(draw_who);
  at_kit(s);
  const auto said = [&](const std::string& typed) {
    s.u.drafts.who.code = typed;
    const std::string out = complaint(s);
    CHECK_FALSE(s.press("this-kit"));
    CHECK(s.h.find("this-kit")->name == s.m.t("who.code.wrong"));
    return out;
  };
  CHECK(said("FV2C-7HM2-3NO") == "There is no letter O in a kit code. Look again.");
  CHECK(said("FV2C-7HM2-3N0") == "There is no figure 0 in a kit code. Look again.");
  CHECK(said("FV2C-7HM2-3N*") == "There is no * in a kit code. Look again.");
  CHECK(said(code_of("M2") + "22") == "A kit code has 12 characters. Here are 14.");
  std::string swapped = code_of("M2");
  std::swap(swapped[0], swapped[1]);
  CHECK(said(swapped).find("One character is not right, or two are swapped") == 0);
  CHECK(said(code_of("M2", "2027-12-31", "ZZ")).find("another laboratory") != std::string::npos);
  CHECK(said(code_of("ZZ")).find("do not know the test") != std::string::npos);
  CHECK(said(code_of("ZZ")).find(s.m.lab.telephone) != std::string::npos);
}

TEST_CASE("letters that two tests share pick neither") {
  stage s(draw_who);
  at_kit(s);
  s.m.tests[0].test.kit_letters = s.m.tests[lactose].test.kit_letters;
  s.u.drafts.who.code = code_of("M2");
  CHECK(complaint(s).find("do not know the test") != std::string::npos);
}

TEST_CASE("a hand scanner types the code without the line being pressed, and again over another") {
  stage s(draw_who);
  at_kit(s);
  REQUIRE(s.shown() == "who-kit-code");
  s.u.drafts.who.code = "FV2C";
  s.h.type("fv2c"); // a part comes, then the rest, then Enter
  s.h.type("-7hm2-" + code_of("M2").substr(10));
  s.h.hit(ImGuiKey_Enter);
  s.h.frames(1);
  CHECK(s.u.drafts.who.code == code_of("M2"));
  CHECK(s.press("this-kit"));
}

TEST_CASE("an expired kit is stopped: do not use it, call the laboratory") {
  stage s(draw_who);
  at_kit(s);
  s.u.drafts.who.code = code_of("M2", "2027-03-31"); // yesterday
  CHECK(s.shown() == "who-kit-expired");
  CHECK(says(s, "title", "Do not use this kit"));
  CHECK(says(s, "until", "31 March 2027"));
  CHECK(says(s, "laboratory", s.m.lab.telephone));
  CHECK_FALSE(s.press("this-kit"));
  CHECK_FALSE(s.press("no-code"));
  REQUIRE(s.press("other-kit"));
  CHECK(s.shown() == "who-kit-code");
  CHECK(s.u.drafts.who.code == "");
  s.u.drafts.who.code = code_of("M2", "2027-04-01"); // today is the last day
  CHECK(s.shown() == "who-kit-code");
  CHECK(s.press("this-kit"));
}

TEST_CASE("a kit without a code is named by its number, and the way back to the code stays") {
  stage s(draw_who);
  at_kit(s);
  REQUIRE(s.press("no-code"));
  CHECK(s.shown() == "who-kit");
  REQUIRE(s.press("has-code"));
  CHECK(s.shown() == "who-kit-code");
  REQUIRE(s.press("no-code"));
  s.write("who.kit", "qb7");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-laboratory");
}

TEST_CASE("a kit number that no code can carry is told where it is typed") {
  stage s(draw_who);
  at_kit(s);
  REQUIRE(s.press("no-code"));
  s.u.drafts.who.kit.text = std::string(most_kit_number + 1, '7');
  CHECK(s.shown() == "who-kit");
  CHECK(s.h.find("next")->state == "waiting");
  REQUIRE(s.h.find("who.kit-hint") != nullptr);
  CHECK(s.h.find("who.kit-hint")->name.find("too long") != std::string::npos);
  s.u.drafts.who.kit.text = std::string(most_kit_number, '7');
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-laboratory");
}

TEST_CASE("a correction after a code begins with the code, and no longer goes without one") {
  stage s(draw_who);
  s.m.open();
  tell_kit(s, lactose);
  s.m.introduce();
  s.u.nav.open = side_page::who;
  REQUIRE(s.shown() == "who-check");
  REQUIRE(s.press("change"));
  REQUIRE(s.press("change-kit"));
  CHECK(s.shown() == "who-kit-code");
  CHECK(s.h.value("who.code") == code_of("M2"));
  CHECK_FALSE(s.press("no-code"));
}

TEST_CASE("a kit for another test than the plan's calls the plan off, and says so first") {
  stage s(draw_who);
  planned(s.m); // lactulose
  tell_kit(s, lactose);
  s.u.nav.open = side_page::who;
  CHECK(s.shown() == "who-kit-differs");
  CHECK(says(s, "tests-1", "Lactose"));
  CHECK(says(s, "tests-2", "Lactulose"));
  CHECK_FALSE(s.wished);
  REQUIRE(s.press("plan-anew"));
  REQUIRE(s.asked<plan_called_off>() != nullptr);
  s.settle();
  CHECK(s.shown() == "who-check");
}

TEST_CASE("who is of the age of no test is sent to the laboratory kindly") {
  stage s(draw_who);
  s.m.open();
  s.u.drafts.who.name.text = "Maren";
  s.u.drafts.who.name.seen = true;
  s.u.drafts.who.birth.text = "02 04 2009"; // eighteen tomorrow
  CHECK(s.shown() == "who-age");
  CHECK(says(s, "title", "The laboratory will plan this with you"));
  CHECK(says(s, "ages", "aged 18 or over"));
  CHECK(says(s, "laboratory", s.m.lab.telephone));
  REQUIRE(s.press("wrong-date"));
  CHECK(s.shown() == "who-birth");
  CHECK(s.u.drafts.who.birth.text == "");
  s.u.drafts.who.birth.text = "01 04 2009";
  CHECK(s.press("next"));
}

TEST_CASE("an upper limit of age stops as well, and the kit's test decides where there is a kit") {
  stage s(draw_who);
  at_kit(s); // seventy
  SECTION("all tests have an upper limit") {
    for (offered_test& t : s.m.tests)
      t.test.age_to_years = 69;
    CHECK(s.shown() == "who-age");
    CHECK(says(s, "ages", "aged 18 to 69"));
  }
  SECTION("one test would do") {
    for (offered_test& t : s.m.tests)
      t.test.age_to_years = 69;
    s.m.tests[0].test.age_to_years = 70;
    CHECK(s.shown() == "who-kit-code");
  }
  SECTION("the kit's would not") {
    s.m.tests[lactose].test.age_to_years = 69;
    CHECK(s.shown() == "who-kit-code");
    tell_kit(s, lactose);
    CHECK(s.shown() == "who-age");
  }
}

TEST_CASE("a test of seven tubes says which three of the kit's ten stay empty") {
  SECTION("on the labels' page") {
    stage s(draw_labels_ahead);
    plan_lactose(s);
    CHECK(s.shown() == "labels");
    CHECK(says(s, "title", "7 labels"));
    CHECK(says(s, "spare", "Labels 8, 9 and 10 stay empty"));
  }
  SECTION("on packing") {
    stage s(draw_pack);
    plan_lactose(s);
    CHECK(s.shown() == "pack");
    CHECK(says(s, "spare", "Tubes 8, 9 and 10 stay empty. Send them back too."));
  }
  SECTION("on the last label alone") {
    stage s(draw_label_again);
    plan_lactose(s);
    tell_tubes(s, {1, 6, 7});
    for (const int n : {6, 7}) {
      s.u.drafts.later.tube = sample_number(n);
      CHECK(s.shown() == "label");
      CHECK(says(s, "spare", "Tubes 8, 9 and 10 stay empty") == (n == 7));
    }
  }
  SECTION("at the end, where the rack shows them as not used and never as missed") {
    stage s(draw_finish);
    plan_lactose(s);
    tell_tubes(s, {1});
    s.m.tell(test_ended{"stopped"});
    CHECK(s.shown() == "finish");
    CHECK(s.h.state("tube-1") == "filled");
    CHECK(s.h.state("tube-7") == "missed");
    for (const char* spare : {"tube-8", "tube-9", "tube-10"})
      CHECK(s.h.state(spare) == "unused");
    CHECK(says(s, "spare", "Tubes 8, 9 and 10"));
  }
  SECTION("on the sheet") {
    stage s(draw_finish);
    plan_lactose(s);
    const sheet_text sheet = sheet_of(s.m.s, s.m.at, s.m.z);
    CHECK(std::any_of(sheet.first.begin(), sheet.first.end(),
                      [](const sheet_fact& f) { return f.value == "Tubes 8 to 10 stay empty."; }));
    CHECK(sheet.rows.size() == 7);
  }
}

TEST_CASE("a test of all ten tubes says nothing of empty ones") {
  for (const test::screen draw : {draw_labels_ahead, draw_pack}) {
    stage s(draw);
    planned(s.m);
    s.h.frames(1);
    CHECK(s.h.find("spare") == nullptr);
  }
  stage s(draw_finish);
  planned(s.m);
  for (const sheet_fact& f : sheet_of(s.m.s, s.m.at, s.m.z).first)
    CHECK(f.name != "Rest of the kit");
}
