// The preparation timeline of a start.
// Expected times are worked out by hand, from common practice or a cited source named beside them.
#include "core/plan/plan.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

plan planned(const char* text, const char* zone_name, const protocol& p = lactulose()) {
  return make_plan(p, local(text, zone_name), zone_named(zone_name)).value();
}

const planned_window& window(const plan& p, const std::string& rule) {
  for (const planned_window& w : p.windows) {
    if (w.rule == rule) return w;
  }
  throw std::runtime_error("no window " + rule);
}
std::string shown(instant t, const std::string& zone_name) {
  return civil_text(zone_named(zone_name).civil_at(t));
}
std::string last_dose_of(const plan& p, const std::string& rule) {
  for (const planned_washout& w : p.washouts) {
    if (w.rule == rule) return date_text(w.last_dose_on_or_before);
  }
  return "none";
}

} // namespace

TEST_CASE("a start at 07:30 means water only from 19:30 and the tenth sample at 09:45") {
  // Common practice, by arithmetic: plain diet from 07:30 the day before, water only from 19:30,
  // awake by 06:30, tenth sample at 09:45.
  const plan p = planned("2027-04-06 07:30", "Europe/London");
  CHECK(shown(window(p, "plain-diet").from, "Europe/London") == "2027-04-05 07:30");
  CHECK(shown(window(p, "plain-diet").until, "Europe/London") == "2027-04-05 19:30");
  CHECK(shown(window(p, "fast").from, "Europe/London") == "2027-04-05 19:30");
  CHECK(window(p, "fast").until == p.start);
  CHECK(shown(window(p, "awake").from, "Europe/London") == "2027-04-06 06:30");
  CHECK(shown(window(p, "smoke-free").from, "Europe/London") == "2027-04-05 19:30");
  CHECK(shown(p.samples[1].due, "Europe/London") == "2027-04-06 07:45");
  CHECK(shown(p.samples[9].due, "Europe/London") == "2027-04-06 09:45");
  CHECK(p.ends == p.samples[9].due);
  CHECK(p.zone_name == "Europe/London");
  CHECK(p.protocol_id == "lactulose-10g");
}

TEST_CASE("antibiotics are counted back 28 calendar days, laxatives and prokinetics 7") {
  // NAC T1.1: 4 weeks; NAC T1.3: 1 week. Calendar days: 6 April minus 28 is 9 March.
  const plan p = planned("2027-04-06 07:30", "Europe/London");
  CHECK(last_dose_of(p, "antibiotics") == "2027-03-09");
  CHECK(last_dose_of(p, "laxatives") == "2027-03-30");
  CHECK(last_dose_of(p, "prokinetics") == "2027-03-30");
  // Across 29 February 2028.
  CHECK(last_dose_of(planned("2028-03-10 07:30", "Europe/London"), "antibiotics") == "2028-02-11");
}

TEST_CASE("post within two weeks counts from the civil date on which the test ends") {
  // Common practice: posted within 2 weeks.
  CHECK(date_text(planned("2027-04-06 07:30", "Europe/London").post_on_or_before) == "2027-04-20");
  // A test that runs past midnight ends on the next day.
  const plan late = planned("2027-04-06 23:00", "Europe/London");
  CHECK(shown(late.ends, "Europe/London") == "2027-04-07 01:15");
  CHECK(date_text(late.post_on_or_before) == "2027-04-21");
  CHECK(last_dose_of(late, "laxatives") == "2027-03-30");
}

TEST_CASE("a fast is twelve elapsed hours, also on the night the clocks go forward") {
  // London 2027-03-28: the night has eleven hours by the wall clock between 21:00 and 09:00.
  const plan p = planned("2027-03-28 09:00", "Europe/London");
  CHECK(p.start - window(p, "fast").from == 12h);
  CHECK(shown(window(p, "fast").from, "Europe/London") == "2027-03-27 20:00");
  CHECK(shown(window(p, "plain-diet").from, "Europe/London") == "2027-03-27 08:00");
  CHECK(rfc3339(p.start, zone_named("Europe/London")).value() == "2027-03-28T09:00:00+01:00");
  CHECK(rfc3339(window(p, "fast").from, zone_named("Europe/London")).value() ==
        "2027-03-27T20:00:00+00:00");
}

TEST_CASE("a fast is twelve elapsed hours, also on the night the clocks go back") {
  const plan p = planned("2027-10-31 09:00", "Europe/London");
  CHECK(shown(window(p, "fast").from, "Europe/London") == "2027-10-30 22:00");
}

