// Where a protocol asks that the breath is held before it is blown, the guide waits for it.
#include "core/findings/findings.hpp"
#include "tests/unit/session/at_the_sugar.hpp"

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

// The shipped test whose breath is held for that many seconds first.
std::string held_for(const std::string& seconds) {
  std::string text = lactulose_text();
  const std::string breath = "\"breath\":{";
  QB_BELIEVE(text.find(breath) != std::string::npos);
  return text.insert(text.find(breath) + breath.size(),
                     R"("hold":{"rule":"breath-hold","seconds":)" + seconds +
                         R"(,"source":"kit-practice"},)");
}

// Somebody who has just begun tube 1 of that test.
struct at_tube_1 : patient {
  at_tube_1() {
    const std::string text = held_for("15");
    const protocol rules = read_protocol(text).value();
    QB_BELIEVE(tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
    QB_BELIEVE(tell(invented_person()));
    QB_BELIEVE(tell(plan_made{text, rules.sugar.forms.back().form,
                              make_plan(rules, start, zone_named("Europe/London")).value()}));
    pass_the_gate();
    score(1);
    QB_BELIEVE(tell(breath_begun{sample_number(1)}));
  }
};

} // namespace

TEST_CASE(
    "a protocol says with its source how long a breath is held; the shipped ones say nothing") {
  const auto held = read_protocol(held_for("15"));
  REQUIRE(held.has_value());
  CHECK(held->breath_hold == 15s);
  CHECK(held->hold_why.rule == "breath-hold");
  CHECK(find_source(*held, held->hold_why.source) != nullptr);
  for (const char* wrong : {"0", "61", "\"15\""})
    CHECK_FALSE(read_protocol(held_for(wrong)).has_value());
  for (const std::string& id : shipped_ids()) {
    CHECK(shipped(id).breath_hold == 0s);
    CHECK(shipped(id).hold_why.rule.empty());
  }
}

TEST_CASE(
    "between the straw and the blowing the breath is held, for as long as the protocol says") {
  at_tube_1 p;
  const std::chrono::seconds lead_in = fenwick().bounds.lead_in;
  CHECK(p.now().what == step::lead_in);
  CHECK(p.now().phase_left == duration{lead_in});
  p.clock.pass(lead_in);
  CHECK(p.now().what == step::hold_breath);
  CHECK(p.now().phase_length == duration{15s});
  p.clock.pass(14s);
  CHECK(p.now().phase_left == duration{1s});
  CHECK(p.now().next_change == duration{1s});
  p.clock.pass(1s);
  CHECK(p.now().what == step::blowing);
  CHECK(p.now().phase_left == duration{lactulose().breath_most});
  p.clock.pass(lactulose().breath_most);
  CHECK(p.now().what == step::close);
}

TEST_CASE("what was held is not counted as blown") {
  at_tube_1 p;
  const std::chrono::seconds to_blow = fenwick().bounds.lead_in + 15s;
  p.clock.pass(to_blow + lactulose().breath_least - 1s);
  CHECK(p.refused(tube_closed{sample_number(1)}) == "no.too-short");
  p.clock.pass(1s);
  REQUIRE(p.tell(tube_closed{sample_number(1)}));
  CHECK_FALSE(p.tube(1).taken->guide_end.has_value()); // closed before the guide said so
  REQUIRE(p.tell(repeat_wanted{sample_number(1), "lid"}));
  REQUIRE(p.tell(breath_begun{sample_number(1)}));
  p.clock.pass(to_blow + lactulose().breath_most + 2s);
  REQUIRE(p.tell(tube_closed{sample_number(1)}));
  CHECK(p.tube(1).taken->guide_end == p.clock.wall() - 2s);
  const auto found = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  CHECK(std::none_of(found.begin(), found.end(),
                     [](const finding& f) { return f.rule == "breath-short"; }));
}
