// What was told later, as the laboratory reads it: both what stood and what stands, and never a
// word on what it would mean for a result.
#include "core/findings/findings.hpp"
#include "core/sheet/sheet.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

const finding* find(const std::vector<finding>& all, const std::string& rule) {
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const finding& f) { return f.rule == rule; });
  return at == all.end() ? nullptr : &*at;
}

struct said {
  std::string words;
  consequence weight{consequence::note};
  std::vector<std::int64_t> events;
};

said of(const patient& p, const std::string& rule) {
  const auto all = findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  const finding* f = find(all, rule);
  return f == nullptr ? said{} : said{f->words, f->weight, f->events};
}

} // namespace

TEST_CASE("a drink before tube 1 is for the laboratory to weigh, with the time it was told") {
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  p.clock.pass(5min);
  REQUIRE(p.tell(reported_drink{p.clock.wall() - 5min, how_known::estimated}));
  CHECK(of(p, "drink-first").weight == consequence::review);
  CHECK(of(p, "drink-first").words ==
        "the drink was begun before tube 1; its start is the time the tubes count from");
  CHECK(of(p, "drink-told").words == "start of the drink told afterwards (from memory)");
  CHECK(of(p, "sample-missed").words == "tube 1 not taken");
  CHECK(of(p, "drink-late").words.empty());
}

TEST_CASE("what became of the drink says when and how much was kept") {
  patient p;
  p.through_the_drink();
  p.clock.pass(utc("2027-04-06T06:41:00Z") - p.clock.wall());
  REQUIRE(p.tell(reported_drink_trouble{drink_mishap::spilled, drink_part::all,
                                        p.clock.wall() - 60s, how_known::told, "a drop"}));
  CHECK(of(p, "drink-spilled").words ==
        "the drink was spilled at 07:40 (told); all of it was kept: a drop");
  CHECK(of(p, "drink-spilled").weight == consequence::note);
  REQUIRE(p.tell(reported_drink_trouble{drink_mishap::vomited, drink_part::less_than_half,
                                        p.clock.wall(), how_known::estimated, ""}));
  CHECK(of(p, "drink-vomited").words ==
        "the drink was vomited at 07:41 (from memory); less than half was kept");
  CHECK(of(p, "drink-vomited").weight == consequence::review);
}

TEST_CASE("a drink left unfinished is weighed by how much of it was taken") {
  patient p;
  p.through_the_drink();
  CHECK(of(p, "drink-unfinished").words.empty());
  p.clock.pass(utc("2027-04-06T06:41:00Z") - p.clock.wall());
  REQUIRE(p.tell(reported_drink_trouble{drink_mishap::unfinished, drink_part::more_than_half,
                                        p.clock.wall() - 60s, how_known::told, "too sweet"}));
  CHECK(of(p, "drink-unfinished").words ==
        "the drink was not finished at 07:40 (told); more than half was kept: too sweet");
  CHECK(of(p, "drink-unfinished").weight == consequence::review);
  CHECK(of(p, "drink-unfinished").events == std::vector<std::int64_t>{p.keeper.kept.back().seq});
}

TEST_CASE("a correction is told with both values, its reason and both events") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const auto taken = *p.tube(2).taken;
  const std::string before = clock_text(zone_named("Europe/London").civil_at(taken.closed));
  REQUIRE(
      p.tell(corrected{taken.seq, right_time{taken.closed - 2min, how_known::told}, "kitchen"}));
  const std::string after = clock_text(zone_named("Europe/London").civil_at(taken.closed - 2min));
  CHECK(of(p, "corrected").words ==
        "time of tube 2 corrected from " + before + " to " + after + ": kitchen");
  CHECK(of(p, "corrected").events ==
        std::vector<std::int64_t>{taken.seq, p.current().corrections[0].seq});
  CHECK(of(p, "sample-repeated").words.empty()); // corrected is not blown again
  const sheet_text sheet = sheet_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  CHECK(sheet.rows[1].closed == after);
  // Both stand under the tube they are about.
  REQUIRE(sheet.rows[1].corrections.size() == 1);
  CHECK(sheet.rows[1].corrections[0].find(before) != std::string::npos);
  CHECK(sheet.rows[1].corrections[0].find(after) != std::string::npos);
  CHECK(sheet.rows[1].corrections[0].find("kitchen") != std::string::npos);
}

TEST_CASE("a corrected score stands on the sheet and the first one in its line") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const std::int64_t seq = p.tube(2).symptom_events.back();
  const auto was = p.tube(2).symptoms->scores[0].score;
  REQUIRE(was.has_value());
  REQUIRE(p.tell(corrected{seq, right_score{"bloating", *was + 1}, "a slip"}));
  const sheet_text sheet = sheet_of(p.current(), p.clock.look(), zone_named("Europe/London"));
  CHECK(sheet.rows[1].scores[0] == std::to_string(*was + 1));
  CHECK(of(p, "corrected")
            .words.find("at tube 2 corrected from " + std::to_string(*was) + " to " +
                        std::to_string(*was + 1) + ": a slip") != std::string::npos);
}

TEST_CASE("tubes that were mixed up are for the laboratory to weigh") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  p.sample(3);
  REQUIRE(p.tell(corrected{p.tube(2).taken->seq, right_tube{sample_number(3)}, "mixed up"}));
  CHECK(of(p, "tube-mixed-up").weight == consequence::review);
  CHECK(of(p, "tube-mixed-up").words == "tubes 2 and 3 were swapped: mixed up");
}

TEST_CASE("closings too near each other, scores by somebody else and warning signs are told") {
  patient p;
  p.through_the_drink();
  REQUIRE(p.tell(reported_scorer{false, "my son"}));
  p.score(1);
  p.sample(2);
  CHECK(of(p, "sample-close").words.empty());
  const instant two = p.tube(2).taken->closed;
  p.wait_for(3);
  p.clock.pass(1min);
  REQUIRE(p.tell(reported_breath{sample_number(3), two + 2min, how_known::told}));
  CHECK(of(p, "sample-close").words == "tubes 2 and 3 closed close together");
  CHECK(of(p, "sample-close").weight == consequence::review);
  CHECK(of(p, "scored-for").words ==
        "symptoms at tube 1 scored by somebody for the person (my son)");
  REQUIRE(p.tell(reported_red_flags{sample_number(2), {"pain", "blood"}}));
  CHECK(of(p, "warning-signs").words == "warning signs told at tube 2: pain, blood");
  CHECK(of(p, "warning-signs").weight == consequence::review);
}

TEST_CASE("food told in the test itself is for the laboratory to look at") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const instant eaten = p.clock.wall() - 2min;
  REQUIRE(p.tell(reported_slip{"fast", eaten, how_known::told, "", "meal"}));
  CHECK(of(p, "fast").weight == consequence::review);
  CHECK(of(p, "fast").words.find("I ate something, told for") == 0);
  CHECK(of(p, "fast").words.find(": during the test") != std::string::npos);
}
