// Each plausible change, on a curve that it alone turns. The shipped laboratory's numbers: times
// off by half a minute, readings by 3 ppm or a tenth, 20 ppm above both neighbours is implausible.
#include "core/curve/judge_symptoms.hpp"
#include "tests/unit/curve/curves.hpp"

using namespace qb;
using namespace qb::test;

namespace {

const std::string h2_90 = "nac-2017-h2-90";
const std::string sugar = "nac-2017-h2-sugar";

firmness firm(const std::string& id, const std::string& samples, const std::string& slack = "0",
              const std::string& test = "glucose-75g") {
  return judged(test, id, samples, slack).how_firm;
}

// "slack cannot-be-determined": each change that turns the answer, with its minute or tube.
std::string turned(const firmness& f) {
  std::string out;
  for (const turn& t : f.turns) {
    out += (out.empty() ? "" : ", ") + std::string(change_text(t.by)) + " " + answer_text(t.to);
    if (t.minute) out += " " + t.minute->text();
    if (t.tube) out += " tube " + std::to_string(*t.tube);
  }
  return out;
}
std::string turned(const std::string& id, const std::string& samples,
                   const std::string& slack = "0", const std::string& test = "glucose-75g") {
  return turned(firm(id, samples, slack, test));
}

const std::string full = "0:4/0 15:5/0 30:5/0 45:5/0 60:5/0 75:5/0 90:5/0 105:5/0 120:5/0 135:5/0";
const std::string risen = "0:4 15:5 30:15 45:30 60:45 75:50 90:50 105:45";

} // namespace

TEST_CASE("a whole clean curve far from every edge is firm, met or not") {
  CHECK(firm(h2_90, risen).firm);
  CHECK(firm(h2_90, full).firm);
  CHECK(firm("nac-2017-ch4", full).firm);
  // Seconds do not undo an answer; the strict minute stands beside it.
  const firmness late = firm(h2_90, "0:4 15.1:5 30.2:5 45.3:5 60.4:5 75.2:5 90.4:5 105.2:5");
  CHECK(late.firm);
  CHECK(late.strict.what == answer::cannot_be_determined);
}

TEST_CASE("what cannot be determined is never firm, nor anything where nothing was tried") {
  CHECK_FALSE(firm(h2_90, "").firm);
  CHECK_FALSE(firm("nac-2017-ch4", "").firm);
  test_judging by = shipped_test("glucose-75g");
  by.terms.plausible.reset();
  const judgement j = judge_curve(as_of_grid(curve_of(full), by), by);
  CHECK(j.criteria.back().how_firm.tried.empty());
  CHECK_FALSE(j.criteria.back().how_firm.firm);
}

TEST_CASE("slack: an answer that rests on the slack is turned without it") {
  CHECK(turned(h2_90, "0:4 15:5 30:5 45:5 60:5 75:5 94:40 105:40", "5") ==
        "slack cannot-be-determined");
  CHECK(turned(h2_90, "0:4 15:5 30:5 45:5 60:5 75:40 94:40 105:40", "5").empty());
}

TEST_CASE("timing: a sample within half a minute of the edge of on time, or of being the last") {
  const std::string low = "0:4 15:5 30:5 45:5 60:5 75:5 ";
  CHECK(turned(h2_90, low + "91.5:40 105:40").empty());
  CHECK(turned(h2_90, low + "91.6:40 105:40") == "timing cannot-be-determined");
  CHECK(turned(h2_90, low + "82.9:5 105:5") == "timing cannot-be-determined");
  CHECK(turned(h2_90, low + "83.1:5 105:5").empty());
  CHECK(turned(h2_90, low + "92.4:40 105:40") == "timing meets"); // now it cannot be told
}

TEST_CASE("timing: times written to the minute may be off by as much besides") {
  const test_judging by = shipped_test("glucose-75g");
  const auto written = [&](const std::string& precision) {
    curve_facts facts;
    facts.precision = number(precision);
    const curve c = as_of_grid(curve_of("0:4 15:5 30:5 45:5 60:5 75:5 91:40 105:40"), by);
    return turned(judge_curve(c, by, facts).criteria.back().how_firm);
  };
  CHECK(written("0.5").empty());
  CHECK(written("1") == "timing cannot-be-determined");
}

