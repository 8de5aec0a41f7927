// What was kept and what was not, in words that do not accuse.
// The gate, the finish, the sheet and the laboratory all show these, so each is held by its rule.
#include "core/findings/preparation.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

std::vector<finding> found(const patient& p) {
  return findings_of(p.current(), p.clock.look(), zone_named("Europe/London"));
}

// Of a start at that moment, from what was told until now.
std::vector<finding> found_of(const patient& p, instant start) {
  return preparation_found(p.current(), p.clock.look(), start, zone_named("Europe/London"));
}

const finding* find(const std::vector<finding>& all, const std::string& rule) {
  for (const finding& f : all) {
    if (f.rule == rule) return &f;
  }
  return nullptr;
}

// Every question of the preparation answered with "no", so that nothing is left to tell of them.
void answer_all(patient& p) {
  for (const washout& w : lactulose().washouts)
    REQUIRE(p.tell(reported_washout{{w.why.rule, washout_answer::never, std::nullopt, false}, ""}));
  for (const auto* list : {&lactulose().cautions, &lactulose().morning}) {
    for (const caution& c : *list)
      REQUIRE(p.tell(
          reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""}));
  }
}

std::string words_of(const patient& p, const std::string& rule) {
  const auto all = found(p);
  const finding* f = find(all, rule);
  return f == nullptr ? "" : f->words;
}

void whole_test(patient& p) {
  p.through_the_drink(); // with every question answered at the gate
  for (int n = 2; n <= 10; ++n)
    p.sample(n);
}

} // namespace

TEST_CASE("a clean test has nothing to tell") {
  patient p;
  whole_test(p);
  for (const finding& f : found(p))
    FAIL_CHECK(f.words);
  CHECK(found(p).empty());
}

TEST_CASE("food told during the fast names its time and carries the fast's rule") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-05T21:25:00Z") - p.clock.wall());
  REQUIRE(
      p.tell(reported_slip{"fast", utc("2027-04-05T21:10:00Z"), how_known::told, "two biscuits"}));
  CHECK(words_of(p, "fast") == "Water only, told for Monday 22:10 (two biscuits): "
                               "9 h 20 min of 12 h of 'Water only' kept");
  const auto all = found(p);
  CHECK(find(all, "fast")->weight == consequence::note); // NAC 2017 T1: 8 h at least
  CHECK(find(all, "fast")->events == std::vector<std::int64_t>{4});
}

TEST_CASE("every preparation rule of the shipped protocols has its words when a slip is told") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-06T06:00:00Z") - p.clock.wall());
  const auto last_words = [&] {
    std::string out;
    for (const finding& f : found(p)) {
      if (f.words.find("told for") != std::string::npos) out = f.words;
    }
    return out;
  };
  for (const preparation_window& w : lactulose().windows) {
    REQUIRE(p.tell(reported_slip{w.why.rule, p.clock.wall(), how_known::told, ""}));
    INFO(last_words());
    CHECK(last_words().find(w.name + ", told for Tuesday 07:00: ") == 0); // a rule's id is no word
  }
  for (const washout& w : lactulose().washouts) {
    REQUIRE(p.tell(reported_slip{w.why.rule, p.clock.wall(), how_known::told, ""}));
    CHECK(last_words().find(w.name + ", told for Tuesday 07:00: 0 days of ") == 0);
  }
}

TEST_CASE("a late tube is told with how late, a missed one by its number") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.clock.pass(5min);
  p.breathe(2);
  p.label(2);
  p.score(2);
  for (const int n : {3, 4, 5, 6, 8, 9, 10})
    p.sample(n);
  CHECK(words_of(p, "sample-late") == "tube 2 closed 5 min 10 s after its time");
  CHECK(words_of(p, "sample-missed") == "tube 7 not taken");
  const auto all = found(p);
  CHECK(find(all, "sample-late")->figures == std::vector<std::int64_t>{2, 310});
  CHECK(find(all, "sample-late")->sample == sample_number(2));
}

TEST_CASE("a tube told long before its time is said to be early") {
  // The profile: early_s 30.
  patient p;
  p.through_the_drink();
  p.wait_for(3);
  p.clock.pass(8min);
  const instant anchor = p.current().grid->anchor.wall;
  REQUIRE(p.tell(reported_breath{sample_number(2), anchor + 14min + 29s, how_known::told}));
  CHECK(words_of(p, "sample-early") == "tube 2 closed 31 s before its time");
  CHECK(words_of(p, "sample-told") == "time of tube 2 told afterwards");
  REQUIRE(p.tell(reported_breath{sample_number(2), anchor + 14min + 30s, how_known::told}));
  CHECK(words_of(p, "sample-early") == "");
  CHECK(words_of(p, "sample-repeated") == "tube 2 blown again; the last closing counts");
}

TEST_CASE("the drink is told where it is missing, late, slow, unfinished or not all of it") {
  // The profile: begun within 300 s after tube 1, finished within 300 s.
  patient p;
  p.through_tube_1();
  CHECK(words_of(p, "drink-missing") == "no drink recorded");
  p.clock.pass(300s);
  SECTION("just in time") {
    REQUIRE(p.tell(drink_started{}));
    CHECK(words_of(p, "drink-late") == "");
    CHECK(words_of(p, "drink-end-missing") == "end of the drink not recorded");
    p.clock.pass(300s);
    REQUIRE(p.tell(drink_ended{true}));
    CHECK(words_of(p, "drink-slow") == "");
    CHECK(words_of(p, "drink-end-missing") == "");
  }
  SECTION("late, slow and in part") {
    p.clock.pass(1s);
    REQUIRE(p.tell(drink_started{}));
    CHECK(words_of(p, "drink-late") == "drink started 5 min 1 s after tube 1");
    p.clock.pass(301s);
    REQUIRE(p.tell(drink_ended{false}));
    CHECK(words_of(p, "drink-slow") == "drinking took 5 min 1 s");
    CHECK(words_of(p, "drink-partial") == "not all of the drink was taken");
  }
}