TEST_CASE("samples are a quarter of an hour apart while the clocks change under them") {
  // A start at 00:30 in London on 2027-03-28: sample 3 would be 01:00, shown as 02:00.
  const plan p = planned("2027-03-28 00:30", "Europe/London");
  for (std::size_t i = 1; i < p.samples.size(); ++i)
    CHECK(p.samples[i].due - p.samples[i - 1].due == 15min);
  CHECK(shown(p.samples[1].due, "Europe/London") == "2027-03-28 00:45");
  CHECK(shown(p.samples[2].due, "Europe/London") == "2027-03-28 02:00");
}

TEST_CASE("where a calendar day was skipped, days are still counted on the calendar") {
  // Apia had no 2011-12-30: seven days before 2012-01-02 is 2011-12-26 on the calendar.
  const plan p = planned("2012-01-02 07:30", "Pacific/Apia");
  CHECK(last_dose_of(p, "laxatives") == "2011-12-26");
  CHECK(shown(window(planned("2011-12-31 07:30", "Pacific/Apia"), "fast").from, "Pacific/Apia") ==
        "2011-12-29 19:30");
}

TEST_CASE("every preparation rule of every shipped protocol has its window or its washout") {
  for (const protocol* test : {&lactulose(), &glucose()}) {
    const plan p = planned("2027-04-06 07:30", "Europe/London", *test);
    std::set<std::string> there;
    for (const planned_window& w : p.windows) {
      there.insert(w.rule);
      const preparation_window* rule = find_window(*test, w.rule);
      REQUIRE(rule != nullptr);
      CHECK(p.start - w.from == rule->from);
      CHECK(p.start - w.until == rule->until);
    }
    for (const planned_washout& w : p.washouts) {
      there.insert(w.rule);
      REQUIRE(find_washout(*test, w.rule) != nullptr);
    }
    CHECK(there.size() == test->windows.size() + test->washouts.size());
    for (const char* rule :
         {"antibiotics", "awake", "fast", "laxatives", "plain-diet", "smoke-free", "probiotics",
          "softeners-and-fibre", "prokinetics", "colonoscopy", "earlier-breath-test"})
      CHECK(there.count(rule) == 1);
  }
}

TEST_CASE("a start in a gap is refused, with the last time before and the first after") {
  const auto no = resolve_start(parse_civil("2027-03-28 01:30").value(),
                                zone_named("Europe/London"), fold::first);
  REQUIRE_FALSE(no.has_value());
  CHECK(sentence(no.error()) ==
        "start: found 2027-03-28 01:30, which does not exist in Europe/London because clocks jump "
        "over it, expected 2027-03-28 00:59 or before, or 2027-03-28 02:00 or after");
  CHECK(exit_status(no.error()) == 2);
}

TEST_CASE("a start that happens twice is refused until one of the two is chosen") {
  const civil_time twice = parse_civil("2027-10-31 01:30").value();
  const zone& london = zone_named("Europe/London");
  const auto no = resolve_start(twice, london, fold::unasked);
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::ambiguous);
  CHECK(no.error().expected == "a choice: first (2027-10-31T01:30:00+01:00) or second "
                               "(2027-10-31T01:30:00+00:00)");
  CHECK(resolve_start(twice, london, fold::first).value() == utc("2027-10-31T00:30:00Z"));
  CHECK(resolve_start(twice, london, fold::second).value() == utc("2027-10-31T01:30:00Z"));
  // Where there is nothing to choose a choice does no harm.
  CHECK(resolve_start(parse_civil("2027-04-06 07:30").value(), london, fold::second).value() ==
        utc("2027-04-06T06:30:00Z"));
}

TEST_CASE("a start at the ends of the calendar is refused") {
  for (const char* text : {"0001-06-01 07:30", "9998-06-01 07:30"}) {
    const zone z = zone::fixed("Etc/UTC", 0s);
    const auto start = resolve_start(parse_civil(text).value(), z, fold::unasked);
    REQUIRE(start.has_value());
    const auto p = make_plan(lactulose(), *start, z);
    REQUIRE_FALSE(p.has_value());
    CHECK(p.error().expected == "a year from 0002 to 9997");
  }
}

TEST_CASE("what holds during the test ends with the laboratory's choice on water") {
  const auto texts = during_test_texts(lactulose(), fenwick());
  REQUIRE(texts.size() == 9);
  CHECK(texts.front() == "No food.");
  CHECK(texts[6] == "Take medicines as prescribed or as told.");
  CHECK(texts.back() == "Small sips of water only.");
  lab_profile other = fenwick();
  other.water_during_test = "none";
  CHECK(during_test_texts(lactulose(), other).back() == "No water.");
  other.water_during_test = "free";
  CHECK(during_test_texts(lactulose(), other).back() == "Water is allowed.");
}
