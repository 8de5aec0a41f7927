// Why a test cannot be reported, in words for whoever was tested.
#include "core/case/concluding.hpp"

#include "tests/unit/case/cases.hpp"

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

using texts = std::vector<std::string>;

finding of_tube(const char* rule, int tube) {
  return {rule, consequence::review, sample_number(tube), {}, {tube}, "in the trade's words"};
}

received_kit in_a_box(const std::vector<int>& h2 = rising) {
  received_kit out = with_readings(h2);
  arrival box;
  box.kit = out.kit;
  box.at = made_start() + std::chrono::days{3};
  out.arrivals.push_back(box);
  return out;
}

texts reasons(const received_kit& received, const std::vector<finding>& found) {
  return plain_reasons(case_with(received, house_rules(), {}, found), received);
}

} // namespace

TEST_CASE("what cannot be used is told once for all its tubes, and not where it was set aside") {
  received_kit received = in_a_box();
  CHECK(reasons(received, {of_tube("lid-bad", 7), of_tube("lid-bad", 4), of_tube("lid-bad", 9)}) ==
        texts{"The lid of a tube was not closed well when it reached us, so the breath may have "
              "leaked out (tubes 4, 7 and 9)."});
  received.overrides.push_back({received.kit, "lid-bad", 7, "Dr Osk", "it held", {}, false});
  CHECK(reasons(received, {of_tube("lid-bad", 7)}).empty());
}

TEST_CASE("without a box, or without readings, that is the reason") {
  CHECK(reasons(with_readings({}), {}) == texts{"No box of tubes reached us."});
  CHECK(reasons(in_a_box({}), {}) == texts{"We have no measurement of any tube."});
  CHECK(reasons(in_a_box({4, 5, 6, 7, 9, 12, 26, 30}), {}) ==
        texts{"We have no measurement of a tube (tubes 9 and 10)."});
}

TEST_CASE("what is only to be reviewed is told where nothing bars, and where it has plain words") {
  CHECK(reasons(in_a_box(), {of_tube("co2-low", 2), of_tube("breath-short", 3)}) ==
        texts{"A tube held too little breath to measure (tube 2)."});
  CHECK(reasons(in_a_box(), {of_tube("co2-low", 2), of_tube("tube-twice", 3)}) ==
        texts{"Two tubes in the box bore the same number (tube 3)."});
}

TEST_CASE("each finding that is shipped as spoiling a test has plain words, which end in no stop") {
  for (const finding_rule& f : house_rules().findings.rules) {
    if (f.weight == consequence::cannot_be_used) {
      INFO(f.rule);
      CHECK_FALSE(f.plain.empty());
    }
    if (f.plain.empty()) continue;
    CHECK(f.plain.back() != '.');
    for (const char* never : {"SIBO", "intolerance", "medicine", "diagnos", "positive"})
      CHECK_THAT(f.plain, !Contains(never));
  }
}
