// Lot, last day and run: what stands against a kit's tubes besides the breath.
#include "core/receiving/specimens.hpp"

#include "tests/unit/receiving/kits.hpp"

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

received_kit box_of(const kit_supply& supply) {
  received_kit out;
  out.kit = "FV-2071";
  arrival a;
  a.kit = out.kit;
  a.at = told_at();
  a.supply = supply;
  out.arrivals.push_back(a);
  return out;
}

recorded_tubes tested() {
  recorded_tubes out;
  out.tested = test_day();
  return out;
}

std::string rules(const received_kit& kit, const kit_supply& issued) {
  const recorded_tubes told = tested();
  std::string out;
  for (const receiving_finding& f : check_specimens(kit, &told, issued))
    out += f.rule + " ";
  return out;
}

const civil_date before = std::chrono::year{2027} / 4 / 5;

} // namespace

TEST_CASE("the register's lot goes before the box's, and the box's stands where there is none") {
  CHECK(supply_of(box_of({"L7", {}}), {}).lot == "L7");
  const kit_supply both = supply_of(box_of({"L7", before}), {"L8", {}});
  CHECK(both.lot == "L8");
  CHECK(both.expires == before);
  CHECK(supply_of(received_kit{}, {}).lot.empty());
}

TEST_CASE("another lot on the box than the kit was issued of is told, and so is another last day") {
  CHECK(rules(box_of({"L7", {}}), {"L7", test_day()}).empty());
  CHECK(rules(box_of({"L7", {}}), {"L8", test_day()}) == "lot-differs ");
  CHECK(rules(box_of({"L7", std::chrono::year{2027} / 5 / 1}), {"L7", test_day()}) ==
        "lot-differs ");
}

TEST_CASE("a test after the kit's last day is told; on that day it is well") {
  CHECK(rules(box_of({}), {"L7", test_day()}).empty());
  CHECK(rules(box_of({}), {"L7", before}) == "kit-expiry ");
  CHECK(rules(box_of({"", before}), {}) == "kit-expiry ");
  CHECK(check_specimens(box_of({"", before}), nullptr, {}).empty());
}

TEST_CASE(
    "a tube that was measured in a run whose control failed is told, if that reading counts") {
  received_kit kit;
  for (int n = 1; n <= 2; ++n) {
    gas_reading r;
    r.kit = "FV-2071";
    r.sample = 4;
    r.h2_ppm = exact(n);
    r.of = {"R-" + std::to_string(n), "", "", n == 1 ? "failed" : "passed"};
    r.mark.entry = n;
    kit.readings.push_back(r);
  }
  const auto found = check_specimens(kit, nullptr, {});
  REQUIRE(found.size() == 1);
  CHECK(found.front().rule == "control-failed");
  CHECK_THAT(found.front().words, Contains("tube 4") && Contains("(R-1)"));
  kit.choices.push_back({4, 2, "Dr Osk", "the control failed", told_at()});
  CHECK(check_specimens(kit, nullptr, {}).empty());
}
