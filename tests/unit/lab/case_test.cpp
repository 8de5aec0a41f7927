// The join: log or paper, tubes and readings, what is left out and why, and the two axes.
#include "core/lab/case.hpp"

#include "tests/unit/lab/curves.hpp"
#include "tests/unit/lab/made_log.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

case_rules house_rules() {
  case_rules out;
  out.profile = read_profile(asset_text("laboratories/fenwick-vale.json")).value();
  out.profile.receiving.co2_reference_tenths.reset();
  out.findings = read_finding_rules(asset_text("findings/findings.json")).value();
  out.judging = shipped_rules();
  return out;
}

bench_kit with_readings(const std::vector<int>& h2) {
  bench_kit out;
  out.kit = "FV-3001";
  for (std::size_t i = 0; i < h2.size(); ++i) {
    gas_reading r;
    r.kit = out.kit;
    r.sample = static_cast<int>(i) + 1;
    r.h2_ppm = exact(h2[i]);
    r.ch4_ppm = exact(1);
    r.entry = static_cast<std::int64_t>(i) + 1;
    out.readings.push_back(r);
  }
  return out;
}

const std::vector<int> rising{4, 5, 6, 7, 9, 12, 26, 30, 31, 30};

test_case case_with(const bench_kit& bench, const case_rules& rules = house_rules(),
                    const made_test& how = {}, const std::vector<finding>& found = {}) {
  const auto log = read_log(make_log(how)).value();
  return case_of(log, report_of(log, london_only), bench, rules, found).value();
}

const judged_criterion& criterion_in(const test_case& c, const std::string& id) {
  for (const judged_criterion& j : c.judged.criteria)
    if (j.by->id == id) return j;
  FAIL("no criterion " << id);
  return c.judged.criteria.front();
}

bool has(const test_case& c, const std::string& rule) {
  for (const case_finding& f : c.findings)
    if (f.what.rule == rule && f.stands()) return true;
  return false;
}

paper_record sheet(const std::vector<int>& minutes) {
  paper_record out;
  out.kit = "FV-3001";
  out.protocol = "lactulose-10g";
  out.day = std::chrono::year{2027} / 4 / 6;
  for (const int m : minutes)
    out.times.push_back(m < 0 ? std::nullopt : std::optional(day_minute{7 * 60 + 30 + m}));
  out.drink = {day_minute{7 * 60 + 32}, day_minute{7 * 60 + 34}};
  return out;
}

} // namespace

TEST_CASE("minutes of a log count from tube 1, the drink's start or its end, as the profile asks") {
  case_rules rules = house_rules();
  const bench_kit bench = with_readings(rising);
  CHECK(case_with(bench, rules).tubes[1].minute->text() == "15.2");
  rules.profile.zero = time_zero::drink_start; // 30 s after tube 1
  CHECK(case_with(bench, rules).tubes[1].minute->text() == "14.7");
  CHECK(case_with(bench, rules).tubes[0].minute->text() == "-0.5");
  rules.profile.zero = time_zero::drink_end; // a minute later
  const test_case c = case_with(bench, rules);
  CHECK(c.tubes[1].minute->text() == "13.7");
  CHECK(c.zero_at == made_start() + std::chrono::seconds{90});
  REQUIRE(baseline_of(c.gases) != nullptr);
  CHECK(baseline_of(c.gases)->number == 1);
}

TEST_CASE("a sample within the window's slack decides, and the strict answer stands beside it") {
  // Tube 7 is due at 90; here every tube but the first is 12 s late.
  const judged_criterion j = criterion_in(case_with(with_readings(rising)), "nac-2017-h2-90");
  CHECK(said(j.says) == "meets 90.2 22");
  CHECK(j.how_firm.strict.what == answer::cannot_be_determined);
}

TEST_CASE("a tube that cannot be used is left out with its reason until somebody sets that aside") {
  const std::vector<finding> lid{
      {"lid-bad", consequence::review, sample_number(7), {}, {7}, "the lid of tube 7"}};
  bench_kit bench = with_readings(rising);
  test_case c = case_with(bench, house_rules(), {}, lid);
  CHECK_FALSE(c.tubes[6].in_curve);
  CHECK(c.tubes[6].left_out == "Lid not closed well (lid-bad)");
  CHECK(criterion_in(c, "nac-2017-h2-90").says.what == answer::cannot_be_determined);
  CHECK(c.judged.flags.back().id == "tube-left-out");
  bench.overrides.push_back({bench.kit, "lid-bad", 7, "Dr Osk", "seen, and it held", {}, false});
  c = case_with(bench, house_rules(), {}, lid);
  CHECK(c.tubes[6].in_curve);
  CHECK(c.findings.back().aside->reason == "seen, and it held");
  bench.overrides.push_back({bench.kit, "lid-bad", 7, "Dr Osk", "it did not", {}, true});
  CHECK_FALSE(case_with(bench, house_rules(), {}, lid).tubes[6].in_curve);
  bench.overrides = {{bench.kit, "lid-bad", 6, "Dr Osk", "of another tube", {}, false}};
  CHECK_FALSE(case_with(bench, house_rules(), {}, lid).tubes[6].in_curve);
}

