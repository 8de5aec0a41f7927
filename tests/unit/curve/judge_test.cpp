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
const std::string low_rest = " 30:1 45:1 60:1 75:1 90:1";

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

TEST_CASE("a sample closed on time is the sample of its due minute; strictly it is not") {
  // On time is here from half a minute before to two minutes after.
  const auto on_time = judged("glucose-75g", "nac-2017-h2-90", low_until_75 + "90.5:40");
  CHECK(said(on_time.says) == "meets 90.5 36"); // the true minute stays in sight
  CHECK(said(on_time.how_firm.strict) == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "92:40") == "meets 92 36");
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "92.000001:40") == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "89.4:40") == "meets 89.4 36");
  // Of a test whose own bounds are wider: five minutes after.
  CHECK(said("lactose-25g", "nac-2017-h2-sugar", "0:4 30:5 185:40") == "meets 185 36");
}

TEST_CASE("a window ends with its last minute; slack moves the end, and strictly it stays") {
  const std::string late = low_until_75 + "94.5:40";
  CHECK(said("glucose-75g", "nac-2017-h2-90", low_until_75 + "90:40") == "meets 90 36");
  CHECK(said("glucose-75g", "nac-2017-h2-90", late) == no);
  CHECK(said("glucose-75g", "nac-2017-h2-90", late, "4.5") == "meets 94.5 36");
  CHECK(said("glucose-75g", "nac-2017-h2-90", late, "4.499999") == no);
  const auto with_slack = judged("glucose-75g", "nac-2017-h2-90", late, "5");
  CHECK(said(with_slack.says) == "meets 94.5 36");
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
  CHECK(said("glucose-75g", "nac-2017-h2-90", "-10:4 0:24 15:5") == no); // no rise before the drink
  CHECK(said("glucose-75g", "nac-2017-ch4", "-10:4/1 0:24/10 15:5/1") == "meets 0 10");
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
        "not 20 ppm or more by minute 90 so far, and the sample due at 90 has no reading that "
        "counts: none after minute 82.5 and by minute 90");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "1:4").reason ==
        "no baseline: no sample at minute 0 or before with a reading that counts, so no H2 rise");
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

TEST_CASE(
    "a reading outside the analyser's range has the threshold surely, perhaps or surely not") {
  const auto h2 = [](const std::string& samples) {
    const auto one = judged("glucose-75g", "nac-2017-h2-90", samples + low_rest);
    return said(one.says) + (one.says.why_not == undecided::out_of_range ? " range" : "");
  };
  CHECK(h2("0:4 15:>200") == "meets 15 196");
  CHECK(h2("0:4 15:>24") == "meets 15 20");         // more than that
  CHECK(h2("0:4 15:>23.9") == no + " range");       // perhaps 24, perhaps not
  CHECK(h2("0:<1 15:21") == "meets 15 20");         // more than 20
  CHECK(h2("0:<1 15:20.5") == no + " range");       // 19.5 to 20.5
  CHECK(h2("0:<1 15:20") == no + " range");         // if there was none at first
  CHECK(h2("0:<1 15:19") == "does-not-meet 15 18"); // 18 to 19
  CHECK(h2("0:>200 15:210") == "does-not-meet 15 10");
  CHECK(h2("0:>200 15:>210") == no + " range");
  CHECK(h2("0:4 15:<20") == "does-not-meet 15 16");
  CHECK(h2("0:4 15:<24") == "does-not-meet 15 20"); // less than 24
  CHECK(h2("0:4 15:<25") == no + " range");
  const std::string late = " 30:4/1 60:4/1 90:4/1 120:4/1 135:4/1";
  CHECK(said("glucose-75g", "nac-2017-ch4", "0:4/<10" + late) == "does-not-meet 0 10");
  CHECK(said("glucose-75g", "nac-2017-ch4", "0:4/>10" + late) == "meets 0 10");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:4 15:>200").reason ==
        "H2 rise of more than 196 ppm at minute 15: 20 ppm or more by minute 90");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:4 15:>20" + low_rest).reason ==
        "H2 rise of more than 16 ppm at minute 15, outside the analyser's range: whether it is "
        "20 ppm or more by minute 90 cannot be told");
  CHECK(judged("glucose-75g", "nac-2017-h2-90", "0:>200 15:>210" + low_rest).reason ==
        "H2 rise at minute 15 is not known, outside the analyser's range: whether it is 20 ppm or "
        "more by minute 90 cannot be told");
  CHECK_FALSE(judgement_of("glucose-75g", "0:4 15:>20 30:4").h2.total.has_value());
}

TEST_CASE(
    "a sample under the laboratory's least carbon dioxide stays in sight and decides nothing") {
  const test_judging by = shipped_test("glucose-75g");
  const auto h2 = [&](const char* co2, std::size_t at) {
    curve c = curve_of("0:4 15:40 30:5 45:5 60:5 75:5 90:5 105:5");
    c[at].co2 = number(co2);
    return judge_curve(as_of_grid(c, by), by);
  };
  CHECK(said(h2("2", 1).criteria.back().says) == "meets 15 36");
  const judgement low = h2("1.999", 1);
  CHECK(said(low.criteria.back().says) == "does-not-meet 30 1");
  CHECK(low.undeciding == std::vector<exact>{exact(15)});
  CHECK_FALSE(low.criteria.back().how_firm.firm); // a gap
  CHECK(*low.corrected == false);
  CHECK(low.h2.total.has_value());
  CHECK(said(h2("1", 0).criteria.back().says) == no); // without a baseline no rise is told
  CHECK_FALSE(judgement_of("glucose-75g", "0:4 15:40").corrected.has_value());
}

TEST_CASE(
    "only after the drink's start a rise can be met, and without a drink nothing is answered") {
  const test_judging by = shipped_test("glucose-75g");
  curve_facts facts;
  const auto h2 = [&] {
    const curve c = as_of_grid(curve_of("0:4 15:40 30:5 45:5 60:5 75:5 90:5 105:5"), by);
    return judge_curve(c, by, facts).criteria.back();
  };
  facts.drink_start = number("14.9");
  CHECK(said(h2().says) == "meets 15 36");
  facts.drink_start = exact(15);
  CHECK(said(h2().says) == "does-not-meet 30 1");
  facts.no_substrate = true;
  CHECK(said(h2().says) == no);
  CHECK(h2().reason == "the drink was not taken, or was lost");
  CHECK_FALSE(h2().how_firm.firm);
  CHECK(h2().how_firm.turns.empty());
}
