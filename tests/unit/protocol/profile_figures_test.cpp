// The invented laboratory's own choices, each with its rule and how it is known.
// No publication makes them for a laboratory, so each says that it is a choice or common practice.
#include "tests/support/repository.hpp"
#include "tests/unit/protocol/figures.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>

using namespace qb;
using namespace qb::test;

namespace {

std::string basis_in_profile(const rule_ref& why) {
  const auto& all = fenwick().sources;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const source& s) { return s.id == why.source; });
  return found == all.end() ? "" : found->basis;
}

} // namespace

TEST_CASE("both invented laboratories say so, and can be reached as real ones must") {
  for (const char* id : {"fenwick-vale", "fenwick-vale-kiosk"}) {
    INFO(id);
    const auto lab =
        read_profile(source_file(std::string("assets/laboratories/") + id + ".json")).value();
    CHECK(lab.for_trying);
    CHECK(lab.emergency == "112");
    CHECK(lab.emergency_country == "GB");
    REQUIRE(lab.opening_hours.size() == 1);
    CHECK(lab.opening_hours[0].days == std::set<int>{1, 2, 3, 4, 5});
    CHECK(lab.opening_hours[0].from == 8h + 30min);
    CHECK(lab.opening_hours[0].until == 16h + 30min);
    CHECK(lab.telephone_hours == "Monday to Friday, 8:30 to 16:30");
    CHECK(contains(lab.outside_hours, "In danger, call the emergency number."));
  }
}

TEST_CASE("time-zero: minutes count from tube 1 closed (laboratory's choice)") {
  CHECK(fenwick().time_zero_why.rule == "time-zero");
  CHECK(basis_in_profile(fenwick().time_zero_why) == "laboratory");
  CHECK(fenwick().zero == time_zero::tube_1_closed);
}

TEST_CASE("window-slack: a sample counts up to 3 min past a window (laboratory's choice)") {
  CHECK(fenwick().slack_why.rule == "window-slack");
  CHECK(basis_in_profile(fenwick().slack_why) == "laboratory");
  CHECK(fenwick().window_slack == 3min);
}

TEST_CASE("water-during-test: sips (laboratory's choice)") {
  CHECK(fenwick().water_why.rule == "water-during-test");
  CHECK(basis_in_profile(fenwick().water_why) == "laboratory");
  CHECK(fenwick().water_during_test == "sips");
}

TEST_CASE("sample-bounds: on time up to 120 s after, last call at 450 s (laboratory's choice)") {
  CHECK(fenwick().bounds_why.rule == "sample-bounds");
  CHECK(basis_in_profile(fenwick().bounds_why) == "laboratory");
  CHECK(fenwick().bounds.heads_up == 120s);
  CHECK(fenwick().bounds.early == 30s);
  CHECK(fenwick().bounds.on_time == 120s);
  CHECK(fenwick().bounds.last_call == 450s);
  CHECK(fenwick().bounds.lead_in == 5s);
  CHECK(fenwick().bounds.last_call_last == 900s);
  CHECK(fenwick().bounds.apart == 300s);
}

TEST_CASE("symptom-rise: 5 points above the first ask the warning signs (laboratory's choice)") {
  CHECK(fenwick().rise_why.rule == "symptom-rise");
  CHECK(basis_in_profile(fenwick().rise_why) == "laboratory");
  CHECK(fenwick().rise == 5);
}

TEST_CASE("drink-bounds: begun and finished within 300 s each (laboratory's choice)") {
  CHECK(fenwick().drink_why.rule == "drink-bounds");
  CHECK(basis_in_profile(fenwick().drink_why) == "laboratory");
  CHECK(fenwick().drink.after_tube_1 == 300s);
  CHECK(fenwick().drink.drink_within == 300s);
}

TEST_CASE("analysis-time: 2 working days from arrival, Monday to Friday (common practice)") {
  CHECK(fenwick().analysis_why.rule == "analysis-time");
  CHECK(basis_in_profile(fenwick().analysis_why) == "common-practice");
  CHECK(fenwick().analysis_working_days == 2);
  CHECK(fenwick().working_days == std::set<int>{1, 2, 3, 4, 5});
}

TEST_CASE("label-match: a label within 1 min of the record (laboratory's choice)") {
  CHECK(fenwick().receiving.label_why.rule == "label-match");
  CHECK(basis_in_profile(fenwick().receiving.label_why) == "laboratory");
  CHECK(fenwick().receiving.label_within == 1min);
}

