// The join: log or paper, tubes and readings, what is left out and why, and the two axes.
#include "core/case/case.hpp"
#include "core/code/result_of_events.hpp"

#include "tests/support/scripted_test.hpp"

#include "tests/unit/case/cases.hpp"

#include <algorithm>

#include <catch2/catch.hpp>
#include <map>

using namespace qb;
using namespace qb::test;

TEST_CASE("minutes of a log count from tube 1, the drink's start or its end, as the profile asks") {
  case_rules rules = house_rules();
  const received_kit received = with_readings(rising);
  CHECK(case_with(received, rules).tubes[1].minute->text() == "15.2");
  rules.profile.zero = time_zero::drink_start; // 30 s after tube 1
  CHECK(case_with(received, rules).tubes[1].minute->text() == "14.7");
  CHECK(case_with(received, rules).tubes[0].minute->text() == "-0.5");
  rules.profile.zero = time_zero::drink_end; // a minute later
  const test_case c = case_with(received, rules);
  CHECK(c.tubes[1].minute->text() == "13.7");
  CHECK(c.zero_at == made_start() + std::chrono::seconds{90});
  REQUIRE(baseline_of(c.gases) != nullptr);
  CHECK(baseline_of(c.gases)->number == 1);
}

TEST_CASE("a sample within the window's slack decides, and the strict answer stands beside it") {
  // Tube 7 is due at 90; here every tube but the first is 12 s late.
  case_rules rules = house_rules();
  const auto h2 = [&] {
    return criterion_in(case_with(with_readings(rising), rules), "nac-2017-h2-90");
  };
  CHECK(said(h2().says) == "meets 90.2 22"); // on time, and so the sample of its due minute
  CHECK(h2().how_firm.strict.what == answer::cannot_be_determined);
  rules.profile.bounds.on_time = std::chrono::seconds{5};
  CHECK(said(h2().says) == "meets 90.2 22"); // late, and within the slack
  rules.profile.window_slack = std::chrono::minutes{0};
  CHECK(h2().says.what == answer::cannot_be_determined);
}

TEST_CASE("a sheet beside a log is a note, and the minutes stay the log's") {
  received_kit received = with_readings(rising);
  const test_case alone = case_with(received);
  CHECK_FALSE(has(alone, "paper-beside-log"));
  received.papers.push_back(sheet({0, 20, 40, 60, 80, 100, 120, 140, 160, 180}));
  const test_case both = case_with(received);
  REQUIRE(both.findings.size() == alone.findings.size() + 1);
  const auto f = std::find_if(both.findings.begin(), both.findings.end(),
                              [](const auto& one) { return one.what.rule == "paper-beside-log"; });
  REQUIRE(f != both.findings.end());
  CHECK(f->weight == consequence::note);
  CHECK(f->what.words == "a paper sheet was entered too; the times are the log's");
  for (std::size_t i = 0; i < both.tubes.size(); ++i)
    CHECK(both.tubes[i].minute->text() == alone.tubes[i].minute->text());
}

TEST_CASE("a tube that cannot be used is left out with its reason until somebody sets that aside") {
  const std::vector<finding> lid{
      {"lid-bad", consequence::review, sample_number(7), {}, {7}, "the lid of tube 7"}};
  received_kit received = with_readings(rising);
  test_case c = case_with(received, house_rules(), {}, lid);
  CHECK_FALSE(c.tubes[6].in_curve);
  CHECK(c.tubes[6].left_out == "Lid not closed well (lid-bad)");
  CHECK(criterion_in(c, "nac-2017-h2-90").says.what == answer::cannot_be_determined);
  CHECK(c.judged.flags.back().id == "tube-left-out");
  received.overrides.push_back(
      {received.kit, "lid-bad", 7, "Dr Osk", "seen, and it held", {}, false});
  c = case_with(received, house_rules(), {}, lid);
  CHECK(c.tubes[6].in_curve);
  CHECK(c.findings.back().aside->reason == "seen, and it held");
  received.overrides.push_back({received.kit, "lid-bad", 7, "Dr Osk", "it did not", {}, true});
  CHECK_FALSE(case_with(received, house_rules(), {}, lid).tubes[6].in_curve);
  received.overrides = {{received.kit, "lid-bad", 6, "Dr Osk", "of another tube", {}, false}};
  CHECK_FALSE(case_with(received, house_rules(), {}, lid).tubes[6].in_curve);
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
  received_kit received = with_readings(rising);
  received.readings[0].co2_pct = number("4.0"); // printed factor 1.375
  const test_case c = case_with(received, rules);
  CHECK(c.gases[0].h2->text() == "5.5");
  CHECK(c.tubes[0].gases->raw.h2_ppm->text() == "4");
  CHECK(c.gases[1].h2->text() == "5");
  CHECK(has(c, "co2-missing"));
}

