// The pages by which something leaves this device or is erased from it: two answers before a test
// goes, nothing called safe that is not, and what a shared device says.
#include "tests/unit/screens/handing_stage.hpp"

#include <functional>

using namespace qb;
using namespace qb::test;

TEST_CASE("a test goes only after its meaning was read, two lines ticked and one more press") {
  handing_stage s(draw_erase);
  s.finish();
  s.u.nav.open = side_page::erase;
  CHECK(s.shown() == "erase");
  CHECK(s.h.find("unhanded") != nullptr); // nothing was saved: the laboratory would have no times
  REQUIRE(s.press("erase-on"));
  CHECK(s.shown() == "erase-sure");
  CHECK(s.h.find("erase-now") == nullptr);
  REQUIRE(s.press("erase-all"));
  CHECK(s.h.find("erase-now") == nullptr);
  REQUIRE(s.press("erase-undo"));
  s.h.frames(1);
  REQUIRE(s.press("erase-now"));
  CHECK(s.asked_outright<erase_test>());
}

TEST_CASE("kept after all, nothing stays ticked for the next time") {
  handing_stage s(draw_erase);
  s.finish();
  s.m.tell(exported{});
  s.u.nav.open = side_page::erase;
  s.h.frames(1);
  CHECK(s.h.find("unhanded") == nullptr);
  CHECK(s.h.find("handed") != nullptr);
  REQUIRE(s.press("erase-on"));
  REQUIRE(s.press("erase-all"));
  REQUIRE(s.press("erase-undo"));
  REQUIRE(s.press("keep"));
  CHECK_FALSE(s.wished);
  CHECK_FALSE(s.u.nav.is_side());
  CHECK(s.u.drafts.ticked.empty());
}

TEST_CASE("without a drive the page says that one can be plugged in; with one it is a row") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.places = {own_place};
  s.h.frames(1);
  CHECK(s.h.find("plug-in") != nullptr);
  s.places = {own_place, blue};
  s.h.frames(1);
  CHECK(s.h.find("plug-in") == nullptr);
  REQUIRE(s.press("place-2"));
  REQUIRE(s.asked_outright<hand_over>());
  CHECK(std::get<hand_over>(*s.wished).to.folder == blue.folder);
}

TEST_CASE("while it is written there is nothing to press, and nothing is called safe") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.writing_to = blue;
  CHECK(s.shown() == "writing");
  CHECK(s.h.find("leave") != nullptr);
  CHECK(s.h.find("safe") == nullptr);
  CHECK(s.h.find("back") == nullptr);
  s.writing_to.reset();
  s.written = written_for(side_page::hand_over, blue);
  CHECK(s.shown() == "hand-over-written");
  CHECK(s.h.find("safe") != nullptr);
  CHECK(s.h.find("take-out") != nullptr);
  CHECK(s.h.find("renamed") != nullptr);
  CHECK(s.h.find("have-it") == nullptr); // a device of one's own keeps it
  REQUIRE(s.press("back"));
  CHECK(s.asked_outright<files_seen>());
}

TEST_CASE("a file that could not be saved is named beside those that are there") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.written = written_for(side_page::hand_over, own_place);
  s.written.left_out = {own_place.folder + "/quarterbreath-QB7-4410.sheet.pdf"};
  s.h.frames(1);
  REQUIRE(s.h.find("safe") != nullptr);
  CHECK(s.h.find("safe")->name == s.m.t("places.safe-part", {{"place", own_place.words}}));
  (void)s.h.press("left-out-1"); // turns to its leaf
  REQUIRE(s.h.find("left-out-1") != nullptr);
  CHECK(s.h.find("left-out-1")->name == "quarterbreath-QB7-4410.sheet.pdf");
}

TEST_CASE("what another page wrote is not taken for a hand-over") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.written = written_for(side_page::papers, blue);
  s.h.frames(1);
  CHECK(s.h.find("safe") == nullptr);
  CHECK(s.h.find("place-1") != nullptr);
}

TEST_CASE("a shared device says at the agreement what it does, and a due test on every page") {
  handing_stage s(draw_agree);
  s.become_shared();
  s.u.nav.page = agree_page::kept;
  s.h.frames(1);
  REQUIRE(s.h.find("shared") != nullptr);
  CHECK(s.h.find("shared")->name.find("3 days") != std::string::npos);
  handing_stage due(draw_finish);
  due.finish();
  due.become_shared();
  due.shared->left = std::chrono::minutes{14};
  due.h.frames(1);
  REQUIRE(due.h.find("shared-due") != nullptr);
  CHECK(due.h.find("shared-due")->name.find("14 minutes") != std::string::npos);
}

