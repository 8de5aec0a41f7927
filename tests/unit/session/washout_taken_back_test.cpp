// A medicine's answer that becomes a lighter one: only by the whole question asked once more, and
// the laboratory sees both.
#include "core/findings/findings.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

reported_washout told(washout_answer answer, const char* on = nullptr) {
  reported_washout out{{"laxatives", answer, std::nullopt, false}, ""};
  if (on != nullptr) out.what.on = parse_date(on).value();
  if (answer == washout_answer::until) {
    out.who = "My pharmacist";
    out.said_by = releaser::pharmacist;
  }
  return out;
}

reported_washout again(reported_washout x) {
  x.asked_again = true;
  return x;
}

// From the lightest to the weightiest.
const std::vector<reported_washout>& by_weight() {
  using answer = washout_answer;
  static const std::vector<reported_washout> all{told(answer::never),
                                                 told(answer::last_on, "2027-03-20"),
                                                 told(answer::last_on, "2027-04-01"),
                                                 told(answer::until, "2027-04-01"),
                                                 told(answer::unknown),
                                                 told(answer::cannot_stop)};
  return all;
}

} // namespace

TEST_CASE(
    "a lighter answer about a medicine is taken only where the question was asked once more") {
  for (std::size_t was = 0; was < by_weight().size(); ++was) {
    for (std::size_t is = 0; is < by_weight().size(); ++is) {
      INFO(words_of(by_weight()[was].what) << " then " << words_of(by_weight()[is].what));
      patient p;
      p.open_and_plan();
      REQUIRE(p.tell(again(by_weight()[was])));
      CHECK(p.refused(by_weight()[is]) == (is < was ? "no.ask-again" : ""));
      REQUIRE(p.tell(again(by_weight()[is])));
      const noted_washout* noted = find_noted_washout(p.current(), "laxatives");
      CHECK(noted->what.what.answer == by_weight()[is].what.answer);
      CHECK(noted->earlier.empty() == (is >= was));
    }
  }
}

TEST_CASE("what runs until a day does not become over on a later one in silence") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(again(told(washout_answer::until, "2027-04-01"))));
  CHECK(p.refused(told(washout_answer::last_on, "2027-04-02")) == "no.ask-again");
  CHECK(p.refused(told(washout_answer::until, "2027-04-02")) == "");
}

TEST_CASE("a last day that was told earlier than before is a finding with both and their times") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(told(washout_answer::last_on, "2027-04-01")));
  p.clock.pass(60s);
  REQUIRE(p.tell(again(told(washout_answer::last_on, "2027-03-20"))));
  std::vector<finding> back;
  for (const finding& f : findings_of(p.current(), p.clock.look(), zone_named("Europe/London"))) {
    if (f.rule == "answer-taken-back") back.push_back(f);
  }
  REQUIRE(back.size() == 1);
  CHECK(back.front().words.find("said last on 2027-04-01 at") != std::string::npos);
  CHECK(back.front().words.find("then last on 2027-03-20 at") != std::string::npos);
  CHECK(back.front().weight == consequence::review);
  CHECK(back.front().events.size() == 2);
}
