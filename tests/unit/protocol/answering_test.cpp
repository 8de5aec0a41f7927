// Whether somebody answers at an instant, by the invented laboratory's hours: Monday to Friday,
// 8:30 to 16:30, and not on its closed days.
#include "core/protocol/answering.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

answering_at asked(const std::string& civil) {
  return answers_telephone(fenwick(), local(civil, "Europe/London"), zone_named("Europe/London"));
}
instant at_london(const std::string& civil) {
  return local(civil, "Europe/London");
}

} // namespace

TEST_CASE("within the hours it is open until they end, and a bound belongs to what it begins") {
  CHECK(asked("2027-04-06 08:30").now == answering::open);
  CHECK(asked("2027-04-06 16:29").now == answering::open);
  CHECK(asked("2027-04-06 12:00").changes == at_london("2027-04-06 16:30"));
  CHECK(asked("2027-04-06 16:30").now == answering::closed);
  CHECK(asked("2027-04-06 08:29").now == answering::closed);
}

TEST_CASE("outside them it is said when somebody answers again") {
  CHECK(asked("2027-04-06 07:00").changes == at_london("2027-04-06 08:30"));
  CHECK(asked("2027-04-06 20:00").changes == at_london("2027-04-07 08:30"));
  CHECK(asked("2027-04-09 17:00").changes == at_london("2027-04-12 08:30")); // a Friday
}

TEST_CASE("on a day it does not work nobody answers") {
  CHECK(asked("2027-03-26 10:00").now == answering::closed);
  // Friday and Monday are closed days; the clocks go forward on the Sunday between.
  CHECK(asked("2027-03-25 17:00").changes == at_london("2027-03-30 08:30"));
}

TEST_CASE("hours that touch are one span, and a profile without hours as data says nothing") {
  lab_profile lab = fenwick();
  lab.opening_hours = {{{2}, 8h, 12h}, {{2}, 12h, 16h}};
  const zone& z = zone_named("Europe/London");
  const answering_at a = answers_telephone(lab, at_london("2027-04-06 09:00"), z);
  CHECK(a.now == answering::open);
  CHECK(a.changes == at_london("2027-04-06 16:00"));
  lab.opening_hours.clear();
  CHECK(answers_telephone(lab, at_london("2027-04-06 09:00"), z).now == answering::unknown);
}
