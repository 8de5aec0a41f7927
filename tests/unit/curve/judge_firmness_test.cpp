// Each way of asking how firm an answer is, on a curve that it alone changes.
#include "core/curve/judge_symptoms.hpp"
#include "tests/unit/curve/curves.hpp"

using namespace qb;
using namespace qb::test;

namespace {

firmness firm(const std::string& id, const std::string& samples, const std::string& slack = "0") {
  return judged("glucose-75g", id, samples, slack).how_firm;
}

const std::string full = "0:4/0 15:5/0 30:5/0 45:5/0 60:5/0 75:5/0 90:5/0 105:5/0 120:5/0 135:5/0";

} // namespace

TEST_CASE("an answer that nothing changes is firm") {
  CHECK(firm("nac-2017-h2-90", "0:4 15:40 30:45 45:50 60:50 75:50 90:50").firm);
}

TEST_CASE("at nominal times a sample lies at the nearest due minute, or at its number's") {
  CHECK(firm("nac-2017-h2-90", "0:4 92:24 105:5").nominal_times == answer::meets);
  CHECK(firm("nac-2017-h2-90", "0:4 98:24 120:5").nominal_times == answer::cannot_be_determined);
  // Of two equally near, the earlier.
  CHECK(firm("nac-2017-h2-90", "0:4 97.5:24").nominal_times == answer::meets);
  curve c = curve_of("0.5:4 99:24");
  c[0].number = 1;
  c[1].number = 7;
  const test_judging test = shipped_test("glucose-75g");
  const curve nominal = at_nominal_times(c, test.offsets);
  CHECK(nominal[0].minute == exact(0));
  CHECK(nominal[1].minute == exact(90));
  std::swap(c[0].number, c[1].number);
  CHECK(at_nominal_times(c, test.offsets)[0].h2 == exact(24)); // by minute again
}

TEST_CASE("a dip before the rise meets from the lowest earlier value only") {
  const firmness f = firm("nac-2017-h2-90", "0:10 15:2 30:22 90:10");
  CHECK(*f.lowest_earlier == answer::meets);
  CHECK_FALSE(f.firm);
  CHECK_FALSE(firm("nac-2017-ch4", full).lowest_earlier.has_value());
}

TEST_CASE("a change under 10 ppm is within the readings' noise (RUM87), and 10 is not") {
  CHECK(firm("nac-2017-h2-90", "0:4 90:33").readings_noise == answer::does_not_meet);
  CHECK(firm("nac-2017-h2-90", "0:4 90:34").readings_noise == answer::meets);
  CHECK(firm("nac-2017-h2-90", "0:4 90:14").readings_noise == answer::does_not_meet);
  CHECK(firm("nac-2017-h2-90", "0:4 90:14.1").readings_noise == answer::meets);
  // Of H2 + 2 x CH4 it adds up to 30.
  CHECK(judged("lactose-25g", "hovde-farup-2009-combined", "0:4/1 180:51/1")
            .how_firm.readings_noise == answer::does_not_meet);
  CHECK(judged("lactose-25g", "hovde-farup-2009-combined", "0:4/1 180:52/1")
            .how_firm.readings_noise == answer::meets);
}

TEST_CASE("noise is that of a change: of a level nothing is tried, and it may be firm (RUM87)") {
  const std::string later = " 15:5/12 30:5/12 45:5/12 60:5/12 75:5/12 90:5/12 105:5/12";
  const firmness level = firm("nac-2017-ch4", "0:5/12" + later + " 120:5/12 135:5/12");
  CHECK_FALSE(level.readings_noise.has_value());
  CHECK(level.firm);
}

