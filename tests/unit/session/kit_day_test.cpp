// The kit's last day is held against the civil date of the start in the plan's zone, wherever the
// device thinks it is.
#include "core/session/going_on.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// A plan in London for that instant, at its start; the kit is told afterwards, up to that day.
struct at_the_start : patient {
  at_the_start(instant start, const char* expires) {
    REQUIRE(tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
    REQUIRE(tell(invented_person()));
    REQUIRE(tell(plan_of(start)));
    REQUIRE(tell(
        reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g", parse_date(expires).value()}));
    clock.pass(start - clock.wall());
  }
  [[nodiscard]] bool too_old(const state& s, const char* zone, std::chrono::hours offset) const {
    clock_reading shown = clock.look();
    shown.zone = zone;
    shown.offset = offset;
    const auto all = hindrances(s, shown);
    return std::any_of(all.begin(), all.end(),
                       [](const hindrance& h) { return h.what == hindrance_kind::kit_expired; });
  }
};

} // namespace

TEST_CASE("a kit is too old after midnight in the plan's zone, whatever zone is shown") {
  const at_the_start p(utc("2027-04-06T23:30:00Z"), "2027-04-06"); // 00:30 on the 7th in London
  CHECK(p.too_old(p.current(), "Europe/London", 1h));
  CHECK(p.too_old(p.current(), "America/New_York", -4h)); // there it is still the 6th
}

TEST_CASE("a kit is good up to midnight in the plan's zone, whatever zone is shown") {
  const at_the_start p(utc("2027-04-06T22:30:00Z"), "2027-04-06"); // 23:30 on the 6th in London
  CHECK_FALSE(p.too_old(p.current(), "Europe/London", 1h));
  CHECK_FALSE(p.too_old(p.current(), "Pacific/Auckland", 12h)); // there it is the 7th
  state older = p.current(); // a record that does not say its plan's offset
  older.planned->what.start_offset.reset();
  CHECK(p.too_old(older, "Pacific/Auckland", 12h));
}
