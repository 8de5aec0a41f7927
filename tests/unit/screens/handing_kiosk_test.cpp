// What a shared device and a drive do with a test: nothing goes by a press too many, what is needed
// afterwards is said before, and a row or a trouble stays only as long as its page.
#include "app/patient/screens/places.hpp"
#include "app/patient/shell/trembling.hpp"
#include "core/session/keeping.hpp"
#include "tests/unit/screens/handing_stage.hpp"

using namespace qb;
using namespace qb::test;

namespace {

std::string name_of(const handing_stage& s, const std::string& key) {
  const element* e = s.h.find(key);
  return e == nullptr ? "(none)" : e->name;
}

bool says(const handing_stage& s, const std::string& key, const std::string& words) {
  return name_of(s, key).find(words) != std::string::npos;
}

void written_on_a_kiosk(handing_stage& s) {
  s.finish();
  s.become_shared();
  s.u.nav.open = side_page::hand_over;
  s.written = written_for(side_page::hand_over, blue);
}

// The written page follows the press on a row of so many, and the same point is pressed again.
bool second_press_erases(std::size_t rows, std::size_t row, float width, float height) {
  handing_stage s(draw_hand_over, width, height);
  s.finish();
  s.become_shared();
  s.u.nav.open = side_page::hand_over;
  s.places.assign(rows, blue);
  s.h.frames(1);
  const std::string key = "place-" + std::to_string(row);
  REQUIRE(s.press(key)); // turns to its leaf
  const element there = *s.h.find(key);
  s.wished.reset();
  s.written = written_for(side_page::hand_over, blue);
  s.h.frames(1);
  s.h.press_at(there.x + there.w / 2, there.y + there.h - 3);
  return s.asked_outright<erase_test>() || s.u.nav.open == side_page::erase;
}

} // namespace

TEST_CASE("a second press on the row of the drive that was written to erases nothing") {
  for (const auto& [width, height] : {std::pair{360.0F, 640.0F}, {480.0F, 800.0F}}) {
    for (std::size_t rows = 1; rows <= 4; ++rows) {
      for (std::size_t row = 1; row <= rows; ++row) {
        INFO(row << " of " << rows << ", " << width << " wide");
        CHECK_FALSE(second_press_erases(rows, row, width, height));
      }
    }
  }
}

TEST_CASE("on a shared device the large button keeps, and the quiet one asks twice") {
  handing_stage s(draw_hand_over);
  written_on_a_kiosk(s);
  CHECK(s.shown() == "hand-over-written");
  REQUIRE(s.press("have-it"));
  CHECK(s.asked_outright<files_seen>());
  CHECK(s.u.nav.open == side_page::erase);
  CHECK(s.u.nav.page_in<erase_page>() == erase_page::sure);
  CHECK(s.u.drafts.ticked.empty());
  handing_stage kept(draw_hand_over);
  written_on_a_kiosk(kept);
  kept.h.frames(1);
  REQUIRE(kept.h.press("back"));
  CHECK(kept.asked_outright<files_seen>());
  CHECK_FALSE(kept.u.nav.is_side());
}

TEST_CASE("a page that comes by itself after writing is deaf until it was seen") {
  trembling hand;
  CHECK_FALSE(hand.deaf(0));
  hand.saw("hand-over", true, 1000);
  CHECK(hand.deaf(1399));
  CHECK_FALSE(hand.deaf(1400));
  hand.saw("writing", false, 1500);
  CHECK_FALSE(hand.deaf(1500));
  hand.saw("hand-over-written", false, 2500);
  CHECK(hand.deaf(4499));
  hand.saw("hand-over-written", false, 3000); // the same page drawn again hears no later
  CHECK_FALSE(hand.deaf(4500));
}

TEST_CASE("what is needed after the test is said before it goes, and is a press away") {
  for (const auto& [page, key] :
       {std::pair{side_page::copy, "open-copy"}, {side_page::pack, "open-pack"}}) {
    handing_stage s(draw_hand_over);
    written_on_a_kiosk(s);
    s.h.frames(1);
    CHECK(says(s, "first", "Copy the times to your paper sheet first"));
    REQUIRE(s.press(key));
    CHECK(s.u.nav.open == page);
    CHECK(s.asked_outright<files_seen>());
  }
  handing_stage s(draw_erase, 480, 800);
  s.finish();
  s.u.nav.open = side_page::erase;
  s.h.frames(1);
  if (s.h.find("tubes") == nullptr) REQUIRE(s.h.press("page-more"));
  CHECK(says(s, "tubes", "First copy the times onto the paper sheet"));
  handing_stage gone(draw_erased);
  gone.tubes_gone = true;
  gone.h.frames(1);
  CHECK(says(gone, "tubes", gone.m.lab.telephone));
  gone.tubes_gone = false;
  gone.h.frames(1);
  CHECK(gone.h.find("tubes") == nullptr);
}

