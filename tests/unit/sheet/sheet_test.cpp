// Labels, the sheet and the CSV: what a person copies and what a laboratory files.
// All of them are cut from the same state, so each is held against one whole test.
#include "core/sheet/sheet.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

using namespace qb;
using namespace qb::test;

namespace {

const zone& london() {
  return zone_named("Europe/London");
}

// Cells of RFC 4180 text, by a reader written after the RFC's grammar.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"') {
        rows.back().back() += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        rows.back().back() += text[++i];
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      rows.back().emplace_back();
    } else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      ++i;
      rows.emplace_back(1);
    } else {
      rows.back().back() += c;
    }
  }
  if (rows.back() == std::vector<std::string>{""}) rows.pop_back();
  return rows;
}

} // namespace

TEST_CASE("a label carries what the tube needs, and its time only once it was closed") {
  // Common practice: date, name, date of birth, requesting doctor, sample number, time.
  patient p;
  p.open_and_plan();
  label_text label = label_of(p.current(), sample_number(2));
  CHECK(label.name == "Maren Oakhollow");
  CHECK(label.birth_date == "11 February 1957");
  CHECK(label.doctor == "Dr Ivo Brandreth");
  CHECK(label.kit_number == "FV-2071");
  CHECK(label.number == sample_number(2));
  CHECK(label.offset == "+15 min");
  CHECK(label.date.empty());
  CHECK(label.time.empty());
  p.pass_the_gate();
  p.score(1);
  p.clock.pass(149s + 999ms); // tube 1 closes at 07:30:39.999
  p.breathe(1);
  label = label_of(p.current(), sample_number(1));
  CHECK(label.offset == "first");
  CHECK(label.date == "6 April 2027");
  CHECK(label.time == "07:30"); // cut, not rounded
}

TEST_CASE("a label's time is what the device showed, also when its clock is set later") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2);
  p.clock.step(1h);
  REQUIRE(p.tell(label_written{sample_number(2)}));
  CHECK(label_of(p.current(), sample_number(2)).time == "07:45");
}

TEST_CASE("the sheet has a row for every tube, in order, with due times from tube 1") {
  patient p;
  p.through_the_drink();
  p.sample(2);
  p.wait_for(4);
  const sheet_text sheet = sheet_of(p.current(), p.clock.look(), london());
  REQUIRE(sheet.rows.size() == 10);
  for (std::size_t i = 0; i < 10; ++i)
    CHECK(sheet.rows[i].number.value() == static_cast<int>(i) + 1);
  CHECK(sheet.rows[0].due == "07:30");
  CHECK(sheet.rows[1].due == "07:45");
  CHECK(sheet.rows[1].closed == "07:45");
  CHECK(sheet.rows[1].how == "pressed");
  CHECK(sheet.rows[1].late == "on time");
  CHECK(sheet.rows[1].scores == std::vector<std::string>{"1", "1", "1"});
  CHECK(sheet.rows[2].late == "missed");
  CHECK(sheet.rows[2].closed.empty());
  CHECK(sheet.rows[3].late.empty());
  CHECK(sheet.rows[3].scores == std::vector<std::string>{"-", "-", "-"});
  CHECK(sheet.rows[9].due == "09:45");
  CHECK(sheet.symptoms ==
        std::vector<std::string>{"Bloating", "Pain in your belly", "Feeling sick"});
  CHECK(sheet.first[4].value == "2 of 10");
  CHECK(sheet.first[5].value == "07:30 to 07:31");
  CHECK(sheet.foot.back() ==
        "This sheet records what happened. It is not a result and not a diagnosis.");
}

TEST_CASE("what the laboratory asked to be kept before is on the sheet") {
  patient p;
  p.open_and_plan();
  const sheet_text sheet = sheet_of(p.current(), p.clock.look(), london());
  const auto has = [&](const std::string& name, const std::string& value) {
    for (const sheet_fact& f : sheet.preparation) {
      if (f.name == name && f.value == value) return true;
    }
    return false;
  };
  CHECK(has("Water only; no smoking", "Monday 19:30 to Tuesday 07:30")); // both last as long
  CHECK(has("Stay awake, no exercise", "Tuesday 06:30 to Tuesday 07:30"));
  CHECK(has("Last by 9 March 2027", "Antibiotics"));
  // What may last be on the same day shares a line: paper is short.
  CHECK(has("Last by 23 March 2027", "Bowel cleansing; colonoscopy"));
  std::size_t washouts = 0;
  for (const sheet_fact& f : sheet.preparation)
    washouts += f.name.find("Last by ") == 0 ? 1U : 0U;
  CHECK(sheet.preparation.size() == lactulose().windows.size() - 1 + washouts);
  for (const washout& w : lactulose().washouts) {
    const auto named =
        std::count_if(sheet.preparation.begin(), sheet.preparation.end(), [&](const sheet_fact& f) {
          return f.value.find(w.name.substr(1)) != std::string::npos;
        });
    CHECK(named == 1);
  }
}

