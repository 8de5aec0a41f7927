// The rule's edges, one by one. The published series is CHLAB's (HL7 Switzerland CH LAB-Report
// guide, example 3, CC0-1.0); the constructed edges test logic and are published nowhere.
#include "tests/unit/curve/curves.hpp"

using namespace qb;
using namespace qb::test;

namespace {

const std::string chlab = "0:5/3 30:9/6 60:27/14 90:47/13 120:76/18 150:96/18 180:59/13";
const std::string no = "cannot-be-determined";

// A whole grid of glucose-75g below every threshold, with something else at the end.
const std::string low_until_75 = "0:4 15:5 30:5 45:5 60:5 75:5 ";

} // namespace

TEST_CASE("the published lactose series meets what was derived from it by hand (CHLAB)") {
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", chlab) == "meets 60 22");
  CHECK(said("lactose-25g", "nac-2017-ch4", chlab) == "meets 60 14");
  CHECK(said("lactose-25g", "hovde-farup-2009-combined", chlab) == "meets 60 44");
  const auto h2 = judged("lactose-25g", "nac-2017-h2-sugar", chlab);
  CHECK(h2.says.greatest->value == exact(91));
  CHECK(h2.says.greatest->minute == exact(150));
  CHECK(h2.how_firm.firm);
}

TEST_CASE("glucose meets 20 exactly at minute 90, and with 23 there does not (constructed)") {
  const std::string before = "0:4/1 30:10/1 60:18/1 ";
  CHECK(said("glucose-75g", "nac-2017-h2-90", before + "90:24/1 120:20/1") == "meets 90 20");
  CHECK(said("glucose-75g", "nac-2017-h2-90", before + "90:23/1 120:20/1") ==
        "does-not-meet 90 19");
  CHECK(said("glucose-75g", "nac-2017-h2-90", before + "90:23.999999999999999999/1") ==
        "does-not-meet 90 19.999999999999999999");
  CHECK(said("glucose-50g", "kerlin-wong-1988-h2-12", before + "90:23/1 120:20/1") ==
        "meets 60 14");
}

TEST_CASE("lactulose that rises first at 105 does not meet by 90 (constructed)") {
  CHECK(said("lactulose-10g", "nac-2017-h2-90", "0:5 30:6 60:8 90:15 105:30 120:60") ==
        "does-not-meet 90 10");
}

TEST_CASE("a window ends with its last minute; slack moves the end, and strictly it stays") {
  const std::string late = low_until_75 + "90.5:40";
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "90:40") == "meets 90 36");
  CHECK(said("glucose-75g", "nac-2017-h2-90", late) == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", late, "0.5") == "meets 90.5 36");
  CHECK(said("glucose-75g", "nac-2017-h2-90", late, "0.499999") == no);
  const auto with_slack = judged("glucose-75g", "nac-2017-h2-90", late, "3");
  CHECK(said(with_slack.says) == "meets 90.5 36");
  CHECK(said(with_slack.how_firm.strict) == no);
  CHECK_FALSE(with_slack.how_firm.firm);
}

TEST_CASE(
    "not met needs the last sample of the window: after half an interval before, by the end") {
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75) == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "82.5:5") == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "82.500000000000000001:5") ==
        "does-not-meet 15 1");
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "93:5 105:5") == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "93:5 105:5", "3") ==
        "does-not-meet 15 1");
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "90:- 105:5") == no);
}

TEST_CASE("for any sample the last of the grid counts, late as it may be") {
  const std::string low = "0:4/1 30:5/1 60:5/1 90:5/1 120:5/1 150:5/1 ";
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", low + "165:5/1") == no);
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", low + "165.1:5/1") == "does-not-meet 30 1");
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", low + "240:5/1") == "does-not-meet 30 1");
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", low + "240:24/1") == "meets 240 20");
}

TEST_CASE("what is met stays met, whatever is missing later") {
  CHECK(said("glucose-75g", "nac-2017-h2-90", "0:4 15:24") == "meets 15 20");
  CHECK(said("glucose-75g", "nac-2017-h2-90", "0:4 15:24 30:2") == "meets 15 20");
  CHECK(said("glucose-75g", "nac-2017-ch4", "0:4/10") == "meets 0 10");
}

TEST_CASE("without a baseline no rise is told, but a level is") {
  const std::string late = "0.1:4/12 30:60/1 60:70/1 90:80/1 135:80/1";
  const auto rise = judged("glucose-75g", "nac-2017-h2-90", late);
  CHECK(said(rise.says) == no);
  CHECK(*rise.says.why_not == undecided::no_baseline);
  CHECK(said("glucose-75g", "nac-2017-ch4", late) == "meets 0.1 12");
  CHECK(said("glucose-75g", "nac-2017-ch4", "1:4/1 135:4/2") == "does-not-meet 135 2");
  CHECK(said("glucose-75g", "nac-2017-h2-90", "") == no);
  CHECK(said("glucose-75g", "nac-2017-ch4", "") == no);
}

TEST_CASE(
    "the first sample is the baseline at minute 0 or before; a second one there is a sample") {
  CHECK(said("glucose-75g", "nac-2017-h2-90", "-4:4 15:24") == "meets 15 20");
  CHECK(said("glucose-75g", "nac-2017-h2-90", "-10:4 0:24 15:5") == "meets 0 20");
  CHECK(said("glucose-75g", "nac-2017-h2-90", "-10:- 0:4 15:30") == no);
}

TEST_CASE("a reading that is missing is a sample not taken, for that gas alone") {
  CHECK(said("lactose-25g", "hovde-farup-2009-combined", "0:4/- 30:40/40") == no);
  CHECK(said("lactose-25g", "hovde-farup-2009-combined", "0:4/1 30:40/- 60:4/10") == "meets 60 18");
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", "0:4/- 30:40/-") == "meets 30 36");
}

TEST_CASE("a reason says what was found, the rule, the window and the slack") {
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:4 90:24").reason ==
        "H2 rise of 20 ppm at minute 90: 20 ppm or more by minute 90");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:4 88:9", "3").reason ==
        "greatest H2 rise of 5 ppm at minute 88, not 20 ppm or more by minute 90 (and 3 min of "
        "slack); the sample due at 90 was taken at 88");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:4").reason ==
        "not 20 ppm or more by minute 90 so far, and the sample due at 90 has no reading: none "
        "after minute 82.5 and by minute 90");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "1:4").reason ==
        "no baseline: no sample at minute 0 or before with a reading, so no H2 rise");
}

TEST_CASE("the window on a grid is the last due minute in it, and half the interval before that") {
  criterion c;
  const std::vector<std::chrono::minutes> grid{std::chrono::minutes{0}, std::chrono::minutes{40},
                                               std::chrono::minutes{100}};
  const auto last = [&](std::optional<exact> until) {
    c.until = until;
    const due_window w = window_on(c, grid);
    return w.last_due.text() + " after " + w.last_from.text();
  };
  CHECK(last(std::nullopt) == "100 after 70");
  CHECK(last(exact(100)) == "100 after 70");
  CHECK(last(exact(99)) == "40 after 20");
  CHECK(last(exact(5)) == "0 after -20"); // only the baseline is due in it
}