TEST_CASE("a file on this device or on a drive is not called the laboratory's") {
  for (const export_place& to : {own_place, blue}) {
    handing_stage s(draw_hand_over, 480, 800);
    s.finish();
    s.u.nav.open = side_page::hand_over;
    s.written = written_for(side_page::hand_over, to);
    s.h.frames(1);
    CHECK(says(s, "bring", "The laboratory does not have it yet"));
    CHECK(says(s, "bring", s.m.lab.telephone));
    CHECK((s.h.find("folder") != nullptr) == !to.drive);
  }
}

TEST_CASE("at the end it stands where the record was written to, or that it was not") {
  handing_stage s(draw_finish, 480, 800);
  s.finish();
  const auto row = [&](const std::string& label) {
    s.h.frames(1);
    for (int panel = 0; panel < 10; ++panel) {
      for (const element& e : s.h.seen().elements)
        if (e.name == label) return e.value;
      if (!s.h.press("page-more")) break;
    }
    return std::string("(none)");
  };
  REQUIRE(s.shown() == "afterwards");
  REQUIRE(s.press("next"));
  CHECK(row("Saved for the laboratory") == "not yet");
  s.m.tell(exported{});
  s.u.drafts.handed_to = "this device";
  CHECK(row("Saved to") == "this device");
  s.u.drafts.handed_to.clear(); // written by an earlier program
  CHECK(row("Saved to") == when(s.m.get(), s.m.at.wall));
}

TEST_CASE("the trouble of a drive is left with its page") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.h.frames(1);
  const navigation before = s.u.nav;
  CHECK_FALSE(left_place_page(before, s.u.nav));
  REQUIRE(s.press("back"));
  CHECK(left_place_page(before, s.u.nav));
  CHECK_FALSE(left_place_page({side_page::pack}, s.u.nav));
  s.u.nav.open = side_page::reminders;
  // Back to the alarms.
  CHECK(left_place_page({side_page::reminders, reminders_page::files}, s.u.nav));
}

TEST_CASE("rows of drives stay where they are: a new one comes last, a pulled one keeps its row") {
  const export_place red{"media/RED", "The drive RED", true, "RED"};
  const export_place amber{"media/AMBER", "The drive AMBER", true, "AMBER"};
  auto rows = in_steady_rows({}, {own_place, red});
  rows = in_steady_rows(rows, {own_place, amber, red});
  REQUIRE(rows.size() == 3);
  CHECK(rows[1].label == "RED");
  CHECK(rows[2].label == "AMBER");
  rows = in_steady_rows(rows, {own_place, amber});
  REQUIRE(rows.size() == 3);
  CHECK(rows[1].gone);
  CHECK_FALSE(rows[2].gone);
  CHECK_FALSE(in_steady_rows(rows, {own_place, red})[1].gone);
  handing_stage s(draw_hand_over, 480, 800);
  s.finish();
  s.u.nav.open = side_page::hand_over;
  s.places = rows;
  s.h.frames(1);
  CHECK(s.h.value("place-1") == own_place.folder);
  CHECK(s.h.value("place-2") == "It is not plugged in now");
  REQUIRE(s.seek("place-3") != nullptr);
  CHECK(s.h.value("place-3").empty()); // no path
}

TEST_CASE("a page with no place at all says what to do, and the code is always a way") {
  handing_stage s(draw_hand_over);
  s.finish();
  s.become_shared();
  s.u.nav.open = side_page::hand_over;
  s.places.clear();
  s.h.frames(1);
  CHECK(says(s, "plug-in", "Plug in a drive (USB stick)."));
  CHECK(says(s, "what", "only the laboratory can open it"));
  REQUIRE(s.press("open-code"));
  CHECK(s.u.nav.open == side_page::code);
  s.u.nav.open = side_page::hand_over;
  s.places = {own_place};
  s.h.frames(1);
  CHECK(says(s, "names", "the files are not locked"));
  s.m.lab.seal_to.clear();
  s.h.frames(1);
  CHECK(says(s, "names", "not in the file names"));
  CHECK_FALSE(says(s, "what", "locked"));
}