TEST_CASE("tubes of which the same is to be told share a line of the sheet") {
  patient p;
  p.through_the_drink();
  p.sample(2);
  p.wait_for(8);
  p.sample(8);
  const auto sheet = sheet_of(p.current(), p.clock.look(), london());
  const auto told = [&](const std::string& line) {
    return std::count(sheet.told.begin(), sheet.told.end(), line);
  };
  CHECK(told("Tubes 3 to 7 not taken.") == 1);
  CHECK(std::none_of(sheet.told.begin(), sheet.told.end(),
                     [](const std::string& x) { return x == "Tube 3 not taken."; }));
}

TEST_CASE("numbers of tubes read as a person says them") {
  CHECK(tubes_in_words({4}) == "4");
  CHECK(tubes_in_words({4, 5}) == "4 and 5");
  CHECK(tubes_in_words({4, 5, 6}) == "4 to 6");
  CHECK(tubes_in_words({1, 3, 5, 6, 7, 9, 10}) == "1, 3, 5 to 7, 9 and 10");
}

TEST_CASE("the CSV is RFC 4180 with a heading and one line a tube") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2);
  p.label(2);
  REQUIRE(p.tell(reported_symptoms{sample_number(2),
                                   {{"bloating", 3}, {"pain", std::nullopt}, {"nausea", 0}},
                                   "a \"hot\" cup, then rest"}));
  p.wait_for(4);
  const std::string text = sheet_csv(p.current(), p.clock.look());
  CHECK(text.substr(text.size() - 2) == "\r\n");
  const auto rows = read_csv(text);
  REQUIRE(rows.size() == 11);
  CHECK(rows[0] == std::vector<std::string>{"kit_number", "protocol", "kind", "sample", "due_utc",
                                            "closed_utc", "closed_local", "how_known", "late_s",
                                            "spoiled", "bloating", "pain", "nausea", "comment"});
  for (const auto& row : rows)
    CHECK(row.size() == rows[0].size());
  CHECK(rows[2] == std::vector<std::string>{"FV-2071", "lactulose-10g", "test", "2",
                                            "2027-04-06T06:45:00Z", "2027-04-06T06:45:10Z",
                                            "2027-04-06 07:45", "observed", "10", "", "3", "", "0",
                                            "a \"hot\" cup, then rest"});
  CHECK(rows[3][7] == "missed");
  CHECK(rows[3][5].empty());
  CHECK(rows[4][7].empty());
}

TEST_CASE("a cell is quoted where RFC 4180 asks for it and nowhere else") {
  CHECK(csv_cell("plain") == "plain");
  CHECK(csv_cell("") == "");
  CHECK(csv_cell("a,b") == "\"a,b\"");
  CHECK(csv_cell("a \"b\"") == "\"a \"\"b\"\"\"");
  CHECK(csv_cell("two\nlines") == "\"two\nlines\"");
  CHECK(csv_cell("a;b") == "a;b");
}

TEST_CASE("a row is its cells, each as it must be written, with a comma between") {
  CHECK(csv_row({"a,b", "", "=1", "7"}) == "\"a,b\",,'=1,7\r\n");
  CHECK(csv_row({"alone"}) == "alone\r\n");
}

TEST_CASE("words that a spreadsheet would show as something else are kept words") {
  for (const char* word : {"007", "1E5", "2E-2234", "1/2", "TRUE", "false", "4-7", "12:30", "50%",
                           "1,5", "12345678901234567890"}) {
    CAPTURE(word);
    CHECK(csv_words(word) == "'" + std::string(word));
  }
  for (const char* word : {"", "FV-2071", "42", "0", "2 tablets", "none", "E", "-", "true story"}) {
    CAPTURE(word);
    CHECK(csv_words(word) == word);
  }
}

