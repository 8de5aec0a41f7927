// The earliest start that still works, and which rule holds it back: the preparation's rules.
// A person is never left to do arithmetic on dates, so this must be right to the day.
#include "core/plan/earliest.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

civil_date day(const char* text) {
  return parse_date(text).value();
}
const instant noon = utc("2027-04-06T11:00:00Z"); // 12:00 in London

circumstances told(std::vector<answered_washout> washouts) {
  circumstances c;
  c.washouts = std::move(washouts);
  return c;
}
answered_washout last(const char* rule, const char* on) {
  return {rule, washout_answer::last_on, day(on), false};
}
std::string shown(const earliest_start& first, const zone& z) {
  REQUIRE(first.at.has_value());
  return civil_text(z.civil_at(*first.at));
}

} // namespace

TEST_CASE("without medicines the plain diet holds the start back by a day") {
  // plain-diet, common practice: the day before is 24 hours.
  const auto first = find_earliest(lactulose(), {}, noon, zone_named("Europe/London"));
  CHECK(first.at == noon + 24h);
  CHECK(first.binding_rule == "plain-diet");
  CHECK(first.ask.empty());
}

TEST_CASE("antibiotics until 4 March make 1 April the first day") {
  // antibiotics, NAC 2017 T1: 4 weeks. 4 March plus 28 days is 1 April; summer time began on 28
  // March, so that day begins at 23:00 UTC.
  const zone& london = zone_named("Europe/London");
  const instant in_march = utc("2027-03-01T09:00:00Z");
  const auto first = find_earliest(
      lactulose(), told({{"antibiotics", washout_answer::until, day("2027-03-04"), false}}),
      in_march, london);
  CHECK(first.at == utc("2027-03-31T23:00:00Z"));
  CHECK(shown(first, london) == "2027-04-01 00:00");
  CHECK(first.binding_rule == "antibiotics");
  // The plan of that start says the same the other way round.
  const plan p = make_plan(lactulose(), *first.at, london).value();
  CHECK(date_text(p.washouts.front().last_dose_on_or_before) == "2027-03-04");
}

TEST_CASE("the latest of several medicines holds the start back") {
  const zone& london = zone_named("Europe/London");
  const auto both = find_earliest(
      lactulose(), told({last("laxatives", "2027-04-30"), last("antibiotics", "2027-04-06")}), noon,
      london);
  CHECK(both.at == utc("2027-05-06T23:00:00Z"));
  CHECK(both.binding_rule == "laxatives");
}

TEST_CASE("a colonoscopy and a bowel cleansing hold the start back by two weeks") {
  // colonoscopy, bowel-cleansing, EU 2022: 14 days.
  const zone& london = zone_named("Europe/London");
  for (const char* rule : {"colonoscopy", "bowel-cleansing"}) {
    const auto first = find_earliest(lactulose(), told({last(rule, "2027-04-05")}), noon, london);
    CHECK(shown(first, london) == "2027-04-19 00:00");
    CHECK(first.binding_rule == rule);
  }
}

TEST_CASE("a dose long ago, one never had, or of a medicine no rule names, holds nothing back") {
  const zone& london = zone_named("Europe/London");
  CHECK(find_earliest(lactulose(), told({last("antibiotics", "2027-01-01")}), noon, london)
            .binding_rule == "plain-diet");
  CHECK(find_earliest(lactulose(), told({{"antibiotics", washout_answer::never, {}, false}}), noon,
                      london)
            .at == noon + 24h);
  for (const washout_answer any : {washout_answer::last_on, washout_answer::unknown})
    CHECK(find_earliest(lactulose(), told({{"vitamins", any, {}, false}}), noon, london).at ==
          noon + 24h);
}

TEST_CASE("there is no date until somebody was asked about a medicine that cannot stop") {
  const zone& london = zone_named("Europe/London");
  circumstances c = told({{"prokinetics", washout_answer::unknown, {}, false},
                          {"laxatives", washout_answer::cannot_stop, {}, false},
                          last("antibiotics", "2027-04-06")});
  const auto first = find_earliest(lactulose(), c, noon, london);
  CHECK_FALSE(first.at.has_value());
  CHECK_FALSE(first.post_on_or_before.has_value());
  CHECK(first.ask == std::vector<std::string>{"laxatives", "prokinetics"});
  CHECK(first.binding_rule == "laxatives");
  const auto broken = rules_broken(lactulose(), c, utc("2027-06-01T06:30:00Z"), noon, london);
  REQUIRE(broken.size() == 2);
  CHECK(broken[0].rule == "laxatives");
  CHECK_FALSE(broken[0].later_by.has_value());
  // With an agreement for both, what is left binds.
  c.washouts[0].agreed = c.washouts[1].agreed = true;
  CHECK(find_earliest(lactulose(), c, noon, london).binding_rule == "antibiotics");
}

