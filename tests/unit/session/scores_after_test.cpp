// Scores that belong to no tube: asked after the last one, offered later the same day, never in the
// way of anything.
#include "core/findings/findings.hpp"
#include "core/session/scores_after.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

constexpr score_time first = score_time::after_last;
constexpr score_time later = score_time::later;

// Ten tubes with their labels and scores, each at its time; 15 min to the scores after them, and
// 240 min from the drink to the later ones.
void through_the_tubes(patient& p, bool asks = true) {
  p.scores_after = asks;
  p.through_the_tubes();
}

reported_symptoms_after scored(score_time t, int bloating) {
  return {t, {{"bloating", bloating}, {"pain", 1}}, ""};
}

void pass_to(patient& p, const char* time) {
  p.clock.pass(utc(time) - p.clock.wall());
}

bool is_found(const patient& p, const std::string& rule) {
  const auto all = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  return std::any_of(all.begin(), all.end(), [&](const finding& f) { return f.rule == rule; });
}

} // namespace

TEST_CASE("a protocol that asks for no scores after the tubes ends with the last one") {
  patient p;
  through_the_tubes(p, false);
  CHECK(p.now().what == step::finish);
  CHECK_FALSE(p.now().after.has_value());
  CHECK(p.refused(scored(first, 1)) == "no.scores-after");
  CHECK(p.refused(scored(later, 1)) == "no.scores-after");
  p.clock.pass(24h);
  CHECK_FALSE(is_found(p, "scores-after-missing"));
}

TEST_CASE("after the last tube its time is waited for, and said with its end; then it is asked") {
  patient p;
  through_the_tubes(p);
  const now_answer waits = p.now();
  CHECK(waits.what == step::rest);
  CHECK(waits.after == first);
  CHECK_FALSE(waits.sample.has_value());
  REQUIRE(waits.to_due.has_value());
  // 150 min after tube 1 by the grid; until the later ones are due.
  CHECK(*waits.to_due == duration{150min} - p.current().grid->at(p.clock.look()).length);
  CHECK(*waits.to_last_call - *waits.to_due ==
        *due_since_anchor(p.current(), later) - duration{150min});
  CHECK(waits.next_change == waits.to_due);
  CHECK(p.refused(scored(first, 1)) == "no.scores-early");
  p.clock.pass(*waits.to_due);
  CHECK(p.now().what == step::symptoms_after);
  CHECK(p.refused(reported_symptoms_after{first, {{"hunger", 1}}, ""}) == "no.symptom");
  CHECK(p.refused(scored(first, 11)) == "no.score");
  REQUIRE(p.tell(scored(first, 2)));
  CHECK(p.now().what == step::finish);
  CHECK(p.now().after == later);
  CHECK(p.current().of(first).at->wall == p.clock.wall());
}

TEST_CASE("scores after the last tube are put off at any moment, and nothing is blocked by them") {
  patient p;
  through_the_tubes(p);
  REQUIRE(p.now().what == step::rest);
  REQUIRE(p.tell(exported{})); // whoever hands over meanwhile may
  REQUIRE(p.tell(reported_symptoms_after{first, {}, ""}));
  CHECK(p.now().what == step::finish);
  CHECK(p.current().exported_at.has_value()); // nothing was given that it does not have
  CHECK_FALSE(p.current().of(first).given());
  pass_to(p, "2027-04-06T09:30:00Z");
  CHECK(is_found(p, "scores-after-missing"));
  // Given after all, by whoever tells it.
  REQUIRE(p.tell(scored(first, 2)));
  CHECK(p.current().of(first).given());
  CHECK_FALSE(is_found(p, "scores-after-missing"));
  REQUIRE(p.tell(reported_symptoms_after{first, {}, ""}));
  CHECK(p.current().of(first).given()); // what was given is not put off any more
}

TEST_CASE("later scores are offered beside the hand-over, and it is wanted again with them") {
  patient p;
  through_the_tubes(p);
  REQUIRE(p.tell(reported_symptoms_after{first, {}, ""}));
  CHECK(p.refused(scored(later, 1)) == "no.scores-early");
  REQUIRE(p.tell(exported{}));
  const now_answer before = p.now();
  CHECK(before.what == step::finish);
  CHECK(before.after == later);
  p.clock.pass(*before.to_due);
  CHECK(p.now().what == step::finish); // never a step of its own
  CHECK(*p.now().to_due == duration{0});
  CHECK(p.current().exported_at.has_value());
  REQUIRE(p.tell(scored(later, 4)));
  CHECK_FALSE(p.current().exported_at.has_value());
  CHECK_FALSE(p.now().after.has_value());
  CHECK(p.now().what == step::finish);
}

