// Figures that a slip of the hand turns into harm: which are usual, which need a name, which nobody
// may offer. The ranges are those of assets/figures/sugars.json; what is asked here is that the
// doses of Rezaie et al. 2017 are usual and that ten and fifty times as much is never allowed.
#include "core/protocol/figures.hpp"

#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

figure_rules shipped_rules() {
  return read_figure_rules(source_file("assets/figures/sugars.json")).value();
}

std::string first_of(const protocol& p) {
  const auto odd = odd_figures(p, shipped_rules());
  return odd.empty() ? "" : odd.front().rule + ": " + odd.front().found;
}

} // namespace

TEST_CASE("the figures of every shipped test and of the laboratory's own are usual or confirmed") {
  std::vector<std::string> files{"demo-data/protocols/fenwick-vale-long.json"};
  for (const std::string& id : shipped_ids())
    files.push_back("assets/protocols/" + id + ".json");
  for (const std::string& file : files) {
    CAPTURE(file);
    CHECK(check_figures(read_protocol(source_file(file)).value(), shipped_rules()));
  }
}

TEST_CASE("fifty times the dose is refused, whoever confirms it") {
  protocol p = lactulose();
  p.sugar.dose_g = 500;
  p.confirmed.push_back({"dose", "Dr Ivo Brandreth"});
  const auto no = check_figures(p, shipped_rules());
  REQUIRE_FALSE(no);
  CHECK(no.error().kind == refusal_kind::out_of_range);
  CHECK(no.error().where == "dose");
  CHECK(no.error().found == "500 g of lactulose");
  CHECK(no.error().expected == "10 (nac-2017-doses); nobody may confirm this");
}

TEST_CASE("a dose that is allowed and not usual is offered once somebody stands for it") {
  protocol p = lactulose();
  p.sugar.dose_g = 20;
  for (sugar_form& form : p.sugar.forms)
    form.amount *= 2;
  const auto no = check_figures(p, shipped_rules());
  REQUIRE_FALSE(no);
  CHECK_THAT(no.error().expected, Contains("confirmed by name"));
  p.confirmed.push_back({"dose", "Dr Ivo Brandreth"});
  CHECK(check_figures(p, shipped_rules()));
}

TEST_CASE("the parts of a dose agree with each other") {
  for (const auto& [unit, amount] : {std::pair{"ml", 1000}, {"ml", 3}, {"g", 9}, {"g", 100}}) {
    CAPTURE(unit, amount);
    protocol p = lactulose();
    for (sugar_form& form : p.sugar.forms)
      if (form.unit == unit) form.amount = amount;
    CHECK_THAT(first_of(p), Contains(std::to_string(amount) + " " + unit));
    CHECK_FALSE(odd_figures(p, shipped_rules()).front().allowed);
  }
}

TEST_CASE("water, grid and fast are held against what is usual too") {
  protocol p = lactulose();
  p.sugar.water_ml = 1000;
  CHECK(first_of(p) == "water-amount: 1000 ml of water");
  p = lactulose();
  p.offsets.back() = std::chrono::minutes{1440};
  CHECK(first_of(p) == "sampling-grid: 1440 min to the last tube");
  p = lactulose();
  p.offsets[1] = std::chrono::minutes{1};
  CHECK(first_of(p) == "sampling-grid: 1 min between two tubes");
  p = lactulose();
  for (preparation_window& w : p.windows)
    if (w.why.rule == "fast") w.from = std::chrono::hours{48};
  CHECK(first_of(p) == "fast: 2880 min without food");
  p = lactulose();
  std::erase_if(p.windows, [](const preparation_window& w) { return w.why.rule == "fast"; });
  CHECK(first_of(p) == "fast: 0 min without food");
}

TEST_CASE("a sugar that is not listed is always confirmed by name") {
  protocol p = lactulose();
  p.sugar.name = "sorbitol";
  CHECK(first_of(p) == "dose: 10 g of sorbitol");
  p.confirmed = {{"dose", "Dr Ivo Brandreth"}};
  for (const sugar_form& form : p.sugar.forms)
    p.confirmed.push_back({form.why.rule, "Dr Ivo Brandreth"});
  CHECK(first_of(p).empty());
}

TEST_CASE("a confirmation is read with the file") {
  std::string text = lactulose_text();
  text.insert(1, "\"confirmed\":[{\"rule\":\"dose\",\"by\":\"Dr Ivo Brandreth\"}],");
  const auto read = read_protocol(text);
  REQUIRE(read.has_value());
  REQUIRE(read->confirmed.size() == 1);
  CHECK(read->confirmed[0].by == "Dr Ivo Brandreth");
}

TEST_CASE("ranges that contradict themselves are refused by line and field") {
  const std::string good = source_file("assets/figures/sugars.json");
  CHECK(read_figure_rules(good).has_value());
  for (const auto& [old, instead] : {std::pair{"\"usual\": [10, 10]", "\"usual\": [10, 30]"},
                                     {"\"allowed\": [1, 20]", "\"allowed\": [20, 1]"},
                                     {"\"any other\"", "\"sorbitol\""}}) {
    std::string text = good;
    text.replace(text.find(old), std::string(old).size(), instead);
    CAPTURE(instead);
    CHECK_FALSE(read_figure_rules(text).has_value());
  }
}