TEST_CASE("labels and sheet are asked for from a plan, and the page says how to print them") {
  handing_stage s(draw_papers);
  planned(s.m);
  s.u.nav.open = side_page::papers;
  CHECK(s.shown() == "papers");
  REQUIRE(s.press("place-1"));
  CHECK(s.asked_outright<write_papers>());
  s.written = written_for(side_page::papers, own_place);
  CHECK(s.shown() == "papers-written");
  CHECK(s.h.find("take-out") == nullptr); // a folder is not pulled out
  CHECK(s.h.find("short") != nullptr);
  handing_stage none(draw_papers);
  none.u.nav.open = side_page::papers;
  none.h.frames(1);
  CHECK_FALSE(none.u.nav.is_side());
}

namespace {

struct fit_case {
  test::screen draw;
  side_page open;
  std::function<void(handing_stage&)> set;
};

std::vector<fit_case> erasing_pages() {
  const auto shared = [](handing_stage& s) { s.become_shared(); };
  return {
      {draw_erase, side_page::erase, [](handing_stage&) {}},
      {draw_erase, side_page::erase, [](handing_stage& s) { s.m.tell(exported{}); }},
      {draw_erase, side_page::erase, [](handing_stage& s) { s.u.nav.page = erase_page::sure; }},
      {draw_erase, side_page::erase,
       [](handing_stage& s) {
         s.u.nav.page = erase_page::sure;
         s.u.drafts.ticked = {"erase-all", "erase-undo"};
       }},
      {draw_erase, side_page::erase,
       [](handing_stage& s) {
         s.others = true;
         s.m.tell(exported{});
         s.u.drafts.handed_to = "the drive BLUE-LABEL-32";
       }},
      {draw_erase, side_page::erase, shared},
      {draw_erased, side_page::erased, [](handing_stage& s) { s.others = s.tubes_gone = true; }},
      {draw_return, side_page::returned, shared},
      {draw_erased, side_page::erased,
       [](handing_stage& s) { s.m.trouble = s.m.t("erase.rest"); }}};
}

std::vector<fit_case> writing_pages() {
  const auto shared = [](handing_stage& s) { s.become_shared(); };
  const auto due = [](handing_stage& s) {
    s.become_shared();
    s.shared->left = std::chrono::minutes{15};
  };
  return {{draw_hand_over, side_page::hand_over, [](handing_stage&) {}},
          {draw_hand_over, side_page::hand_over, [](handing_stage& s) { s.places.clear(); }},
          {draw_hand_over, side_page::hand_over, [](handing_stage& s) { s.writing_to = blue; }},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) { s.written = written_for(side_page::hand_over, blue); }},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) {
             s.written = written_for(side_page::hand_over, own_place);
             s.written.left_out = {own_place.folder + "/quarterbreath-QB7-4410-2.sheet.pdf"};
           }},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) {
             s.become_shared();
             s.written = written_for(side_page::hand_over, blue);
           }},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) {
             s.m.trouble =
                 s.m.t("places.gone", {{"place", blue.words}}) + " " + s.m.t("places.still-here");
           }},
          {draw_hand_over, side_page::hand_over, due},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) {
             s.become_shared();
             s.places.clear();
           }},
          {draw_hand_over, side_page::hand_over,
           [](handing_stage& s) {
             s.places.back().gone = true;
             s.m.lab.seal_to.clear();
           }},
          {draw_papers, side_page::papers, [](handing_stage&) {}},
          {draw_papers, side_page::papers,
           [](handing_stage& s) { s.written = written_for(side_page::papers, blue); }},
          {draw_agree, side_page::none,
           [](handing_stage& s) { s.become_shared(), s.u.nav.page = agree_page::kept; }},
          {draw_finish, side_page::none, shared},
          {draw_finish, side_page::none,
           [](handing_stage& s) {
             s.become_shared();
             s.m.tell(exported{});
             s.u.drafts.handed_to = "the drive BLUE-LABEL-32";
           }},
          {draw_finish, side_page::none, due}};
}

} // namespace

TEST_CASE("every one of these pages fits every promised window and says something") {
  std::vector<fit_case> cases = erasing_pages();
  for (const fit_case& c : writing_pages())
    cases.push_back(c);
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    for (std::size_t i = 0; i < cases.size(); ++i) {
      handing_stage s(cases[i].draw, width, height);
      s.finish();
      s.u.nav.open = cases[i].open;
      cases[i].set(s);
      s.h.frames(1);
      INFO(s.h.seen().screen << ", case " << i << ", " << width << " wide");
      s.fits_on_every_leaf();
      CHECK_FALSE(s.wished);
    }
  }
}
