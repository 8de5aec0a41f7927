// Figures that a slip of the hand turns into harm: which are usual, which need a name, which nobody
// may offer. The ranges are those of assets/figures/sugars.json; what is asked here is that the
// doses of Rezaie et al. 2017 are usual and that ten and fifty times as much is never allowed.
#include "core/protocol/figures.hpp"

#include "app/assets/assets.hpp"
#include "core/base/json.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <fstream>

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

figure_rules shipped_rules() {
  return load_figure_rules(repository() + "/assets").value();
}

std::string first_of(const protocol& p) {
  const auto odd = odd_figures(p, shipped_rules());
  return odd.empty() ? "" : odd.front().rule + ": " + odd.front().found;
}

} // namespace

TEST_CASE("the figures of every shipped test and of the laboratory's own are usual or confirmed") {
  const std::string assets = repository() + "/assets";
  for (const std::string& id : protocol_ids(assets)) {
    CAPTURE(id);
    CHECK(load_offered_protocol(assets, id).has_value());
  }
  CHECK(load_offered_protocol(assets, repository() + "/demo-data/protocols/fenwick-vale-long.json")
            .has_value());
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

TEST_CASE("a confirmation is read with the file, and a test with an absurd dose is not loaded") {
  const own_folder folder;
  std::string text = lactulose_text();
  const auto at = text.find("\"dose_g\":10");
  REQUIRE(at != std::string::npos);
  text.replace(at, 11, "\"dose_g\":500");
  std::ofstream(folder.file("absurd.json")) << text;
  const std::string assets = repository() + "/assets";
  CHECK(load_protocol(assets, folder.file("absurd.json")).has_value()); // an old record is read
  const auto no = load_offered_protocol(assets, folder.file("absurd.json"));
  REQUIRE_FALSE(no.has_value());
  CHECK(exit_status(no.error()) == 2);
  std::string confirmed = lactulose_text();
  confirmed.insert(1, "\"confirmed\":[{\"rule\":\"dose\",\"by\":\"Dr Ivo Brandreth\"}],");
  const auto read = read_protocol(confirmed);
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
