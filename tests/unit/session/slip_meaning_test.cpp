// What a slip means: held against sentences as the trade says them, with the protocol's figures.
// The plan of these tests starts on Tuesday 6 April 2027 at 07:30 in London.
#include "core/session/slip_meaning.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const zone& london() {
  return zone_named("Europe/London");
}

reported_slip told(const std::string& rule, const std::string& when,
                   const std::string& subject = "") {
  return {rule, local(when, "Europe/London"), how_known::told, "", subject};
}

// Judged at the start as planned.
slip_meaning at_plan(const reported_slip& slip) {
  patient p;
  p.open_and_plan();
  return meaning_of(p.current(), slip, p.clock.look(), london());
}

} // namespace

TEST_CASE("a meal at 21:30 leaves 10 h of 12 h before a start at 07:30: tell the laboratory") {
  // fast: 12 h asked (NHS 8611), 8 h at least (NAC 2017 T1).
  const slip_meaning m = at_plan(told("fast", "2027-04-05 21:30", "meal"));
  CHECK(m.rule == "fast");
  CHECK(*m.kept == 10h);
  CHECK(m.asked == 12h);
  CHECK(m.least == 8h);
  CHECK(m.weight == consequence::note);
  CHECK(*m.full_from == local("2027-04-06 09:30", "Europe/London"));
}

TEST_CASE("at 7 h of the fast it is below the published least: no start unless they agree") {
  // fast: 8 h at least (NAC 2017 T1).
  CHECK(at_plan(told("fast", "2027-04-06 00:30")).weight == consequence::review);
  CHECK(at_plan(told("fast", "2027-04-05 23:30")).weight == consequence::note); // 8 h just serve
}

TEST_CASE("an antibiotic 20 days ago breaks rule antibiotics (NAC 2017 T1)") {
  const slip_meaning m = at_plan(told("antibiotics", "2027-03-17 20:00"));
  CHECK(m.rule == "antibiotics");
  CHECK(m.in_days);
  CHECK(span_in_words(*m.kept, true) == "20 days");
  CHECK(span_in_words(m.asked, true) == "28 days");
  CHECK(m.weight == consequence::review);
  CHECK(*m.full_from == local("2027-04-14 00:00", "Europe/London"));
  CHECK_FALSE(at_plan(told("antibiotics", "2027-03-09 20:00")).weight.has_value());
}

TEST_CASE("a bowel cleansing 10 days ago is a note: 14 days asked, 7 at least") {
  CHECK(at_plan(told("bowel-cleansing", "2027-03-27 09:00")).weight == consequence::note);
  CHECK(at_plan(told("bowel-cleansing", "2027-03-31 09:00")).weight == consequence::review);
}

TEST_CASE("food the plan does not name, told in the fast, touches the fast") {
  const slip_meaning m = at_plan(told("plain-diet", "2027-04-05 21:30", "other-food"));
  CHECK(m.rule == "fast");
  CHECK(*m.kept == 10h);
}

TEST_CASE("food told in the plain-diet time counts to the end of that time, not to the start") {
  const slip_meaning m = at_plan(told("plain-diet", "2027-04-05 10:30", "other-food"));
  CHECK(m.rule == "plain-diet");
  CHECK(*m.kept == 9h); // up to 19:30, of 12 h
  CHECK(m.weight == consequence::note);
  CHECK(*m.full_from == local("2027-04-06 10:30", "Europe/London"));
}

TEST_CASE("a meal told of the fast and eaten in the plain-diet time is taken to be plain food") {
  const slip_meaning m = at_plan(told("fast", "2027-04-05 19:15", "meal"));
  CHECK(m.rule.empty());
  CHECK_FALSE(m.weight.has_value());
}

TEST_CASE("before the rules begin nothing is touched and nothing changes") {
  const slip_meaning m = at_plan(told("plain-diet", "2027-04-05 07:00", "other-food"));
  CHECK(m.rule.empty());
  CHECK_FALSE(m.weight.has_value());
  CHECK_FALSE(at_plan(told("awake", "2027-04-06 05:00", "exercise")).weight.has_value());
}

TEST_CASE("a cigarette 30 min before is a note, 10 min before needs their word") {
  // smoke-free: none on the day (NAC 2017 T1), 15 min at least (Clin Chem 1983).
  CHECK(at_plan(told("smoke-free", "2027-04-05 23:00", "cigarette")).weight == consequence::note);
  CHECK(at_plan(told("smoke-free", "2027-04-06 07:00", "cigarette")).weight == consequence::note);
  CHECK(at_plan(told("smoke-free", "2027-04-06 07:20", "cigarette")).weight == consequence::review);
  CHECK_FALSE(at_plan(told("smoke-free", "2027-04-05 18:00", "vape")).weight.has_value());
}

TEST_CASE("what no rule names is the laboratory's to judge") {
  for (const char* rule : {slip_medicine, slip_other}) {
    const slip_meaning m = at_plan(told(rule, "2027-04-05 21:30"));
    CHECK(m.rule.empty());
    CHECK(m.weight == consequence::note);
    CHECK_FALSE(m.full_from.has_value());
  }
}

TEST_CASE("a later start heals a meal, and tube 1's real closing is what counts") {
  patient p;
  p.open_and_plan();
  const reported_slip meal = told("fast", "2027-04-05 21:30", "meal");
  const instant later = local("2027-04-06 09:30", "Europe/London");
  CHECK_FALSE(meaning_at(p.current(), meal, later, london()).weight.has_value());
  p.clock.pass(later - p.clock.wall());
  CHECK_FALSE(meaning_of(p.current(), meal, p.clock.look(), london()).weight.has_value());
}

TEST_CASE("the fast is counted in elapsed hours over the night the clocks change") {
  patient p;
  p.clock.pass(-(p.clock.wall() - utc("2027-02-20T10:00:00Z")));
  REQUIRE(p.tell(opened{"x", "y", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  REQUIRE(p.tell(plan_of(local("2027-03-28 07:30", "Europe/London"))));
  // 21:30 to 07:30 by the clock, with 01:00 to 02:00 missing: 9 h.
  const auto m =
      meaning_of(p.current(), told("fast", "2027-03-27 21:30"), p.clock.look(), london());
  CHECK(*m.kept == 9h);
}

TEST_CASE("a slip is called by its subject, its rule or what it is") {
  CHECK(slip_in_words(lactulose(), told("fast", "2027-04-05 21:30", "meal")) == "I ate something");
  CHECK(slip_in_words(lactulose(), told("fast", "2027-04-05 21:30")) == "Water only");
  CHECK(slip_in_words(lactulose(), told("antibiotics", "2027-04-05 21:30")) == "Antibiotics");
  CHECK(slip_in_words(lactulose(), told(slip_medicine, "2027-04-05 21:30")) == "a medicine");
}

TEST_CASE("every window and washout of the shipped protocols has a meaning when a slip is told") {
  patient p;
  p.open_and_plan();
  for (const preparation_window& w : lactulose().windows) {
    const instant inside = p.current().planned->what.start - w.until - 1min;
    const slip_meaning m = meaning_at(p.current(), {w.why.rule, inside, how_known::told, ""},
                                      p.current().planned->what.start, london());
    INFO(w.why.rule);
    CHECK(m.rule == w.why.rule);
    CHECK(*m.kept == 1min);
  }
  for (const washout& w : lactulose().washouts) {
    const slip_meaning m = at_plan(told(w.why.rule, "2027-04-05 21:30"));
    CHECK(m.rule == w.why.rule);
    CHECK(m.weight == (w.least > std::chrono::days{1} ? consequence::review : consequence::note));
  }
}