TEST_CASE("a day that was agreed to holds nothing back") {
  circumstances c = told({last("antibiotics", "2027-04-06")});
  c.washouts[0].agreed = true;
  CHECK(find_earliest(lactulose(), c, noon, zone_named("Europe/London")).at == noon + 24h);
}

TEST_CASE("a last meal at 19:30 lets the test start at 07:30, the plain diet having begun before") {
  // fast, NHS 8611: 12 hours. plain-diet: 24 hours before, so from 07:30 the day before.
  const zone& london = zone_named("Europe/London");
  const instant bedtime = local("2027-04-05 22:00", "Europe/London");
  circumstances c;
  c.moments = {{"fast", local("2027-04-05 19:30", "Europe/London")},
               {"smoke-free", local("2027-04-05 10:00", "Europe/London")},
               {"plain-diet", local("2027-04-04 20:00", "Europe/London")}};
  const auto first = find_earliest(lactulose(), c, bedtime, london);
  CHECK(shown(first, london) == "2027-04-06 07:30");
  CHECK(first.binding_rule == "fast");
  CHECK(date_text(*first.post_on_or_before) == "2027-04-20");
  // Of the meal alone the plain diet knows nothing: its day still lies ahead.
  c.moments.pop_back();
  CHECK(find_earliest(lactulose(), c, bedtime, london).binding_rule == "plain-diet");
}

TEST_CASE("the latest of two meals counts, sleep asks for an hour and a cigarette for twelve") {
  // awake, common practice: 60 minutes. smoke-free, NAC 2017 T1: none on the day.
  const zone& london = zone_named("Europe/London");
  const instant morning = local("2027-04-06 07:00", "Europe/London");
  circumstances c;
  c.moments = {{"plain-diet", local("2027-04-04 20:00", "Europe/London")},
               {"fast", local("2027-04-05 21:00", "Europe/London")},
               {"fast", local("2027-04-05 18:00", "Europe/London")},
               {"smoke-free", local("2027-04-05 20:00", "Europe/London")},
               {"awake", local("2027-04-06 06:00", "Europe/London")}};
  CHECK(shown(find_earliest(lactulose(), c, morning, london), london) == "2027-04-06 09:00");
  c.moments.push_back({"awake", local("2027-04-06 08:20", "Europe/London")});
  const auto first = find_earliest(lactulose(), c, morning, london);
  CHECK(shown(first, london) == "2027-04-06 09:20");
  CHECK(first.binding_rule == "awake");
  c.moments.push_back({"smoke-free", local("2027-04-06 06:00", "Europe/London")});
  const auto smoked = find_earliest(lactulose(), c, morning, london);
  CHECK(shown(smoked, london) == "2027-04-06 18:00");
  CHECK(smoked.binding_rule == "smoke-free");
}

TEST_CASE("where everything is kept already, the earliest start is now") {
  circumstances c;
  for (const preparation_window& w : lactulose().windows)
    c.moments.push_back({w.why.rule, noon - w.from});
  const auto first = find_earliest(lactulose(), c, noon, zone_named("Europe/London"));
  CHECK(first.at == noon);
  CHECK(first.binding_rule == rule_now);
  const auto past = rules_broken(lactulose(), c, noon - 1min, noon, zone_named("Europe/London"));
  REQUIRE_FALSE(past.empty());
  CHECK(past.front().rule == rule_now);
  CHECK(past.front().later_by == 1min);
}

TEST_CASE("the rules a start breaks are told with how much later it would have to be") {
  const zone& london = zone_named("Europe/London");
  const auto doses = told({last("antibiotics", "2027-04-01")});
  const auto broken = rules_broken(lactulose(), doses, noon + 13h, noon, london);
  REQUIRE(broken.size() == 2);
  CHECK(broken[0].rule == "plain-diet");
  CHECK(broken[0].later_by == 11h);
  CHECK(broken[1].rule == "antibiotics");
  // 29 April 00:00 in London is 28 April 23:00 UTC.
  CHECK(broken[1].later_by == utc("2027-04-28T23:00:00Z") - (noon + 13h));
  CHECK(rules_broken(lactulose(), doses, utc("2027-04-28T23:00:00Z"), noon, london).empty());
}

TEST_CASE("every answer about a washout has its key") {
  CHECK(std::string(washout_key(washout_answer::never)) == "never");
  CHECK(std::string(washout_key(washout_answer::last_on)) == "last-on");
  CHECK(std::string(washout_key(washout_answer::until)) == "until");
  CHECK(std::string(washout_key(washout_answer::cannot_stop)) == "cannot-stop");
  CHECK(std::string(washout_key(washout_answer::unknown)) == "unknown");
}
