// Every page of the kit at every promised size: nothing cut, small, outside or overlapping, and no
// sentence missing.
#include "tests/unit/screens/kit_stages.hpp"

#include <functional>

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

struct page_case {
  test::screen draw;
  std::function<void(stage&)> set;
};

std::vector<page_case> all_cases() {
  std::vector<page_case> cases;
  const auto code_case = [&](const std::string& typed) {
    cases.push_back({draw_who, [typed](stage& s) {
                       at_kit(s);
                       s.u.drafts.who.code = typed;
                     }});
  };
  for (const std::string& typed :
       {std::string(), code_of("W2"), code_of("M2"), code_of("W2", "2027-03-30"), code_of("ZZ"),
        code_of("M2", "2027-12-31", "ZZ"), std::string("FV2C-7HM2-0"), std::string("FV2C"),
        std::string("FV2C-7HM2-3N4R"), code_of("M2") + "2"})
    code_case(typed);
  cases.push_back({draw_who, [](stage& s) {
                     at_kit(s);
                     s.u.drafts.who.no_code = true;
                   }});
  cases.push_back({draw_who, [](stage& s) {
                     at_kit(s);
                     s.u.drafts.who.birth.text = "02 04 2019";
                     s.u.nav.open = side_page::who;
                   }});
  cases.push_back({draw_who, [](stage& s) {
                     planned(s.m);
                     tell_kit(s, lactose);
                   }});
  cases.push_back({draw_who, [](stage& s) {
                     s.m.open();
                     tell_kit(s, lactose);
                     s.m.introduce();
                     s.u.nav.open = side_page::who;
                   }});
  for (const test::screen draw : {draw_labels_ahead, draw_pack})
    cases.push_back({draw, plan_lactose});
  cases.push_back({draw_label_again, [](stage& s) {
                     plan_lactose(s);
                     tell_tubes(s, {1, 7});
                     s.u.drafts.later.tube = sample_number(7);
                   }});
  cases.push_back({draw_finish, [](stage& s) {
                     plan_lactose(s);
                     tell_tubes(s, {1});
                     s.m.tell(test_ended{"stopped"});
                   }});
  return cases;
}

} // namespace

TEST_CASE("every page of the kit fits every promised window and says something") {
  const std::vector<page_case> cases = all_cases();
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    for (const bool practice : {false, true}) {
      for (std::size_t i = 0; i < cases.size(); ++i) {
        stage s(cases[i].draw, width, height);
        s.m.practice = practice;
        cases[i].set(s);
        s.h.frames(1);
        const std::string screen = s.h.seen().screen;
        REQUIRE_FALSE(s.h.seen().elements.empty());
        INFO(screen << ", case " << i << ", " << width << " wide, practice " << practice);
        s.fits_on_every_leaf();
        CHECK_FALSE(s.wished);
      }
    }
  }
}