TEST_CASE(
    "scores after the last tube are asked until the later ones are due, these until midnight") {
  patient p;
  through_the_tubes(p);
  p.clock.pass(*p.now().to_last_call - duration{1});
  CHECK(p.now().what == step::symptoms_after);
  CHECK(p.now().next_change == duration{1});
  p.clock.pass(1ms);
  CHECK(p.now().what == step::finish);
  CHECK(p.now().after == later);
  pass_to(p, "2027-04-06T22:59:59Z"); // 23:59:59 in London
  CHECK(p.now().after == later);
  CHECK(p.now().next_change == duration{1s});
  p.clock.pass(1s);
  CHECK_FALSE(p.now().after.has_value());
  CHECK_FALSE(p.now().next_change.has_value());
}

TEST_CASE("a clock that is set moves neither time") {
  patient p;
  through_the_tubes(p);
  const duration left = *p.now().to_due;
  p.clock.step(-30min);
  CHECK(*p.now().to_due == left);
  p.clock.pass(left);
  CHECK(p.now().what == step::symptoms_after);
  REQUIRE(p.tell(scored(first, 1)));
  const duration to_later = *p.now().to_due;
  p.clock.step(45min);
  CHECK(*p.now().to_due == to_later);
}

TEST_CASE("a test that ended early asks for no scores after its tubes") {
  patient p;
  p.scores_after = true;
  p.through_the_drink();
  REQUIRE(p.tell(test_ended{"stopped"}));
  p.clock.pass(6h);
  CHECK(p.now().what == step::finish);
  CHECK_FALSE(p.now().after.has_value());
  CHECK(p.refused(scored(later, 1)) == "no.ended");
  CHECK_FALSE(is_found(p, "scores-after-missing"));
}

TEST_CASE("a marked rise or a high level after the tubes asks for the warning signs") {
  patient p;
  through_the_tubes(p); // every tube scored 1
  p.clock.pass(*p.now().to_due);
  SECTION("five points above the first score") {
    REQUIRE(p.tell(scored(first, 6)));
    const now_answer asked = p.now();
    CHECK(asked.what == step::red_flags);
    CHECK(asked.after == first);
    CHECK(asked.sample == sample_number(10));
    REQUIRE(p.tell(reported_red_flags{sample_number(10), {}, first}));
    CHECK(p.now().what == step::finish);
    CHECK_FALSE(p.tube(10).red_flags.has_value()); // it is not the tube's
    // The same height is not asked about twice, a higher one is.
    p.clock.pass(*p.now().to_due);
    REQUIRE(p.tell(scored(later, 6)));
    CHECK(p.now().what == step::finish);
    REQUIRE(p.tell(scored(later, 7)));
    CHECK(p.now().what == step::red_flags);
    CHECK(p.now().after == later);
    REQUIRE(p.tell(reported_red_flags{sample_number(10), {"pain"}, later}));
    CHECK(p.now().what == step::unwell);
    CHECK(is_found(p, "warning-signs"));
  }
  SECTION("four points do not") {
    REQUIRE(p.tell(scored(first, 5)));
    CHECK(p.now().what == step::finish);
  }
  SECTION("a level alone does, wherever it began") {
    REQUIRE(p.tell(reported_symptoms_after{first, {{"nausea", 9}}, ""}));
    CHECK(p.now().what == step::red_flags);
  }
}

TEST_CASE("a score after the tubes is put right like that of a tube") {
  patient p;
  through_the_tubes(p);
  p.clock.pass(*p.now().to_due);
  REQUIRE(p.tell(scored(first, 2)));
  const std::int64_t told = p.keeper.kept.back().seq;
  REQUIRE(p.tell(exported{}));
  REQUIRE(p.tell(corrected{told, right_score{"bloating", 4}, "pressed the wrong one"}));
  CHECK(p.current().of(first).told->scores[0].score == 4);
  CHECK_FALSE(p.current().exported_at.has_value());
  REQUIRE(p.current().corrections.size() == 1);
  const noted_correction& c = p.current().corrections[0];
  CHECK(c.after == first);
  CHECK_FALSE(c.sample.has_value());
  CHECK(c.score_was == 2);
  // A later correction may name the correction, as with a tube's.
  REQUIRE(p.tell(corrected{p.keeper.kept.back().seq, right_score{"pain", std::nullopt}, "no"}));
  CHECK_FALSE(p.current().of(first).told->scores[1].score.has_value());
  CHECK(p.refused(corrected{told, right_score{"bloating", 11}, "x"}) == "no.score");
  // What was put off is nothing to correct.
  REQUIRE(p.tell(reported_symptoms_after{later, {}, ""}));
  CHECK(p.refused(corrected{p.keeper.kept.back().seq, right_score{"pain", 1}, "x"}) ==
        "no.nothing-to-correct");
}

TEST_CASE("who gave the scores after the tubes stands with them") {
  patient p;
  through_the_tubes(p);
  p.clock.pass(*p.now().to_due);
  REQUIRE(p.tell(reported_scorer{false, "my son"}));
  REQUIRE(p.tell(scored(first, 2)));
  const auto all = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  const auto found =
      std::find_if(all.begin(), all.end(), [](const finding& f) { return f.rule == "scored-for"; });
  REQUIRE(found != all.end());
  CHECK(found->words == "symptoms after the last tube scored by somebody for the person (my son)");
}
