// What no laboratory can choose for judging. What the shipped one chose is
// profile_figures_test.cpp.
#include "core/base/result.hpp"
#include "core/protocol/profile.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

std::string changed(const std::string& from, const std::string& to) {
  std::string text = source_file("assets/laboratories/fenwick-vale.json");
  const auto at = text.find(from);
  REQUIRE(at != text.npos);
  const auto read = read_profile(text.replace(at, from.size(), to));
  return read ? "" : sentence(read.error());
}

} // namespace

TEST_CASE("what no laboratory can mean by them is refused with its place") {
  CHECK_THAT(changed("\"least_tenths_pct\": 20", "\"least_tenths_pct\": 0"),
             Contains("co2_bounds.least_tenths_pct"));
  CHECK_THAT(changed("\"most_factor_tenths\": 25", "\"most_factor_tenths\": 9"),
             Contains("co2_bounds.most_factor_tenths"));
  CHECK_THAT(changed("\"vomited_within_min\": 60", "\"vomited_within_min\": 0"),
             Contains("substrate_lost.vomited_within_min"));
  CHECK_THAT(changed("\"clock_s\": 30", "\"clock_s\": 601"), Contains("plausible_changes.clock_s"));
  CHECK_THAT(changed("\"reading_permille\": 100", "\"reading_permille\": 1001"),
             Contains("plausible_changes.reading_permille"));
  CHECK_THAT(changed("\"outlier_ppm\": 20", "\"outlier_ppm\": 0"),
             Contains("plausible_changes.outlier_ppm"));
  CHECK_THAT(changed("\"years_after_conclusion\": 10", "\"years_after_conclusion\": 0"),
             Contains("retention.years_after_conclusion"));
}
