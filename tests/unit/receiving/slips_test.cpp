// Slips while receiving: sheets that replace another, drinks that cannot be, readings too early.
#include "core/receiving/slips.hpp"

#include "core/receiving/readings.hpp"
#include "tests/unit/case/cases.hpp"

#include <algorithm>

using namespace qb;
using std::chrono::minutes;

namespace {

paper_record morning() {
  paper_record p;
  p.kit = "FV-3002";
  p.protocol = "lactulose-10g";
  p.day = parse_date("2027-04-05").value();
  p.times = {minutes{450}, minutes{465}, std::nullopt, minutes{495}};
  p.drink = {minutes{452}, minutes{454}};
  return p;
}

std::string rules_of(const std::vector<receiving_finding>& all) {
  std::string out;
  for (const receiving_finding& f : all)
    out += f.rule + " ";
  return out;
}

} // namespace

TEST_CASE(
    "a drink is doubted after the last tube, well before the first, and where it ends early") {
  const drink_bounds five{std::chrono::minutes{5}, std::chrono::minutes{5}};
  paper_record p = morning();
  CHECK_FALSE(drink_slip(p, five));
  p.drink.start = minutes{445}; // as long before tube 1 as it may begin after it
  CHECK_FALSE(drink_slip(p, five));
  p.drink.start = minutes{444};
  CHECK(drink_slip(p, five) == "the drink began at 07:24, well before tube 1 at 07:30");
  p.drink = {minutes{496}, std::nullopt};
  CHECK(drink_slip(p, five) == "the drink began at 08:16, after tube 4 at 08:15");
  p.drink = {minutes{495}, minutes{494}};
  CHECK(drink_slip(p, five) == "the drink ended at 08:14, before it began at 08:15");
  p.drink = {};
  CHECK_FALSE(drink_slip(p, five));
}

TEST_CASE("a drink of an evening that goes past midnight is held against the same line") {
  const drink_bounds five{std::chrono::minutes{5}, std::chrono::minutes{5}};
  paper_record p = morning();
  p.past_midnight = true;
  p.times = {minutes{1430}, minutes{5}, minutes{20}, minutes{35}};
  p.drink = {minutes{1432}, minutes{2}};
  CHECK_FALSE(drink_slip(p, five));
  p.drink.end = minutes{36};
  CHECK(drink_slip(p, five) == "the drink ended at 00:36, after tube 4 at 00:35");
}

TEST_CASE("the findings of slips are shipped rules of this laboratory's choice") {
  const case_rules rules = test::house_rules();
  received_kit kit;
  kit.kit = "FV-3002";
  kit.papers = {morning(), morning()};
  const zone utc = zone::fixed("UTC", std::chrono::seconds{0});
  const auto check = [&](bool by_paper) {
    const recorded_tubes told = recorded_tubes_of(kit.papers.back());
    return rules_of(check_slips(kit, &told, by_paper, rules.profile, utc));
  };
  CHECK(check(true).empty()); // twice the same sheet
  kit.papers.back().day = parse_date("2027-04-06").value();
  kit.papers.back().drink.start = minutes{600};
  CHECK(sheet_differences(kit.papers[0], kit.papers[1]) == "day, drink");
  gas_reading r;
  r.measured_at = "2027-04-05T10:00:15";
  kit.readings = {r};
  CHECK(check(true) == "drink-unlikely paper-replaced reading-early ");
  CHECK(check(false) == "reading-early ");
  for (const char* rule : {"drink-unlikely", "paper-replaced", "reading-early"}) {
    CAPTURE(rule);
    const finding_rule* shipped = find_rule(rules.findings, rule);
    REQUIRE(shipped != nullptr);
    CHECK(shipped->source == "laboratory-choice");
    CHECK(shipped->weight == consequence::review);
  }
}

TEST_CASE("a label of ours is a kit's number and two digits of a tube") {
  CHECK(read_tube_label("fv-2082-03")->kit == "FV-2082");
  CHECK(read_tube_label("FV-ACDE-10")->sample == 10);
  for (const char* none : {"FV-2082", "FV-2082-3", "FV-2082-00", "FV-2082-003", "2082-03", "-03",
                           "Odile-Marchbank-03"}) {
    CAPTURE(none);
    CHECK_FALSE(read_tube_label(none).has_value());
  }
}