TEST_CASE("a start before the planned time is a note, and a review below what is published") {
  // NHS-P: 12 h asked; NAC T1.5: 8 h at least.
  patient p;
  p.open_and_plan();
  answer_all(p);
  const instant start = utc("2027-04-06T06:30:00Z");
  CHECK(found_of(p, start).empty());
  CHECK(found_of(p, start + 3h).empty()); // a longer fast is no breach
  const auto early = found_of(p, start - 4h);
  REQUIRE(find(early, "fast") != nullptr);
  CHECK(find(early, "fast")->weight == consequence::note);
  CHECK(find(early, "fast")->words ==
        "start 4 h before the planned time: 8 h of 'Water only' instead of 12 h");
  const auto too_early = found_of(p, start - 4h - 1s);
  CHECK(find(too_early, "fast")->weight == consequence::review);
}

TEST_CASE("what the clocks did is told, as a note") {
  patient p;
  p.through_the_drink();
  p.clock.step(1h);
  REQUIRE(p.tell(reported_comment{"The telephone rang."}));
  CHECK(words_of(p, "clock-stepped") == "the device's clock was set forward by 1 h");
  CHECK(words_of(p, "comment") == "comment: The telephone rang.");
  p.clock.reboot(1min);
  p.clock.zone_name = "Europe/Paris";
  REQUIRE(p.tell(resumed{}));
  CHECK(words_of(p, "clock-rebooted").find("restarted") != std::string::npos);
  CHECK(words_of(p, "zone-changed") == "the device's time zone was changed");
}

TEST_CASE("a clock that nobody had set by the network at tube 1 is a note at that tube's closing") {
  for (const bool synchronised : {true, false}) {
    CAPTURE(synchronised);
    patient p;
    p.clock.synchronised = synchronised;
    p.through_tube_1();
    p.clock.synchronised = !synchronised; // what it is later does not count
    p.wait_for(2);
    p.breathe(2);
    const auto all = found(p);
    const finding* f = find(all, "clock-unsynchronised");
    REQUIRE((f == nullptr) == synchronised);
    if (f == nullptr) continue;
    CHECK(f->weight == consequence::note);
    CHECK(f->events == std::vector<std::int64_t>{p.tube(1).taken->seq});
    CHECK(f->words == "the device's clock was not known to be synchronised at tube 1");
  }
}

TEST_CASE("feeling unwell and ending are told in the person's words") {
  patient p;
  p.through_the_drink();
  REQUIRE(p.tell(reported_unwell{}));
  REQUIRE(p.tell(test_ended{"unwell"}));
  CHECK(words_of(p, "unwell-told") == "felt unwell");
  CHECK(words_of(p, "test-ended") == "ended by the person before the last tube (unwell)");
}

TEST_CASE("skipped symptoms are a note at their tube and never a zero") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2);
  p.label(2);
  REQUIRE(
      p.tell(reported_symptoms{sample_number(2), {{"bloating", std::nullopt}, {"pain", 0}}, ""}));
  CHECK(words_of(p, "symptoms-missing") == "symptoms at tube 2 not all scored");
}

TEST_CASE("practice is told first of all") {
  patient p;
  REQUIRE(p.tell(opened{"x", "y", true, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  REQUIRE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  REQUIRE_FALSE(found(p).empty());
  CHECK(found(p).front().words == "this is a rehearsal");
}

TEST_CASE("no finding accuses or judges a person's health") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-05T21:25:00Z") - p.clock.wall());
  REQUIRE(p.tell(reported_slip{"fast", p.clock.wall(), how_known::told, ""}));
  p.pass_the_gate();
  p.score(1);
  p.breathe(1);
  p.clock.reboot(20min);
  REQUIRE(p.tell(resumed{}));
  REQUIRE(p.tell(test_ended{"stopped"}));
  REQUIRE(found(p).size() >= 5);
  for (const finding& f : found(p)) {
    for (const char* word : {"fail", "wrong", "error", "violat", "positive", "negative", "should",
                             "must", "you ", "disease"}) {
      INFO(f.words);
      CHECK(f.words.find(word) == std::string::npos);
    }
  }
}

TEST_CASE("lengths and moments read as a person would say them") {
  CHECK(length_in_words(45s) == "45 s");
  CHECK(length_in_words(0s) == "0 s");
  CHECK(length_in_words(185s) == "3 min 5 s");
  CHECK(length_in_words(15min) == "15 min");
  CHECK(length_in_words(90min) == "1 h 30 min");
  CHECK(length_in_words(12h) == "12 h");
  CHECK(length_in_words(-185s - 999ms) == "3 min 5 s");
  const zone& london = zone_named("Europe/London");
  const instant start = utc("2027-04-06T06:30:00Z");
  CHECK(day_and_time(start, start, london) == "Tuesday 07:30");
  CHECK(day_and_time(start - 24h * 6, start, london) == "Wednesday 07:30");
  CHECK(day_and_time(start - 24h * 7, start, london) == "Tuesday 30 March 07:30");
}
