// A case from a code alone: the same tubes, minutes, scores and answers as from its log.
#include "core/case/conclusion_basis.hpp"
#include "tests/unit/case/cases.hpp"

using namespace qb;
using namespace qb::test;

namespace {

test_case case_of_code(const code::packed_result& code, const own_files& own = {}) {
  return case_of(code, shipped("lactulose-10g"), with_readings(rising), house_rules(), own).value();
}

code::packed_result code_of(const made_test& how = {}) {
  return code::packed_of(make_events(how)).value();
}

std::string words_of_tube(const case_tube& t) {
  std::string out = std::to_string(t.number) + " " + standing_text(t.standing) + " " + t.how + " " +
                    (t.minute ? t.minute->text() : "-");
  for (const auto& score : t.scores)
    out += score ? " " + std::to_string(*score) : " -";
  return out;
}

} // namespace

TEST_CASE("a code gives the tubes, minutes, scores and answers that its log gives") {
  made_test how;
  how.tube_4_late = std::chrono::seconds{310};
  const test_case by_log = case_with(with_readings(rising), house_rules(), how);
  const test_case by_code = case_of_code(code_of(how));
  REQUIRE(by_code.tubes.size() == by_log.tubes.size());
  for (std::size_t i = 0; i < by_log.tubes.size(); ++i)
    CHECK(words_of_tube(by_code.tubes[i]) == words_of_tube(by_log.tubes[i]));
  CHECK(by_code.zero_at == by_log.zero_at);
  CHECK(by_code.drink_end == by_log.drink_end);
  for (const judged_criterion& j : by_log.judged.criteria)
    CHECK(said(criterion_in(by_code, j.by->id).says) == said(j.says));
  CHECK(by_code.axes.words == by_log.axes.words);
  CHECK(has(by_code, "sample-late"));
  CHECK(has(by_code, "code-only"));
  CHECK_FALSE(has(by_log, "code-only"));
  CHECK(by_code.precision == exact::minutes_of(code_precision));
}

TEST_CASE("a sheet beside a code is a note, and the minutes stay the code's") {
  received_kit received = with_readings(rising);
  const auto with = [&] {
    return case_of(code_of(), shipped("lactulose-10g"), received, house_rules(), {}).value();
  };
  const test_case alone = with();
  CHECK_FALSE(has(alone, "paper-beside-log"));
  received.papers.push_back(sheet({0, 20, 40, 60, 80, 100, 120, 140, 160, 180}));
  const test_case both = with();
  CHECK(has(both, "paper-beside-log"));
  for (std::size_t i = 0; i < both.tubes.size(); ++i)
    CHECK(words_of_tube(both.tubes[i]) == words_of_tube(alone.tubes[i]));
}

TEST_CASE("a tube that a code has as not taken is missed, and has no minute") {
  code::packed_result code = code_of();
  code.samples[8] = code::packed_sample{};
  const test_case c = case_of_code(code);
  CHECK(c.tubes[8].standing == tube_standing::missed);
  CHECK_FALSE(c.tubes[8].minute);
  CHECK(has(c, "sample-missed"));
}

TEST_CASE("every flag of a code is a finding, weighed by the data where that knows it") {
  code::packed_result code = code_of();
  code.flags.insert({"drink-vomited", "slip-told", "flag-60"});
  const test_case c = case_of_code(code);
  for (const std::string& flag : code.flags)
    CHECK(has(c, flag));
  CHECK(has(c, "no-substrate")); // how much of a vomited drink was kept, a code does not say
  CHECK(case_of_code(code_of()).findings.size() + 4 == c.findings.size());
}

TEST_CASE("a drink before tube 1 counts minutes from its start, by the code too") {
  code::packed_result code = code_of();
  code.flags.insert("drink-first");
  code.drink.start = std::chrono::seconds{0};
  for (code::packed_sample& s : code.samples)
    s.elapsed += std::chrono::minutes{3};
  const test_case c = case_of_code(code);
  CHECK(c.zero == time_zero::drink_start);
  CHECK(c.tubes[0].minute->text() == "3");
  CHECK(baseline_of(c.gases) == nullptr);
}

TEST_CASE("a code of another form than the laboratory's test is refused, another text is told") {
  code::packed_result code = code_of();
  CHECK_FALSE(has(case_of_code(code, {{canonical_asset("protocols/lactulose-10g.json")}, {}}),
                  "protocol-other"));
  CHECK(has(case_of_code(code, {{canonical_asset("protocols/glucose-75g.json")}, {}}),
            "protocol-other"));
  code.samples.pop_back();
  const auto no = case_of(code, shipped("lactulose-10g"), with_readings(rising), house_rules());
  REQUIRE_FALSE(no);
  CHECK(no.error().found == "9 tubes and 3 symptoms");
}

TEST_CASE("a code beside its log says nothing where both agree, else what is wrong") {
  auto events = make_events();
  const code::packed_result code = code::packed_of(events).value();
  CHECK(beside_findings(code, events).empty());
  auto shorter = events;
  shorter.pop_back();
  REQUIRE(beside_findings(code, shorter).size() == 1);
  CHECK(beside_findings(code, shorter).front().rule == "code-newer");
  for (event& e : events)
    if (std::holds_alternative<tube_closed>(e.what)) e.at.wall += std::chrono::seconds{60};
  CHECK(beside_findings(code, events).front().rule == "code-differs");
}

TEST_CASE("a conclusion on a code is read again once the log comes") {
  received_kit received = with_readings(rising);
  const test_case then = case_of_code(code_of());
  received.conclusions.push_back(
      {received.kit, "as it stands", "Dr Osk", made_start(), basis_text(basis_in(then, received))});
  const auto now = case_with(received);
  REQUIRE(is_draft(now));
  CHECK(now.since.front() == "the record is of another kind: log now, code then");
}
