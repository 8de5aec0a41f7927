// The preview of a plan: whose rules the start is held against.
#include "app/patient/shell/preview.hpp"
#include "tests/unit/screens/prepare_views.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using test::made_view;

namespace {

constexpr const char* a_week_later = "2027-04-10";
constexpr int half_past_seven = 450;

// The test whose plan would be made with that one chosen; "" where none would.
std::string planned_test(const made_view& m, const std::string& chosen) {
  plan_draft draft;
  draft.test = chosen;
  draft.date = *parse_date(a_week_later);
  draft.minute = half_past_seven;
  draft.home.days.any = true;
  const plan_preview p = preview_plan(draft, m.s, m.tests, m.at.wall, m.z);
  return p.possible ? p.possible->protocol_id : "";
}

} // namespace

TEST_CASE("a start is held against the test that was chosen, or else the first that is offered") {
  made_view m;
  m.open();
  m.introduce();
  for (const offered_test& t : m.tests)
    CHECK(planned_test(m, t.id) == t.id);
  CHECK(planned_test(m, "") == m.tests.front().id);
}

TEST_CASE("a kit's own test goes before what was chosen, and stands alone") {
  made_view m;
  m.open();
  m.introduce();
  m.tell(reported_kit{"", "FV-2071", "glucose-50g", *parse_date("2027-12-31")});
  CHECK(planned_test(m, "lactulose-10g") == "glucose-50g");
  m.tell(reported_kit{"", "FV-2071", "a test of later years", *parse_date("2027-12-31")});
  CHECK(planned_test(m, "lactulose-10g").empty());
}
