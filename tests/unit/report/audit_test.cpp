// Counting how time was kept.
#include "core/report/audit.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

report report_with(std::chrono::seconds tube_4_late) {
  made_test m;
  m.tube_4_late = tube_4_late;
  return report_of(read_log(make_log(m)).value(), london_only);
}

} // namespace

TEST_CASE("tubes are counted by number and how they stand to their time") {
  audit all;
  all.add(report_with(std::chrono::seconds{0}));
  all.add(report_with(std::chrono::seconds{300}));
  all.add(report{}); // without tube 1 there are no times
  REQUIRE(all.tests().size() == 1);
  const audit_test& test = all.tests().at("lactulose-10g");
  CHECK(test.tests == 2);
  CHECK(test.whole == 1);
  CHECK(test.tubes.at(4).on_time == 1);
  CHECK(test.tubes.at(4).late == 1);
  CHECK(test.later.due == 18);
  CHECK(test.later.on_time == 17);
  CHECK(test.tubes.at(1).on_time == 2);
}

TEST_CASE("ranks are those of a tube that was taken") {
  audit_counts c;
  CHECK_FALSE(c.median_s());
  c.late_s = {50, 10, 40, 20, 30};
  CHECK(c.median_s() == 30);
  CHECK(c.ninth_tenth_s() == 50);
  CHECK(c.largest_s() == 50);
  c.late_s.assign(10, 0);
  c.late_s[3] = 9;
  CHECK(c.ninth_tenth_s() == 0);
  CHECK(c.largest_s() == 9);
}