TEST_CASE("a finding on the whole test that it cannot be used keeps it from being judged") {
  const std::vector<finding> wrong{{"identifiers-differ", consequence::review, {}, {}, {}, "no"}};
  const test_case c = case_with(with_readings(rising), house_rules(), {}, wrong);
  CHECK_FALSE(is_judged(c));
  CHECK(c.cannot_be_used == std::vector<std::string>{"identifiers-differ"});
  CHECK(c.axes.gas == answer::cannot_be_determined);
}

TEST_CASE("readings are corrected by carbon dioxide where the profile asks and it was measured") {
  case_rules rules = house_rules();
  rules.profile.receiving.co2_reference_tenths = 55;
  bench_kit bench = with_readings(rising);
  bench.readings[0].co2_pct = number("4.0"); // printed factor 1.375
  const test_case c = case_with(bench, rules);
  CHECK(c.gases[0].h2->text() == "5.5");
  CHECK(c.tubes[0].gases->raw.h2_ppm->text() == "4");
  CHECK(c.gases[1].h2->text() == "5");
  CHECK(has(c, "co2-missing"));
}

TEST_CASE("tubes without a reading and readings without a tube are findings") {
  bench_kit bench = with_readings({4, 5, 6});
  CHECK(has(case_with(bench), "reading-missing"));
  bench.readings[2].sample = 12;
  CHECK(has(case_with(bench), "reading-without-time"));
  CHECK_FALSE(has(case_with(bench_kit{}), "reading-missing")); // nothing was measured yet
}

TEST_CASE("a paper sheet is judged to the minute, and says so") {
  const test_case c = case_of(sheet({0, 15, 30, 45, 60, 75, 93, 105, -1, 135}),
                              shipped("lactulose-10g"), with_readings(rising), house_rules());
  CHECK(c.precision == exact(1));
  CHECK(c.tubes[6].minute->text() == "93");
  CHECK(c.tubes[6].standing == tube_standing::late);
  CHECK(c.tubes[8].standing == tube_standing::missed);
  CHECK(c.tubes[8].left_out == "no time is known for it");
  const judged_criterion j = criterion_in(c, "nac-2017-h2-90");
  CHECK(said(j.says) == "meets 93 22");
  CHECK(j.how_firm.within_precision == answer::cannot_be_determined); // it may have been 94
  for (const char* rule : {"paper-times", "sample-late", "sample-missed"})
    CHECK(has(c, rule));
}

TEST_CASE("a drink before tube 1 leaves no baseline and counts from its own start") {
  paper_record drank = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  drank.drink = {day_minute{7 * 60 + 20}, day_minute{7 * 60 + 24}};
  const test_case c =
      case_of(drank, shipped("lactulose-10g"), with_readings(rising), house_rules());
  CHECK(c.zero == time_zero::drink_start);
  CHECK(c.tubes[0].minute->text() == "10");
  CHECK(baseline_of(c.gases) == nullptr);
  CHECK(criterion_in(c, "nac-2017-h2-90").says.why_not == undecided::no_baseline);
  CHECK(has(c, "drink-first"));
  CHECK(has(c, "time-zero-other"));
}

TEST_CASE("only tube 1 is a baseline: an earlier one at time zero or before stays out") {
  case_rules rules = house_rules();
  rules.profile.zero = time_zero::drink_end;
  paper_record late = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  late.drink = {day_minute{7 * 60 + 40}, day_minute{7 * 60 + 47}}; // after tube 2
  bench_kit bench = with_readings(rising);
  bench.readings.erase(bench.readings.begin()); // tube 1 was not measured
  const test_case c = case_of(late, shipped("lactulose-10g"), bench, rules);
  CHECK_FALSE(c.tubes[1].in_curve);
  CHECK(baseline_of(c.gases) == nullptr);
}

TEST_CASE("gas and symptoms are two answers: all four combinations, and neither where unknown") {
  const std::vector<int> still(10, 4);
  std::vector<event> calm = make_events();
  for (event& e : calm) {
    if (auto* s = std::get_if<symptoms_told>(&e.what))
      for (symptom_score& one : s->scores)
        one.score = 2;
  }
  const auto log = read_log(write_log(calm, "quarterbreath 0.1.0")).value();
  const auto axes = [&](const std::vector<int>& h2, bool rose) {
    if (rose) return case_with(with_readings(h2)).axes;
    return case_of(log, report_of(log, london_only), with_readings(h2), house_rules()).value().axes;
  };
  CHECK(axes(rising, true).gas == answer::meets);
  CHECK(axes(rising, true).symptoms == symptom_answer::rose);
  CHECK(axes(still, true).gas == answer::does_not_meet);
  CHECK(axes(still, false).symptoms == symptom_answer::did_not_rise);
  CHECK(axes(rising, false).words ==
        "Gas: at least one criterion is met. Symptoms: none rose above its first score. These are "
        "two separate answers; neither explains or replaces the other.");
  CHECK(case_of(sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135}), shipped("lactulose-10g"),
                with_readings(rising), house_rules())
            .axes.symptoms == symptom_answer::not_known);
}

TEST_CASE("a report is a draft until a qualified reader has concluded, and the last word counts") {
  bench_kit bench = with_readings(rising);
  CHECK(is_draft(case_with(bench)));
  bench.conclusions = {{bench.kit, "first", "Dr Osk", made_start() + std::chrono::days{3}},
                       {bench.kit, "second", "Dr Vane", made_start() + std::chrono::days{4}}};
  const test_case c = case_with(bench);
  CHECK(c.concluded->words == "second");
  CHECK(c.as_of == made_start() + std::chrono::days{4});
}
