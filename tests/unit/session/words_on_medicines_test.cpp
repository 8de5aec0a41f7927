// On whose word a medicine is paused, or the test goes on in spite of it: those whom the protocol
// names, and nobody else.
#include "core/findings/findings.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

reported_washout paused(const std::string& rule, std::optional<releaser> by) {
  return {{rule, washout_answer::until, parse_date("2027-03-28").value(), false}, "Ms Quill", by};
}
reported_washout goes_on(const std::string& rule, std::optional<releaser> by) {
  return {{rule, washout_answer::cannot_stop, std::nullopt, true}, "Ms Quill", by};
}

struct planned_patient : patient {
  planned_patient() { open_and_plan(); }
};

// As an older program wrote it: folded, and never decided on.
state with(state s, payload what, const clock_reading& at) {
  const std::int64_t seq = s.seq + 1;
  return apply(std::move(s), event{seq, at, std::move(what)});
}

bool holds(const state& s, const clock_reading& now, hindrance_kind what) {
  for (const hindrance& h : hindrances(s, now)) {
    if (h.what == what) return true;
  }
  return false;
}

} // namespace

TEST_CASE("a prescribed medicine is paused on the word of those the protocol names") {
  planned_patient p;
  for (const releaser who : {releaser::doctor, releaser::pharmacist, releaser::laboratory})
    CHECK(p.refused(paused("laxatives", who)) == "");
  CHECK(p.refused(paused("laxatives", std::nullopt)) == "no.not-agreed");
  CHECK(p.refused(paused("laxatives", releaser::person)) == "no.not-agreed");
  CHECK(p.refused(paused("probiotics", releaser::person)) == ""); // nobody prescribes those
  CHECK(p.refused(paused("probiotics", std::nullopt)) == "no.not-agreed");
}

TEST_CASE("the person's own word never lets the test go on in spite of a medicine") {
  planned_patient p;
  CHECK(p.refused(goes_on("laxatives", releaser::doctor)) == "");
  CHECK(p.refused(goes_on("probiotics", releaser::person)) == "no.not-agreed");
  CHECK(p.refused(goes_on("laxatives", std::nullopt)) == "no.who-may-say");
  CHECK(p.refused(goes_on("antibiotics", releaser::pharmacist)) == "no.not-agreed");
}

TEST_CASE("a word told before the plan is weighed when a plan is made, and at the start") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  REQUIRE(p.tell(paused("laxatives", releaser::person))); // no protocol is known yet
  CHECK(p.refused(plan_of(utc("2027-04-06T06:30:00Z"))) == "no.not-agreed");
  REQUIRE(p.tell(paused("laxatives", releaser::pharmacist)));
  CHECK(p.refused(plan_of(utc("2027-04-06T06:30:00Z"))) == "");
}

TEST_CASE("at the start a word of nobody who may holds back, however it came into the record") {
  planned_patient p;
  const clock_reading now = p.clock.look();
  CHECK_FALSE(holds(p.current(), now, hindrance_kind::not_agreed));
  for (const reported_washout& told :
       {paused("laxatives", std::nullopt), goes_on("probiotics", releaser::person)}) {
    const state s = with(p.current(), told, now);
    CHECK(holds(s, now, hindrance_kind::not_agreed));
    CHECK(what_now(s, now).what == step::held);
  }
}

TEST_CASE("the gate's agreement to a medicine counts from those the protocol names alone") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-06T06:28:00Z") - p.clock.wall());
  p.answer_the_gate();
  REQUIRE(p.tell(reported_washout{
      {"laxatives", washout_answer::last_on, parse_date("2027-04-04").value(), false}, ""}));
  reported_ready gate{gate_checks(), {"laxatives"}, "my neighbour", std::nullopt};
  CHECK(p.refused(gate) == "no.who-may-say");
  gate.said_by = releaser::person;
  CHECK(p.refused(gate) == "no.who-may-say");
  gate.said_by = releaser::doctor;
  CHECK(p.refused(gate) == "");
  // However the agreement came into the record, the sugar is closed to a neighbour's.
  const auto short_still = [&](std::optional<releaser> by) {
    gate.said_by = by;
    return holds(with(p.current(), gate, p.clock.look()), p.clock.look(),
                 hindrance_kind::below_least);
  };
  CHECK(short_still(std::nullopt));
  CHECK(short_still(releaser::person));
  CHECK_FALSE(short_still(releaser::doctor));
}

TEST_CASE("a protocol that does not ask who agreed believes whoever it was, and says so") {
  planned_patient p;
  state s = p.current();
  protocol rules = *s.test;
  for (washout& w : rules.washouts)
    w.may_agree.reset();
  s.test = std::move(rules);
  s = with(std::move(s), goes_on("laxatives", std::nullopt), p.clock.look());
  CHECK_FALSE(holds(s, p.clock.look(), hindrance_kind::not_agreed));
  bool said = false;
  for (const finding& f : findings_of(s, p.clock.look(), zone_named("Europe/London")))
    said = said || f.words.find("agreed by Ms Quill (not known who)") != std::string::npos;
  CHECK(said);
}
