// The reminders' pages: the alarm clock's times, where the files go, and what a moved plan says.
#include "core/sheet/prepared_plan.hpp"
#include "tests/unit/screens/stage.hpp"

using namespace qb;
using test::planned;
using test::stage;

namespace {

// A stage with places to write to and the files that were written.
struct reminders_stage : stage {
  explicit reminders_stage(float width = 360, float height = 640)
      : stage(draw_reminders, width, height) {
    u.nav.open = side_page::reminders;
    h.draw = [this](toolkit& k) {
      view v = m.get();
      v.places = {{"drives/BLUE", "The drive BLUE", true},
                  {"a-folder/quarterbreath/handed-over", "A folder on this device", false}};
      if (!files.empty()) v.written = {side_page::reminders, files, v.places.front(), false};
      if (auto w = what(k, v, u)) wished = w;
    };
  }
  std::vector<std::string> files;
};

const reported_checklist written{reminders_list, {calendar_item, page_item}};

} // namespace

TEST_CASE("the alarm clock is to ring at 19:15 for water only from 19:30") {
  reminders_stage s;
  planned(s.m);
  s.m.go_to("2027-04-05 12:00");
  CHECK(s.shown() == "reminders");
  REQUIRE(s.h.find("alarm-1") != nullptr); // plain food began already: it is not set any more
  CHECK((s.h.find("alarm-1")->name + s.h.find("alarm-1")->value).find("Monday 19:15") !=
        std::string::npos);
  CHECK((s.h.find("alarm-1")->name + s.h.find("alarm-1")->value)
            .find("Water only; no smoking, from 19:30") != std::string::npos);
  REQUIRE(s.h.find("alarm-3") != nullptr);
  CHECK((s.h.find("alarm-3")->name + s.h.find("alarm-3")->value).find("Tuesday 07:15") !=
        std::string::npos);
  CHECK(s.h.find("alarm-4") == nullptr);
}

TEST_CASE("a place that is picked gets the files, and the page then says how to open them") {
  reminders_stage s;
  planned(s.m);
  REQUIRE(s.press("files"));
  CHECK(s.shown() == "reminders-where");
  REQUIRE(s.press("place-1"));
  REQUIRE(s.asked_outright<write_reminder_files>());
  CHECK(std::get<write_reminder_files>(*s.wished).to.folder == "drives/BLUE");
  s.files = {"drives/BLUE/quarterbreath-QB7-4410-2.reminders.ics",
             "drives/BLUE/quarterbreath-QB7-4410-2.preparation.pdf"};
  CHECK(s.shown() == "reminders-written");
  CHECK(s.h.find("folder") == nullptr); // where a drive is mounted says nothing to a person
  REQUIRE(s.h.find("file-1") != nullptr);
  CHECK(s.h.find("file-1")->name == "quarterbreath-QB7-4410-2.reminders.ics");
  REQUIRE(s.press("done"));
  CHECK(s.asked_outright<files_seen>());
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("after a move the page says that the files are old, and offers new ones") {
  reminders_stage s;
  planned(s.m);
  CHECK(s.shown() == "reminders");
  CHECK(s.h.find("old") == nullptr);
  CHECK(s.h.find("fresh") == nullptr);
  s.m.tell(written);
  s.h.frames(1);
  CHECK(s.h.find("fresh") != nullptr);
  s.m.go_to("2027-04-02 10:00");
  s.m.plan_for("2027-04-08 08:00");
  s.h.frames(1);
  CHECK(s.h.find("fresh") == nullptr);
  REQUIRE(s.h.find("old") != nullptr);
  REQUIRE(s.press("files"));
  CHECK(s.shown() == "reminders-where");
  REQUIRE(s.press("back"));
  CHECK(s.shown() == "reminders");
  REQUIRE(s.press("back"));
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("a test that was called off offers the file that takes the reminders back") {
  reminders_stage s;
  planned(s.m);
  s.m.tell(written);
  s.m.go_to("2027-04-02 10:00");
  s.m.tell(plan_called_off{""});
  CHECK(s.shown() == "reminders-where");
  CHECK(s.h.find("old") != nullptr);
  REQUIRE(s.press("place-2"));
  CHECK(s.asked_outright<write_reminder_files>());
}

TEST_CASE("without a plan the page gives way") {
  reminders_stage s;
  s.m.open();
  s.h.frames(1);
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("the reminders' pages fit every promised window, in practice too") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    reminders_stage s(width, height);
    for (const bool practice : {false, true}) {
      for (int which = 0; which < 5; ++which) {
        s.m = {};
        s.m.practice = practice;
        s.u = {};
        s.u.nav.open = side_page::reminders;
        planned(s.m);
        if (which == 1) {
          s.m.tell(written);
          s.m.go_to("2027-04-02 10:00");
          s.m.plan_for("2027-04-08 08:00");
        }
        if (which == 2) s.u.nav.page = reminders_page::files;
        s.files.clear();
        if (which >= 3)
          s.files = {"drives/BLUE DRIVE/quarterbreath-QB7-4410-2.reminders.ics",
                     "drives/BLUE DRIVE/quarterbreath-QB7-4410-2.preparation.pdf"};
        if (which == 4) s.m.tell(plan_called_off{""});
        s.h.frames(1);
        INFO("page " << which << " at " << width << (practice ? " in practice" : ""));
        CHECK(s.h.faults() == std::vector<std::string>{});
        for (int panel = 0; s.h.find("page-more") != nullptr && panel < 10; ++panel) {
          REQUIRE(s.h.press("page-more"));
          CHECK(s.h.faults() == std::vector<std::string>{});
        }
        for (const element& e : s.h.seen().elements)
          CHECK((e.name + e.value).find('[') == std::string::npos);
      }
    }
  }
}
