// The figures of the shipped tests themselves: age, sugar, grid, tubes, scale, breath, posting.
// Each is held against the source its rule names, so that a slip of the hand in a file is seen.
#include "tests/unit/protocol/figures.hpp"

#include <map>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

std::vector<int> minutes_of(const std::string& id) {
  std::vector<int> out;
  for (const std::chrono::minutes m : shipped(id).offsets)
    out.push_back(static_cast<int>(m.count()));
  return out;
}

const std::vector<int> quarters{0, 15, 30, 45, 60, 75, 90, 105, 120, 135};
const std::vector<int> half_hours{0, 30, 60, 90, 120, 150, 180};

} // namespace

TEST_CASE("adults-only: from 18 years, with no upper limit (laboratory's choice)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(shipped(id).age_why.rule == "adults-only");
    CHECK(basis_of(id, shipped(id).age_why.source) == "laboratory");
    CHECK(shipped(id).age_from_years == 18);
    CHECK_FALSE(shipped(id).age_to_years.has_value());
  }
}

TEST_CASE("dose: lactulose 10 g, glucose 75 g, lactose 25 g, fructose 25 g (NAC 2017 doses)") {
  const std::map<std::string, int> doses{
      {"lactulose-10g", 10}, {"glucose-75g", 75}, {"lactose-25g", 25}, {"fructose-25g", 25}};
  for (const auto& [id, grams] : doses) {
    INFO(id);
    CHECK(shipped(id).sugar.dose_g == grams);
    CHECK(shipped(id).sugar.why.source == "nac-2017-doses");
    CHECK(basis_of(id, "nac-2017-doses") == "read");
    // They stand in the abstract; table T2 of that paper has none.
    CHECK(contains(find_source(shipped(id), "nac-2017-doses")->citation, "abstract"));
    CHECK(contains(id, shipped(id).sugar.name));
  }
}

TEST_CASE("dose: the smaller glucose test, 50 g (KW 1988)") {
  CHECK(shipped("glucose-50g").sugar.dose_g == 50);
  CHECK(shipped("glucose-50g").sugar.name == "glucose");
  CHECK(shipped("glucose-50g").sugar.why.source == "kw-1988");
  CHECK(basis_of("glucose-50g", "kw-1988") == "read");
}

TEST_CASE("syrup-amount: lactulose 10 g is in 15 ml (label)") {
  const sugar_form& syrup = shipped("lactulose-10g").sugar.forms.front();
  CHECK(syrup.why.rule == "syrup-amount");
  CHECK(syrup.why.source == "lactulose-label");
  CHECK(syrup.form == "syrup");
  CHECK(syrup.amount == 15);
  CHECK(syrup.unit == "ml");
  CHECK(syrup.measure); // a bottle holds more than the dose
}

TEST_CASE("powder-amount: as many grams of powder as the dose has (NAC 2017 doses; KW 1988)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const substrate& sugar = shipped(id).sugar;
    CHECK(sugar.forms.back().why.rule == "powder-amount");
    CHECK(sugar.forms.back().why.source == sugar.why.source);
    CHECK(sugar.forms.back().form == "powder");
    CHECK(sugar.forms.back().amount == sugar.dose_g);
    CHECK(sugar.forms.back().unit == "g");
    CHECK_FALSE(sugar.forms.back().measure);
    CHECK(sugar.forms.size() == (id == "lactulose-10g" ? 2 : 1));
  }
}

TEST_CASE("water-amount: a glass to take the sugar in, 200 or 250 ml (laboratory's choice)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(shipped(id).sugar.water_why.rule == "water-amount");
    CHECK(basis_of(id, shipped(id).sugar.water_why.source) == "laboratory");
    CHECK(shipped(id).sugar.water_ml == (contains(id, "glucose") ? 250 : 200));
  }
}

TEST_CASE("sampling-grid: ten samples, every 15 min, 135 min in all (common practice)") {
  for (const char* id : {"lactulose-10g", "glucose-75g", "glucose-50g"}) {
    INFO(id);
    CHECK(minutes_of(id) == quarters);
    CHECK(basis_of(id, shipped(id).grid_why.source) == "common-practice");
  }
}

TEST_CASE("sampling-grid: lactose and fructose every 30 min to 3 h, seven samples "
          "(NAC 2017, from memory)") {
  for (const char* id : {"lactose-25g", "fructose-25g"}) {
    INFO(id);
    CHECK(minutes_of(id) == half_hours);
    CHECK(shipped(id).grid_why.source == "nac-2017-grid");
    CHECK(basis_of(id, "nac-2017-grid") == "memory");
    CHECK(contains(find_source(shipped(id), "nac-2017-grid")->citation, "from memory"));
  }
}

TEST_CASE("kit-tubes: ten tubes in the box; those after the last sample stay empty "
          "(common practice)") {
  std::set<std::string> letters;
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(shipped(id).kit_why.rule == "kit-tubes");
    CHECK(basis_of(id, shipped(id).kit_why.source) == "common-practice");
    CHECK(shipped(id).tubes_in_kit == 10);
    letters.insert(shipped(id).kit_letters);
  }
  CHECK(letters.size() == shipped_ids().size()); // no two tests share a kit code's letters
}

TEST_CASE("symptom-scale: bloating, pain and nausea, each 0 to 10, and after a sugar that may not "
          "agree wind and loose stool too (common practice)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const protocol& p = shipped(id);
    CHECK(p.scale_why.rule == "symptom-scale");
    CHECK(basis_of(id, p.scale_why.source) == "common-practice");
    CHECK(p.score_least == 0);
    CHECK(p.score_most == 10);
    std::vector<std::string> asked{"bloating", "pain", "nausea"};
    if (is_intolerance(id)) asked.insert(asked.end(), {"wind", "diarrhoea"});
    REQUIRE(p.symptoms.size() == asked.size());
    for (std::size_t i = 0; i < asked.size(); ++i)
      CHECK(p.symptoms[i].id == asked[i]);
  }
}

TEST_CASE("breath-length: blow 3 to 5 s (common practice)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(shipped(id).breath_why.rule == "breath-length");
    CHECK(basis_of(id, shipped(id).breath_why.source) == "common-practice");
    CHECK(shipped(id).breath_least == 3s);
    CHECK(shipped(id).breath_most == 5s);
  }
}

TEST_CASE("post-by: posted within 14 days (common practice)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(shipped(id).posting_why.rule == "post-by");
    CHECK(basis_of(id, shipped(id).posting_why.source) == "common-practice");
    CHECK(shipped(id).post_within == std::chrono::days{14});
  }
}

TEST_CASE("half-hour-bounds: with 30 min between samples, on time is up to 5 min after "
          "(laboratory's choice)") {
  for (const char* id : {"lactose-25g", "fructose-25g"}) {
    INFO(id);
    const protocol& p = shipped(id);
    CHECK(p.bounds_why.rule == "half-hour-bounds");
    CHECK(basis_of(id, p.bounds_why.source) == "laboratory");
    REQUIRE(p.bounds.has_value());
    CHECK(p.bounds->heads_up == 120s);
    CHECK(p.bounds->early == 60s);
    CHECK(p.bounds->on_time == 300s);
    CHECK(p.bounds->last_call == 900s);
    CHECK(p.bounds->lead_in == 5s);
  }
  for (const char* id : {"lactulose-10g", "glucose-75g", "glucose-50g"})
    CHECK_FALSE(shipped(id).bounds.has_value());
}