TEST_CASE("an answer that correction or the other reading of a tube changes is not firm") {
  case_rules rules = house_rules();
  received_kit received = with_readings({4, 5, 6, 7, 9, 12, 26, 26, 26, 26});
  const auto firm_of = [&] {
    return criterion_in(case_with(received, rules), "nac-2017-h2-90").how_firm;
  };
  const auto turns = [&](change by) {
    const firmness f = firm_of();
    return std::count_if(f.turns.begin(), f.turns.end(), [&](const turn& t) { return t.by == by; });
  };
  CHECK(turns(change::uncorrected) == 0);
  CHECK(turns(change::other_reading) == 0);
  gas_reading again = received.readings[6]; // tube 7, which decides
  again.mark.entry = 11;
  again.h2_ppm = exact(8);
  received.readings.push_back(again);
  REQUIRE(turns(change::other_reading) == 1);
  CHECK(firm_of().turns.back().tube == 7);
  CHECK(firm_of().turns.back().to == answer::does_not_meet);
  CHECK_FALSE(firm_of().firm);
  const test_case c = case_with(received, rules);
  REQUIRE(c.tubes[6].other_gases.size() == 1);
  CHECK(c.tubes[6].other_gases.front().h2 == exact(8));
  CHECK(c.tubes[6].gases->h2 == exact(26));
  // Twice the measured at 2.75 %: tube 6 would meet it, by what was measured it does not.
  received = with_readings({4, 5, 6, 7, 9, 12, 12, 12, 12, 12});
  rules.profile.receiving.co2_reference_tenths = 55;
  received.readings[5].co2_pct = number("2.75");
  CHECK(criterion_in(case_with(received, rules), "nac-2017-h2-90").says.what == answer::meets);
  CHECK(turns(change::uncorrected) == 1);
  CHECK_FALSE(firm_of().firm);
}

TEST_CASE(
    "a tube that was taken and not read is said to be that, and nothing measured is not judged") {
  const auto reasons = [](const test_case& c) {
    std::map<std::string, std::string> out;
    for (const flag& f : c.judged.flags)
      out[f.id + (f.minute ? " " + f.minute->text() : "")] = f.reason;
    return out;
  };
  received_kit received = with_readings(rising);
  received.readings.erase(received.readings.begin(),
                          received.readings.begin() + 2); // tubes 1 and 2
  auto said = reasons(case_with(received));
  CHECK(said["gap 15"] == "no reading of tube 2 (it was taken)");
  CHECK(said["no-baseline"] == "no reading of tube 1 (it was taken), so there is no baseline");
  const test_case none = case_with(with_readings({}));
  CHECK(none.axes.words.rfind("Gas: not measured yet.", 0) == 0);
}