TEST_CASE("an answer that rests on air low in CO2 is not firm, and the deciding sample says so") {
  curve c = curve_of("0:4 15:5 30:40 45:42 60:9 75:9 90:9");
  const auto h2_90 = [&] {
    return judge_curve(c, shipped_test("glucose-75g"), exact()).criteria.back();
  };
  CHECK_FALSE(h2_90().how_firm.without_low_co2.has_value());
  CHECK_FALSE(h2_90().low_co2.has_value());
  c[2].co2 = number("1.9");
  CHECK(*h2_90().how_firm.without_low_co2 == answer::meets); // by the other of the two
  CHECK(*h2_90().low_co2 == number("1.9"));
  c[3].co2 = number("0.4");
  CHECK(*h2_90().how_firm.without_low_co2 == answer::does_not_meet);
  CHECK(h2_90().how_firm.without_one_sample == answer::meets);
  CHECK_FALSE(h2_90().how_firm.firm);
  c[0].co2 = number("1"); // without a baseline no rise is told
  CHECK(*h2_90().how_firm.without_low_co2 == answer::cannot_be_determined);
}

TEST_CASE("the one sample that an answer rests on is named, the baseline of a rise apart") {
  const firmness one = firm("nac-2017-h2-90", "0:4 15:5 45:40 90:5");
  CHECK(one.without_one_sample == answer::does_not_meet);
  REQUIRE(one.needs.size() == 1);
  CHECK(one.needs.front() == exact(45));
  const firmness two = firm("nac-2017-h2-90", "0:4 45:40 60:40 90:5");
  CHECK(two.without_one_sample == answer::meets);
  CHECK(two.needs.empty());
  CHECK(firm("nac-2017-ch4", "0:4/12").without_one_sample == answer::cannot_be_determined);
}

TEST_CASE("another published criterion is named with the dose it was published for") {
  const auto one = judged("glucose-75g", "nac-2017-h2-90", "0:4 60:18 90:23 120:20");
  REQUIRE(one.how_firm.others.size() == 1);
  CHECK(one.how_firm.others.front().by->id == "kerlin-wong-1988-h2-12");
  CHECK(one.how_firm.others.front().by->published_for == "glucose 50 g");
  CHECK(said(one.how_firm.others.front().says) == "meets 60 14");
}

TEST_CASE("times written to the minute may lie on the other side of an edge") {
  const auto written = [](const std::string& samples, const std::string& precision) {
    const judgement all =
        judge_curve(curve_of(samples), shipped_test("glucose-75g"), exact(), number(precision));
    return all.criteria.back().how_firm.within_precision; // nac-2017-h2-90
  };
  CHECK_FALSE(written("0:4 90:24", "0").has_value());
  CHECK(*written("0:4 89:24", "1") == answer::meets);
  CHECK(*written("0:4 90:24", "1") == answer::cannot_be_determined); // perhaps after the end
  CHECK(*written("0:4 91:24", "1") == answer::meets);                // perhaps before it
  CHECK(*written("0:4 83:5", "0.4") == answer::does_not_meet);
  CHECK(*written("0:4 83:5", "0.5") == answer::cannot_be_determined); // perhaps too early
}

TEST_CASE("earlier gaps make a rule that is not met less firm, one that is met not") {
  const auto gaps = firm("nac-2017-h2-90", "0:4 15:5 30:5 60:5 75:5 82.6:5 90:5").earlier_gaps;
  CHECK(gaps == std::vector<std::chrono::minutes>{std::chrono::minutes{45}});
  CHECK(firm("nac-2017-h2-90", "0:4 60:45 75:44 90:40").firm);
  CHECK(firm("nac-2017-h2-90", full).earlier_gaps.empty());
}

TEST_CASE("symptoms are told by which rose and when, against the score at baseline") {
  const auto at = [](int m, std::optional<int> score) { return std::make_pair(exact(m), score); };
  const auto rises = rises_of({{"bloating", {at(0, 2), at(15, 2), at(30, 5), at(45, 7), at(60, 7)}},
                               {"pain", {at(0, 3), at(15, 3), at(30, 1)}},
                               {"nausea", {at(0, std::nullopt), at(15, 9)}},
                               {"late", {at(5, 0), at(15, 9)}},
                               {"skipped", {at(0, 0), at(15, std::nullopt), at(30, 1)}}});
  REQUIRE(rises.size() == 2);
  CHECK(rises[0].id == "bloating");
  CHECK(rises[0].points == 5);
  CHECK(rises[0].first_minute == exact(30));
  CHECK(rises[0].worst_minute == exact(45));
  CHECK(rises[1].id == "skipped");
  CHECK(rises_of({}).empty());
}