TEST_CASE("no cell can become a formula in a spreadsheet") {
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("+44 1632 960417") == "'+44 1632 960417");
  CHECK(csv_cell("-2+3") == "'-2+3");
  CHECK(csv_cell("@sum") == "'@sum");
  CHECK(csv_cell("\t=1") == "'\t'=1");
  CHECK(csv_cell("=HYPERLINK(\"x\",\"y\")") == "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
  CHECK(csv_cell(" =1") == " '=1");
  CHECK(csv_cell("\uFF1D1+1") == "'\uFF1D1+1"); // of full width
  // A negative count stays a number.
  CHECK(csv_cell("-30") == "-30");
  CHECK(csv_cell("-") == "'-");
}

TEST_CASE("no part of a cell can become a formula where semicolons or tabs part cells") {
  CHECK(csv_cell("x;=1+1") == "x;'=1+1");
  CHECK(csv_cell("x; =1+1;-2") == "x; '=1+1;'-2");
  CHECK(csv_cell("x\t@sum") == "x\t'@sum");
  CHECK(csv_cell("x\n+1") == "\"x\n'+1\"");
  CHECK(csv_cell("x;\"=1\"") == "\"x;\"\"'=1\"\"\"");
  CHECK(csv_cell("a - b = c") == "a - b = c");
}

TEST_CASE("what cannot be seen or turns the order shows itself in a cell") {
  CHECK(csv_cell("gut\u202Egnihton") == "gut\\u202egnihton");
  CHECK(csv_cell("\uFEFF=1") == "\\ufeff=1");
}

TEST_CASE("practice is marked on label, sheet and in every line of the CSV") {
  patient p;
  REQUIRE(p.tell(opened{"x", "y", true, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  REQUIRE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  CHECK(label_of(p.current(), sample_number(1)).rehearsal);
  CHECK(sheet_of(p.current(), p.clock.look(), london()).rehearsal);
  const auto rows = read_csv(sheet_csv(p.current(), p.clock.look()));
  for (std::size_t i = 1; i < rows.size(); ++i)
    CHECK(rows[i][2] == "rehearsal");
}

TEST_CASE("scores that belong to no tube are rows of sheet and CSV, under the tubes") {
  patient p;
  p.scores_after = true;
  p.through_the_tubes();
  const sheet_text before = sheet_of(p.current(), p.clock.look(), london());
  REQUIRE(before.after.size() == 2); // asked, and not given yet
  CHECK(before.after[0].name == "After the last tube");
  CHECK(before.after[0].offset == "+2 h 30 min");
  CHECK(before.after[0].due == "10:00");
  CHECK(before.after[0].given.empty());
  CHECK(before.after[0].scores == std::vector<std::string>{"-", "-", "-"});
  p.score_after_the_tubes();
  REQUIRE(p.tell(corrected{p.current().of(score_time::after_last).events.front(),
                           right_score{"bloating", 5}, "a slip"}));
  const sheet_text sheet = sheet_of(p.current(), p.clock.look(), london());
  CHECK(sheet.rows.size() == 10);
  CHECK(sheet.after[0].given == "10:01");
  CHECK(sheet.after[0].scores == std::vector<std::string>{"5", "-", "-"});
  CHECK(sheet.after[0].comment == "a walk");
  CHECK(sheet.after[0].corrections ==
        std::vector<std::string>{"Bloating was 4, put right to 5: a slip"});
  // What stands at its row is not told once more below.
  CHECK(std::none_of(sheet.told.begin(), sheet.told.end(), [](const std::string& line) {
    return line.find("a slip") != std::string::npos;
  }));
  CHECK(sheet.after[1].name == "Later the same day");
  CHECK(sheet.after[1].given == "11:30");
  const auto rows = read_csv(sheet_csv(p.current(), p.clock.look()));
  REQUIRE(rows.size() == 13);
  CHECK(rows[11] == std::vector<std::string>{
                        "FV-2071", "lactulose-10g", "test", "after-last", "2027-04-06T09:00:00Z",
                        rfc3339_utc(p.current().of(score_time::after_last).at->wall),
                        "2027-04-06 10:01", "", "", "", "5", "", "", "a walk"});
  CHECK(rows[12][3] == "later");
  CHECK(rows[12][10] == "7");
}

TEST_CASE("a test that asks for no scores after the tubes has no row of them") {
  patient p;
  p.through_the_tubes();
  CHECK(sheet_of(p.current(), p.clock.look(), london()).after.empty());
  CHECK(read_csv(sheet_csv(p.current(), p.clock.look())).size() == 11);
}
