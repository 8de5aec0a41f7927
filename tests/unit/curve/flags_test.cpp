// Flags and areas, at and beside their figures.
#include "tests/unit/curve/curves.hpp"

#include <set>

using namespace qb;
using namespace qb::test;

namespace {

// "id minute" of each flag of a curve of glucose-75g but for gaps.
std::set<std::string> flags(const curve& c, const std::string& slack = "0") {
  std::set<std::string> out;
  for (const flag& f : judge_curve(c, shipped_test("glucose-75g", slack)).flags) {
    CHECK_FALSE(f.reason.empty());
    if (f.id != "gap") out.insert(f.minute ? f.id + " " + f.minute->text() : f.id);
  }
  return out;
}
std::set<std::string> flags(const std::string& samples, const std::string& slack = "0") {
  return flags(curve_of(samples), slack);
}
using these = std::set<std::string>;

curve with_co2(const std::string& samples, std::vector<const char*> co2) {
  curve c = curve_of(samples);
  for (std::size_t i = 0; i < c.size(); ++i)
    if (co2[i] != nullptr) c[i].co2 = number(co2[i]);
  return c;
}

} // namespace

TEST_CASE("high-baseline: over 15 ppm (KW 1988)") {
  CHECK(flags("0:15/9 15:20/9") == these{});
  CHECK(flags("-2:15.1/9 15:20/9") == these{"high-baseline -2"});
}

TEST_CASE("single-early-spike: risen by minute 15, fallen back at the next reading (RUM 1987)") {
  CHECK(flags("0:4/9 15:14/9 30:13.9/9") == these{"single-early-spike 15"});
  CHECK(flags("0:4/9 15:14/9 30:14/9") == these{});
  CHECK(flags("0:4/9 15:13.9/9 30:5/9") == these{});
  CHECK(flags("0:4/9 15.5:14/9 30:5/9") == these{});
  CHECK(flags("0:4/9 15.5:14/9 30:5/9", "0.5") == these{"single-early-spike 15.5"});
  CHECK(flags("0:4/9 15:14/9") == these{});
  CHECK(flags("0:4/9 15:14/9 30:-/9 45:5/9") == these{"single-early-spike 15"});
}

TEST_CASE("flat: H2 at most 3 and CH4 at most 2 throughout (from memory)") {
  CHECK(flags("0:3/2 15:0/0") == these{"flat"});
  CHECK(flags("0:3/2 15:3.1/0") == these{});
  CHECK(flags("0:3/2 15:3/2.1") == these{});
  CHECK(flags("0:3/2") == these{});
  CHECK(flags("0:3/2 15:3/-") == these{});
}

TEST_CASE("falling-methane: 10 ppm or more below the baseline (laboratory's choice)") {
  CHECK(flags("0:9/20 15:9/10 30:9/10") == these{"falling-methane 15"});
  CHECK(flags("0:9/20 15:9/10.1") == these{});
  CHECK(flags("1:9/20 15:9/1") == these{"no-baseline"});
}

TEST_CASE(
    "low-co2: under 2 per cent, every one told, the lowest as its value (laboratory's choice)") {
  CHECK(flags(with_co2("0:9/9 15:9/9 30:9/9", {"2", nullptr, "5.2"})) == these{});
  CHECK(flags(with_co2("0:9/9 15:9/9 30:9/9", {"1.9", "1.4", "1.4"})) == these{"low-co2 15"});
  curve c = with_co2("0:9/9 15:9/9 30:9/9", {"1.9", "4", "1.4"});
  c[2].number = 3;
  CHECK(judge_curve(c, shipped_test("glucose-75g")).flags.front().reason ==
        "CO2 is under 2 %: 1.9 % (minute 0), 1.4 % (tube 3, minute 30); perhaps not alveolar air");
}

TEST_CASE("a gap is a due time that no sample is near, and the last has no end") {
  const test_judging test = shipped_test("glucose-75g");
  const auto gaps = [&](const std::string& samples) {
    std::vector<exact> taken;
    for (const curve_sample& s : curve_of(samples))
      taken.push_back(s.minute);
    std::string out;
    for (const auto due : gaps_of(taken, test.offsets))
      out += std::to_string(due.count()) + " ";
    return out;
  };
  CHECK(gaps("0:1 15:1 30:1 45:1 60:1 75:1 90:1 105:1 120:1 135:1").empty());
  CHECK(gaps("0:1 22.5:1 37.5:1 45:1 60:1 75:1 90:1 105:1 120:1 190:1").empty());
  CHECK(gaps("0:1 7.5:1 22.6:1 45:1 60:1 75:1 90:1 105:1 120:1 127.5:1") == "15 135 ");
}

TEST_CASE("areas of the published series are those worked out by hand (CHLAB)") {
  const curve c = curve_of("0:5/3 30:9/6 60:27/14 90:47/13 120:76/18 150:96/18 180:59/13");
  const curve_area h2 = area_of(c, &curve_sample::h2);
  const curve_area ch4 = area_of(c, &curve_sample::ch4);
  CHECK(*h2.total == Approx(8610));
  CHECK(*h2.above_baseline == Approx(7710));
  CHECK(*ch4.total == Approx(2310));
  CHECK(*ch4.above_baseline == Approx(1770));
}

TEST_CASE("an area leaves missing readings out, keeps its sign, and needs two readings") {
  CHECK(*area_of(curve_of("0:10 15:- 30:4"), &curve_sample::h2).total == Approx(210));
  CHECK(*area_of(curve_of("0:10 30:4"), &curve_sample::h2).above_baseline == Approx(-90));
  CHECK_FALSE(area_of(curve_of("1:10 30:4"), &curve_sample::h2).above_baseline.has_value());
  CHECK_FALSE(area_of(curve_of("0:10 30:-"), &curve_sample::h2).total.has_value());
  CHECK_FALSE(area_of({}, &curve_sample::ch4).total.has_value());
}