TEST_CASE("tubes without a reading and readings without a tube are findings") {
  received_kit received = with_readings({4, 5, 6});
  CHECK(has(case_with(received), "reading-missing"));
  received.readings[2].sample = 12;
  CHECK(has(case_with(received), "reading-without-time"));
  CHECK_FALSE(has(case_with(received_kit{}), "reading-missing")); // nothing was measured yet
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
  CHECK(tube_at(c, exact(93)) == 7);
  CHECK_FALSE(tube_at(c, exact(94)));
  REQUIRE_FALSE(j.how_firm.turns.empty()); // without the slack, and as it may have been 94
  CHECK(j.how_firm.turns[1].by == change::timing);
  CHECK(j.how_firm.turns[1].to == answer::cannot_be_determined);
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

TEST_CASE("a drink of a sheet is late or slow from a minute beyond what is asked") {
  paper_record p = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  const auto found = [&](int start, int end) {
    p.drink = {day_minute{7 * 60 + 30 + start}, day_minute{7 * 60 + 30 + end}};
    const test_case c = case_of(p, shipped("lactulose-10g"), with_readings(rising), house_rules());
    return std::string(has(c, "drink-late") ? "late " : "") + (has(c, "drink-slow") ? "slow" : "");
  };
  CHECK(found(5, 10).empty());
  CHECK(found(6, 12).empty()); // a time to the minute may be off by one
  CHECK(found(7, 13) == "late ");
  CHECK(found(6, 13) == "slow");
}

TEST_CASE("only tube 1 is a baseline: an earlier one at time zero or before stays out") {
  case_rules rules = house_rules();
  rules.profile.zero = time_zero::drink_end;
  paper_record late = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  late.drink = {day_minute{7 * 60 + 40}, day_minute{7 * 60 + 47}}; // after tube 2
  received_kit received = with_readings(rising);
  received.readings.erase(received.readings.begin()); // tube 1 was not measured
  const test_case c = case_of(late, shipped("lactulose-10g"), received, rules);
  CHECK_FALSE(c.tubes[1].in_curve);
  CHECK(baseline_of(c.gases) == nullptr);
}

TEST_CASE("gas and symptoms are two answers: all four combinations, and neither where unknown") {
  const std::vector<int> still(10, 4);
  std::vector<event> calm = make_events();
  for (event& e : calm) {
    if (auto* s = std::get_if<reported_symptoms>(&e.what))
      for (symptom_score& one : s->scores)
        one.score = 2;
  }
  const auto log = read_log(write_log(calm, "quarterbreath 0.1.0", "")).value();
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
  received_kit received = with_readings(rising);
  CHECK(is_draft(case_with(received)));
  received.conclusions = {{received.kit, "first", "Dr Osk", made_start() + std::chrono::days{3}},
                          {received.kit, "second", "Dr Vane", made_start() + std::chrono::days{4}}};
  const test_case c = case_with(received);
  CHECK(c.concluded->words == "second");
  CHECK(c.as_of == made_start() + std::chrono::days{4});
}

TEST_CASE("scores of a paper sheet are the second axis, those of a missed tube at its due time") {
  paper_record told = sheet({0, 15, 30, 45, 60, 75, 93, -1, 120, 135});
  told.scores.assign(10, {1, 0, 0});
  told.scores[7] = {4, 0, std::nullopt}; // tube 8, which has no time
  const test_case c = case_of(told, shipped("lactulose-10g"), with_readings(rising), house_rules());
  CHECK(c.axes.symptoms == symptom_answer::rose);
  REQUIRE(c.rises.size() == 1);
  CHECK(c.rises[0].points == 3);
  CHECK(c.rises[0].worst_minute.text() == "105");
  CHECK(c.tracks[0].scores.size() == 10);
  CHECK(c.tubes[7].scores == std::vector<std::optional<int>>{4, 0, std::nullopt});
  const auto missing = std::count_if(c.findings.begin(), c.findings.end(), [](const auto& f) {
    return f.what.rule == "symptoms-missing";
  });
  CHECK(missing == 1);
}

TEST_CASE("symptoms of a tube that a log has as missed stand in the track at its due time") {
  auto events = make_events();
  events.erase(std::remove_if(events.begin(), events.end(),
                              [](const event& e) {
                                const auto* closed = std::get_if<tube_closed>(&e.what);
                                return closed != nullptr && closed->sample == sample_number(8);
                              }),
               events.end());
  std::int64_t seq = events.front().seq;
  for (event& e : events)
    e.seq = seq++;
  const auto log = read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
  const test_case c =
      case_of(log, report_of(log, london_only), with_readings(rising), house_rules()).value();
  CHECK_FALSE(c.tubes[7].minute);
  REQUIRE(c.tracks[0].scores.size() == 10);
  CHECK(c.tracks[0].scores[7].first.text() == "105");
  CHECK(c.tracks[0].scores[7].second == c.tubes[7].scores[0]);
}

TEST_CASE(
    "scores that belong to no tube are of the symptoms' line of time, from log and code alike") {
  patient p;
  p.scores_after = true;
  p.through_the_tubes(); // every tube scored 1
  p.score_after_the_tubes();
  const auto log = read_log(write_log(p.e.events(), "quarterbreath", "")).value();
  received_kit received = with_readings(rising);
  const test_case c =
      case_of(log, report_of(log, london_only), received, house_rules(), {}).value();
  REQUIRE(c.after.size() == 2);
  CHECK(c.after[0].what == score_time::after_last);
  CHECK(c.after[0].minute > exact(151));
  CHECK(c.after[0].minute < exact(152));
  REQUIRE(c.tracks[0].scores.size() == 12);
  REQUIRE(c.rises.size() == 1);
  CHECK(c.rises[0].id == "bloating");
  CHECK(c.rises[0].points == 6);
  CHECK(c.rises[0].first_minute == c.after[0].minute);
  CHECK(c.rises[0].worst_minute == c.after[1].minute);
  CHECK(c.axes.symptoms == symptom_answer::rose);
  const auto packed = code::packed_of(p.e.events()).value();
  const test_case by_code = case_of(packed, c.test, received, house_rules(), {}, {}).value();
  REQUIRE(by_code.after.size() == 2);
  CHECK(by_code.after[1].scores == c.after[1].scores);
  CHECK(by_code.rises.at(0).points == 6);
  CHECK(by_code.axes.symptoms == symptom_answer::rose);
}

TEST_CASE(
    "a tube with too little carbon dioxide is in the curve and decides nothing, until set aside") {
  case_rules rules = house_rules();
  rules.profile.receiving.co2_reference_tenths = 50;
  received_kit received = with_readings({4, 5, 6, 7, 9, 12, 7, 7, 7, 7});
  for (gas_reading& r : received.readings)
    r.co2_pct = exact(5);
  received.readings[2].co2_pct = number("0.1"); // room air: fifty times 6 ppm
  const auto h2 = [&](const test_case& c) { return said(criterion_in(c, "nac-2017-h2-90").says); };
  test_case c = case_with(received, rules);
  CHECK(h2(c) == "does-not-meet 75.2 8");
  CHECK(c.tubes[2].in_curve);
  CHECK(c.gases[2].h2 == exact(6)); // not corrected by a factor that great
  CHECK_FALSE(c.gases[2].decides);
  CHECK(c.tubes[2].undecided_by == "Too little carbon dioxide (co2-low)");
  CHECK(has(c, "co2-low"));
  CHECK_FALSE(has(c, "co2-missing"));
  received.overrides.push_back({received.kit, "co2-low", 3, "Dr Osk", "seen", {}, false});
  c = case_with(received, rules);
  CHECK(c.gases[2].decides);
  CHECK(c.gases[2].h2 == exact(6));
  // Above the least share, and still too great a factor.
  received.overrides.clear();
  rules.profile.judging.co2->least_tenths = 1;
  received.readings[2].co2_pct = number("1.9");
  c = case_with(received, rules);
  CHECK(has(c, "co2-factor"));
  CHECK_FALSE(has(c, "co2-low"));
  CHECK_FALSE(c.gases[2].decides);
  received.readings[2].co2_pct = exact(2); // 2.5 exactly
  c = case_with(received, rules);
  CHECK_FALSE(has(c, "co2-factor"));
  CHECK(c.gases[2].h2 == exact(15));
  rules.profile.judging.co2.reset();
  received.readings[2].co2_pct = number("0.1");
  CHECK(h2(case_with(received, rules)) == "meets 30.2 296"); // a laboratory that asks neither
}

TEST_CASE("a reading that the analyser marked invalid stays in sight and decides nothing") {
  received_kit received = with_readings({4, 5, 6, 60, 9, 12, 7, 7, 7, 7});
  CHECK(criterion_in(case_with(received), "nac-2017-h2-90").says.what == answer::meets);
  received.readings[3].invalid = true;
  const test_case c = case_with(received);
  CHECK(criterion_in(c, "nac-2017-h2-90").says.what == answer::does_not_meet);
  CHECK(has(c, "reading-invalid"));
  CHECK(c.tubes[3].in_curve);
  CHECK(c.tubes[3].undecided_by == "Marked invalid by the analyser (reading-invalid)");
}

TEST_CASE("a sample before the drink is no rise") {
  paper_record late = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  const std::vector<int> early{4, 40, 5, 5, 5, 5, 5, 5, 5, 5};
  const auto h2 = [&](int drink) {
    late.drink = {day_minute{7 * 60 + 30 + drink}, day_minute{7 * 60 + 35 + drink}};
    const test_case c =
        case_of(late, shipped("lactulose-10g"), with_readings(early), house_rules());
    return said(criterion_in(c, "nac-2017-h2-90").says);
  };
  CHECK(h2(2) == "meets 15 36");
  CHECK(h2(15) == "does-not-meet 30 1");
  CHECK(h2(20) == "does-not-meet 30 1");
}

TEST_CASE("without a drink no criterion is answered, until a named person sets that aside") {
  paper_record none = sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135});
  none.drink = {};
  received_kit received = with_readings(rising);
  const auto judged_case = [&](const case_rules& rules) {
    return case_of(none, shipped("lactulose-10g"), received, rules);
  };
  test_case c = judged_case(house_rules());
  CHECK(has(c, "no-substrate"));
  for (const judged_criterion& j : c.judged.criteria) {
    CHECK(j.says.what == answer::cannot_be_determined);
    CHECK(j.says.why_not == undecided::no_substrate);
  }
  CHECK(c.axes.words.rfind("Gas: no answer, as the drink was not taken or was lost.", 0) == 0);
  received.overrides.push_back(
      {received.kit, "no-substrate", std::nullopt, "Dr Osk", "told by telephone", {}, false});
  c = judged_case(house_rules());
  CHECK(criterion_in(c, "nac-2017-h2-90").says.what == answer::meets);
  received.overrides.clear();
  case_rules rules = house_rules();
  rules.profile.judging.substrate.reset();
  CHECK(criterion_in(judged_case(rules), "nac-2017-h2-90").says.what == answer::meets);
}

