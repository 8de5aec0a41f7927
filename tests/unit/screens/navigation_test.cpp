// Where one is in the window: a page is of one screen alone, and none outlives what it belongs to.
#include "tests/unit/screens/mending_stages.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("a screen does not take another screen's page for its own") {
  navigation nav;
  nav.page = gate_page::check;
  CHECK(nav.page_in<gate_page>() == gate_page::check);
  CHECK(nav.page_in<label_page>() == label_page::time);
  CHECK(nav.page_in<choose_page>() == choose_page(plan_page::unanswered));
  nav.page = caution_page{"ask-diabetes", caution_part::who};
  CHECK(nav.page_in<choose_page>() == choose_page(caution_page{"ask-diabetes", caution_part::who}));
  CHECK(nav.page_in<gate_page>() == gate_page::intro);
}

TEST_CASE("a side page begins at its first page, and leaves none of its pages behind") {
  navigation nav;
  nav.page = label_page::whole;
  nav.open_side(side_page::label_again);
  CHECK(nav.is_side());
  CHECK(nav.page_in<label_page>() == label_page::time);
  nav.page = label_page::whole;
  nav.close_side();
  CHECK_FALSE(nav.is_side());
  CHECK(nav.page_in<label_page>() == label_page::time);
}

TEST_CASE("with the step of the test its pages begin anew, and a side page stays open") {
  stage s(draw_screen);
  to_tube_1(s);
  s.h.frames(1);
  s.u.nav.page = breathe_page::close;
  s.h.frames(1);
  CHECK(s.u.nav.page_in<breathe_page>() == breathe_page::close);
  blow(s, 1);
  s.h.frames(1);
  CHECK(s.u.nav.page == any_page{});
  s.u.nav.open_side(side_page::copy, copy_page{2});
  s.m.tell(drink_started{});
  s.h.frames(1);
  CHECK(s.h.seen().screen == "copy");
  CHECK(s.u.nav.page_in<copy_page>().row == 2);
}

TEST_CASE("a side page gives way to a due tube, whole") {
  stage s(draw_screen);
  to_rest(s);
  s.u.nav.open_side(side_page::copy, copy_page{2});
  s.h.frames(1);
  REQUIRE(s.h.seen().screen == "copy");
  let_pass(s, *s.m.now.to_due);
  CHECK(s.shown() == "breathe");
  CHECK_FALSE(s.u.nav.is_side());
  CHECK(s.u.nav.page == any_page{});
}