TEST_CASE("tube-age: a tube is read within 14 days of its closing (laboratory's choice)") {
  CHECK(fenwick().receiving.age_why.rule == "tube-age");
  CHECK(basis_in_profile(fenwick().receiving.age_why) == "laboratory");
  CHECK(fenwick().receiving.tube_age_within == std::chrono::days{14});
}

TEST_CASE("transit-time: at most 5 days on the way (laboratory's choice)") {
  CHECK(fenwick().receiving.transit_why.rule == "transit-time");
  CHECK(basis_in_profile(fenwick().receiving.transit_why) == "laboratory");
  CHECK(fenwick().receiving.transit_within == std::chrono::days{5});
}

TEST_CASE("co2-reference: corrected to 5.0 % of carbon dioxide (PMC5554383)") {
  CHECK(fenwick().receiving.co2_why.rule == "co2-reference");
  CHECK(basis_in_profile(fenwick().receiving.co2_why) == "read");
  CHECK(fenwick().receiving.co2_reference_tenths == 50);
}

TEST_CASE("closed-days: eight of 2027, beside the weekends (laboratory's choice)") {
  CHECK(fenwick().receiving.closed_why.rule == "closed-days");
  CHECK(basis_in_profile(fenwick().receiving.closed_why) == "laboratory");
  CHECK(fenwick().receiving.closed_days.size() == 8);
}

TEST_CASE("label-sheet: the kit's labels are those of 70 x 37 mm (laboratory's choice)") {
  CHECK(fenwick().label_sheet_why.rule == "label-sheet");
  CHECK(basis_in_profile(fenwick().label_sheet_why) == "laboratory");
  CHECK(fenwick().label_sheet == "a4-70x37");
}

TEST_CASE("kiosk: erased after a hand-over, or after 72 h with 15 min notice (its choice)") {
  CHECK_FALSE(fenwick().kiosk.has_value());
  std::ifstream in(repository() + "/assets/laboratories/fenwick-vale-kiosk.json");
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const auto shared = read_profile(text).value();
  CHECK(shared.kiosk_why.rule == "kiosk");
  CHECK(shared.kiosk_why.source == "laboratory-choice");
  REQUIRE(shared.kiosk.has_value());
  CHECK(shared.kiosk->erase_after_handover);
  CHECK(shared.kiosk->unhanded_after == 72h);
  CHECK(shared.kiosk->notice == 15min);
}

TEST_CASE("co2-bounds: under 2.0 % a tube decides nothing, nor beyond a factor of 2.5 "
          "(laboratory's choice)") {
  REQUIRE(fenwick().judging.co2);
  const co2_bounds& bounds = *fenwick().judging.co2;
  CHECK(bounds.why.rule == "co2-bounds");
  CHECK(bounds.least_tenths == 20);
  CHECK(bounds.most_factor_tenths == 25);
  CHECK(basis_in_profile(bounds.why) == "laboratory");
}

TEST_CASE("substrate-lost: vomited within 60 min of the drink's start (laboratory's choice)") {
  REQUIRE(fenwick().judging.substrate);
  CHECK(fenwick().judging.substrate->why.rule == "substrate-lost");
  CHECK(fenwick().judging.substrate->vomited_within == 60min);
  CHECK(basis_in_profile(fenwick().judging.substrate->why) == "laboratory");
}

TEST_CASE("plausible-changes: half a minute, 3 ppm or a tenth of one reading, 20 ppm above both "
          "neighbours (inferred from RUM 1987)") {
  REQUIRE(fenwick().judging.plausible);
  const plausible_changes& plausible = *fenwick().judging.plausible;
  CHECK(plausible.why.rule == "plausible-changes");
  CHECK(plausible.clock == 30s);
  CHECK(plausible.reading_ppm == 3);
  CHECK(plausible.reading_permille == 100);
  CHECK(plausible.outlier_ppm == 20);
  CHECK(basis_in_profile(plausible.why) == "inferred");
}

TEST_CASE("retention: ten years after the last conclusion (laboratory's choice)") {
  CHECK(fenwick().retention_why.rule == "retention");
  CHECK(fenwick().retention == std::chrono::years{10});
  CHECK(basis_in_profile(fenwick().retention_why) == "laboratory");
}