TEST_CASE("a sheet that says stopped or vomited, and not when, leaves nothing to answer") {
  received_kit received = with_readings(rising);
  const auto what = [&](stated stopped) {
    arrival box;
    box.kit = received.kit;
    box.stopped = stopped;
    received.arrivals = {box};
    const test_case c = case_of(sheet({0, 15, 30, 45, 60, 75, 90, 105, 120, 135}),
                                shipped("lactulose-10g"), received, house_rules());
    return criterion_in(c, "nac-2017-h2-90").says.what;
  };
  CHECK(what(stated::no) == answer::meets);
  CHECK(what(stated::not_stated) == answer::meets);
  CHECK(what(stated::yes) == answer::cannot_be_determined);
}

TEST_CASE("a drink vomited sooner than the profile's time is lost, later or kept whole it is not") {
  const auto answered = [](std::chrono::minutes after, drink_mishap what, drink_part kept) {
    std::vector<event> events = make_events();
    const auto drunk = std::find_if(events.begin(), events.end(), [](const event& e) {
      return std::holds_alternative<drink_started>(e.what);
    });
    REQUIRE(drunk != events.end());
    event vomited = events.back();
    vomited.seq = events.back().seq + 1;
    vomited.what = reported_drink_trouble{what, kept, drunk->at.wall + after, how_known::told, ""};
    events.push_back(vomited);
    const auto log = read_log(write_log(events, "quarterbreath 0.1.0", "")).value();
    const test_case c =
        case_of(log, report_of(log, london_only), with_readings(rising), house_rules()).value();
    return criterion_in(c, "nac-2017-h2-90").says.what == answer::meets;
  };
  using std::chrono::minutes;
  CHECK_FALSE(answered(minutes{59}, drink_mishap::vomited, drink_part::more_than_half));
  CHECK(answered(minutes{60}, drink_mishap::vomited, drink_part::more_than_half));
  CHECK(answered(minutes{59}, drink_mishap::vomited, drink_part::all));
  CHECK(answered(minutes{59}, drink_mishap::unfinished, drink_part::less_than_half));
  CHECK_FALSE(answered(minutes{59}, drink_mishap::spilled, drink_part::none));
}

TEST_CASE("a gas that no criterion is for is not judged, and never 'no criterion is met'") {
  const auto log = read_log(make_log(made_test{})).value();
  case_rules rules = house_rules();
  auto judging = std::make_shared<judging_rules>(*rules.judging);
  for (criterion& one : judging->criteria)
    for (applied_to& a : one.applies_to)
      if (a.substrate == "lactulose" && a.dose_g) a.dose_g = 12;
  rules.judging = judging;
  const test_case c =
      case_of(log, report_of(log, london_only), with_readings(rising), rules).value();
  CHECK(has(c, "gas-not-judged"));
  CHECK(c.axes.gas == answer::cannot_be_determined);
  CHECK(
      c.axes.words.rfind("Gas: no criterion is met so far as can be told. Not judged: hydrogen, no "
                         "criterion here is for 10 g of lactulose; nac-2017-h2-90 is for 12 g.",
                         0) == 0);
}