TEST_CASE("on the notice of a shared device the person keeps the test, by an entry of its own") {
  handing_stage s(draw_finish);
  s.finish();
  s.become_shared();
  s.shared->left = std::chrono::minutes{9};
  s.h.frames(1);
  CHECK(says(s, "shared-due", "Save it for the laboratory"));
  REQUIRE(s.press("keep-mine"));
  REQUIRE(s.asked<reported_checklist>() != nullptr);
  CHECK(s.asked<reported_checklist>()->name == kept_list);
  handing_stage none(draw_who);
  none.m.open();
  none.become_shared();
  none.shared->left = std::chrono::minutes{9};
  none.h.frames(1);
  CHECK(none.h.find("keep-mine") != nullptr);
  CHECK_FALSE(says(none, "shared-due", "Save it")); // there are no tubes
  // The code has the whole page.
  handing_stage code(draw_code);
  code.finish();
  code.become_shared();
  code.shared->left = std::chrono::minutes{9};
  code.u.nav.open = side_page::code;
  constexpr std::size_t side = 21;
  code.codes = {code::symbol{side, std::vector<bool>(side * side, true)}};
  code.h.frames(1);
  CHECK(code.h.find("shared-due") != nullptr); // before it is shown
  REQUIRE(code.press("show-code"));
  CHECK(code.h.find("code-1") != nullptr);
  CHECK(code.h.find("shared-due") == nullptr);
}

TEST_CASE("once saved, a shared device says until when it keeps it, and takes that one has it") {
  handing_stage s(draw_finish);
  s.finish();
  s.become_shared();
  REQUIRE(s.press("next"));
  CHECK(says(s, "shared", "Save it for the laboratory before"));
  CHECK(s.h.find("have-it") == nullptr);
  s.m.tell(exported{});
  s.h.frames(1);
  CHECK(says(s, "shared", "You saved it."));
  REQUIRE(s.press("have-it"));
  CHECK(s.u.nav.open == side_page::erase);
  CHECK(s.u.nav.page_in<erase_page>() == erase_page::sure);
  CHECK_FALSE(s.wished);
}

TEST_CASE("the agreement names what is most private, and a shared device's hours begin anew") {
  handing_stage s(draw_agree, 480, 800);
  s.u.nav.page = agree_page::kept;
  s.h.frames(1);
  CHECK(name_of(s, "title") == "Your answers stay with you");
  CHECK(says(s, "kept", "date of birth, doctor, medicines, answers about your health"));
  s.become_shared();
  s.h.frames(1);
  CHECK(name_of(s, "title") == "Your answers stay on this device for a while");
  CHECK(says(s, "shared", "3 days after your last entry"));
}

TEST_CASE("erasing says of which test it is, where it was written, and what stays") {
  handing_stage s(draw_erase, 480, 800);
  s.finish();
  s.others = true;
  s.m.tell(exported{});
  s.u.nav.open = side_page::erase;
  s.u.drafts.handed_to = "the drive BLUE";
  s.h.frames(1);
  CHECK(says(s, "gone", "This test will be gone"));
  CHECK(says(s, "gone", "copies in this device's folder"));
  CHECK(s.h.find("others") != nullptr);
  CHECK(says(s, "handed", "the drive BLUE"));
  CHECK(s.h.find("instead") == nullptr);
  s.u.drafts.handed_to = "this device";
  s.h.frames(1);
  CHECK(says(s, "handed", "The laboratory does not have it yet"));
  s.become_shared();
  s.h.frames(1);
  CHECK_FALSE(says(s, "gone", "folder")); // it keeps no copies
  CHECK(s.h.find("others") == nullptr);   // and whose they are is nobody's business
  handing_stage before(draw_erase, 480, 800);
  planned(before.m);
  before.u.nav.open = side_page::erase;
  before.h.frames(1);
  CHECK(says(before, "instead", "Call the test off"));
}

TEST_CASE("an earlier test that is still there can be opened, not on a shared device") {
  handing_stage s(draw_erased);
  s.others = true;
  s.h.frames(1);
  REQUIRE(s.press("open-earlier"));
  CHECK(s.asked_outright<open_earlier>());
  s.become_shared();
  s.h.frames(1);
  CHECK(s.h.find("open-earlier") == nullptr);
}

TEST_CASE("back after the end, no tube is due; and on a shared device it may be another's") {
  handing_stage s(draw_return);
  s.finish();
  s.u.nav.open = side_page::returned;
  s.due_while_off = sample_number(10);
  s.h.frames(1);
  CHECK(s.h.find("due") == nullptr);
  CHECK(s.h.find("not-mine") == nullptr);
  s.become_shared();
  REQUIRE(s.press("not-mine"));
  CHECK(s.asked_outright<begin_anew>());
  handing_stage running(draw_return);
  planned(running.m);
  running.become_shared();
  running.u.nav.open = side_page::returned;
  running.h.frames(1);
  CHECK(running.h.find("not-mine") == nullptr);
}