TEST_CASE("readings: one of those that make a rise may be off, by 3 ppm or a tenth of it") {
  const std::string low = "0:4 15:5 30:5 45:5 60:5 75:5 ";
  CHECK(turned(h2_90, low + "90:27 105:27").empty()); // 27 may be 24, or 4 may be 7
  CHECK(turned(h2_90, low + "90:26.9 105:27") == "readings does-not-meet");
  CHECK(turned(h2_90, low + "90:21 105:5") == "readings meets"); // it may be 24
  CHECK(turned(h2_90, low + "90:20.9 105:5").empty());
  // Of 94 a tenth is more.
  const std::string high = "0:64 15:65 30:66 45:70 60:75 75:80 ";
  CHECK(turned(h2_90, high + "90:94 105:94").empty());
  CHECK(turned(h2_90, high + "90:93 105:94") == "readings does-not-meet");
  // Of a level too; of H2 + 2 x CH4 methane counts twice.
  const std::string later = " 15:5/5 30:5/5 45:5/5 60:5/5 75:5/5 90:5/5 105:5/5 120:5/5 135:5/5";
  CHECK(turned("nac-2017-ch4", "0:5/7" + later) == "readings meets");
  CHECK(turned("nac-2017-ch4", "0:5/6.9" + later).empty());
  const std::string combined = "hovde-farup-2009-combined";
  const std::string slow = "0:4/1 30:5/1 60:6/1 90:12/1 120:16/1 150:";
  CHECK(turned(combined, slow + "28/1 180:28/1", "0", "lactose-25g").empty()); // 24, less 6
  CHECK(turned(combined, slow + "27.9/1 180:27.9/1", "0", "lactose-25g") ==
        "readings does-not-meet");
}

TEST_CASE("lowest-earlier: a dip before the rise meets from the lowest earlier value only") {
  CHECK(turned(h2_90, "0:20 15:5 30:6 45:10 60:15 75:20 90:25 105:20") == "lowest-earlier meets");
  CHECK(turned(sugar, "0:10 30:9 60:8 90:9 120:10 150:9 180:9", "0", "lactose-25g").empty());
}

TEST_CASE("implausible: a sample that stands out from both its neighbours, and no other") {
  const std::string rest = " 45:5 60:5 75:5 90:5 105:5";
  CHECK(turned(h2_90, "0:4 15:5 30:60" + rest) == "implausible does-not-meet 30");
  CHECK(turned(h2_90, "0:4 15:50 30:60" + rest).empty()); // two that rose say it together
  // The last sample of the window stands out downwards: without it nothing is determined.
  CHECK(turned("nac-2017-h2-90", "0:30 15:30 30:30 45:30 60:30 75:30 90:10 105:30") ==
        "implausible cannot-be-determined 90");
  CHECK(turned("nac-2017-h2-90", "0:29 15:29 30:29 45:29 60:29 75:29 90:10 105:29").empty());
}

TEST_CASE("gap: a sample that is missing before the last might have met it") {
  CHECK(turned(h2_90, "0:4 15:5 30:5 60:5 75:5 82.6:5 90:5") == "gap meets 45");
  CHECK(turned(h2_90, "0:4 15:5 45:30 60:45 75:50 90:50").empty()); // it is met already
}

TEST_CASE("uncorrected, other-reading: by what else is known of the readings") {
  const test_judging by = shipped_test("glucose-75g");
  const curve c = as_of_grid(curve_of(risen), by);
  const curve low = as_of_grid(curve_of(full), by);
  curve_facts facts;
  facts.otherwise.second = {{7, low}, {8, c}};
  CHECK(turned(judge_curve(c, by, facts).criteria.back().how_firm) ==
        "other-reading does-not-meet tube 7");
  facts.otherwise.second.clear();
  facts.otherwise.uncorrected = low;
  CHECK(turned(judge_curve(c, by, facts).criteria.back().how_firm) == "uncorrected does-not-meet");
}

TEST_CASE("low-co2: what decides and is low by a flag's figure says so, and its lack turns it") {
  test_judging by = shipped_test("glucose-75g");
  by.terms.co2_least = exact(1); // under the flag's 2 per cent
  curve c = as_of_grid(curve_of("0:4 15:5 30:45 45:48 60:9 75:9 90:9 105:9"), by);
  const auto h2 = [&] { return judge_curve(c, by).criteria.back(); };
  c[2].co2 = number("1.9");
  CHECK(turned(h2().how_firm).empty()); // the other of the two has it
  CHECK(*h2().low_co2 == number("1.9"));
  c[3].co2 = number("1.4");
  CHECK(turned(h2().how_firm) == "low-co2 does-not-meet");
}

TEST_CASE("another published criterion is named with the dose it was published for") {
  const auto one = judged("glucose-75g", h2_90, "0:4 15:5 30:9 45:12 60:18 75:17 90:17 120:20");
  REQUIRE(one.how_firm.others.size() == 1);
  CHECK(one.how_firm.others.front().by->id == "kerlin-wong-1988-h2-12");
  CHECK(one.how_firm.others.front().by->published_for == "glucose 50 g");
  CHECK(said(one.how_firm.others.front().says) == "meets 60 14");
  CHECK(one.how_firm.firm); // that other takes no firmness away
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
