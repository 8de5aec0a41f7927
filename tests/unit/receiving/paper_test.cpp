// A paper sheet's line: read, doubted, and set in minutes.
#include "core/receiving/paper.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using std::chrono::minutes;

namespace {

std::vector<minutes> quarters(int count = 10) {
  std::vector<minutes> out;
  for (int i = 0; i < count; ++i)
    out.emplace_back(15 * i);
  return out;
}

paper_record record_of(const paper_line& line) {
  paper_record p;
  p.times = line.times;
  p.past_midnight = line.past_midnight;
  return p;
}

std::vector<std::string> minutes_text(const paper_record& p, time_zero zero) {
  std::vector<std::string> out;
  const auto all = paper_minutes(p, zero);
  if (!all) return out;
  for (const auto& m : *all)
    out.push_back(m ? m->text() : "-");
  return out;
}

} // namespace

TEST_CASE("ten times and a gap are read without a question") {
  const auto line =
      read_paper_line("07:30 7:45 - 8.15 0830 08:46 09:00 09:15 09:30 09:45", quarters());
  REQUIRE(line);
  CHECK(line->questions.empty());
  CHECK_FALSE(line->past_midnight);
  CHECK_FALSE(line->times[2]);
  CHECK(minutes_text(record_of(*line), time_zero::tube_1_closed) ==
        std::vector<std::string>{"0", "15", "-", "45", "60", "76", "90", "105", "120", "135"});
}

TEST_CASE("another number of times, no time, and what is none are refused with their tube") {
  CHECK_FALSE(read_paper_line("07:30 07:45", quarters()));
  CHECK(read_paper_line("07:30 07:45", quarters()).error().found == "2 times");
  const auto bad = read_paper_line("07:30 soon 08:00", quarters(3));
  REQUIRE_FALSE(bad);
  CHECK(bad.error().found == "no time of day for tube 2");
  CHECK(bad.error().where == "times, column 7"); // a word may be a name
  const auto slip = read_paper_line("07:30 07:45 8:75 08:15 08:30", quarters(3));
  CHECK(slip.error().where == "times, column 13, \"8:75\"");
  CHECK_FALSE(read_paper_line("- - -", quarters(3)));
}

TEST_CASE("times that go on after midnight are asked about, once") {
  const auto line = read_paper_line("23:30 23:45 00:00 00:15 -", quarters(5));
  REQUIRE(line);
  REQUIRE(line->questions.size() == 1);
  CHECK(line->questions[0].what == paper_doubt::past_midnight);
  CHECK(line->questions[0].sample == 3);
  CHECK(line->past_midnight);
  CHECK(minutes_text(record_of(*line), time_zero::tube_1_closed) ==
        std::vector<std::string>{"0", "15", "30", "45", "-"});
}

TEST_CASE("a 12-hour clock is asked about, and what is meant is shown") {
  const auto line = read_paper_line("12:30 12:45 1:00 1:15 13:30", quarters(5));
  REQUIRE(line);
  REQUIRE(line->questions.size() == 1);
  CHECK(line->questions[0].what == paper_doubt::twelve_hours);
  CHECK(line->questions[0].sample == 3);
  CHECK(line->questions[0].words.find("13:00") != std::string::npos);
  CHECK(day_minute_text(*line->times[3]) == "13:15");
  CHECK_FALSE(line->past_midnight);
}

TEST_CASE("an evening time among morning ones is a slip of twelve hours too") {
  const auto line = read_paper_line("07:30 19:45 08:00", quarters(3));
  REQUIRE(line);
  REQUIRE(line->questions.size() == 1);
  CHECK(line->questions[0].what == paper_doubt::twelve_hours);
  CHECK(day_minute_text(*line->times[1]) == "07:45");
}

TEST_CASE("a 12-hour clock that goes over midnight is both") {
  const auto line = read_paper_line("23:45 12:00 12:15", quarters(3));
  REQUIRE(line);
  REQUIRE(line->questions.size() == 1);
  CHECK(line->questions[0].what == paper_doubt::twelve_hours);
  CHECK(line->past_midnight);
  CHECK(minutes_text(record_of(*line), time_zero::tube_1_closed) ==
        std::vector<std::string>{"0", "15", "30"});
}

TEST_CASE("a time that is not after the one before is asked about") {
  for (const char* text : {"07:30 07:45 07:40", "07:30 07:30 08:00"}) {
    const auto line = read_paper_line(text, quarters(3));
    REQUIRE(line);
    REQUIRE(line->questions.size() == 1);
    CHECK(line->questions[0].what == paper_doubt::backwards);
  }
}

TEST_CASE("minutes count from the drink where the profile says so, and from nothing unknown") {
  paper_record p = record_of(*read_paper_line("23:55 00:10 00:25", quarters(3)));
  CHECK(minutes_text(p, time_zero::drink_start).empty());
  p.drink.start = read_day_minute("23:57");
  p.drink.end = read_day_minute("00:01");
  CHECK(minutes_text(p, time_zero::drink_start) == std::vector<std::string>{"-2", "13", "28"});
  CHECK(minutes_text(p, time_zero::drink_end) == std::vector<std::string>{"-6", "9", "24"});
  p.times[0].reset();
  CHECK(minutes_text(p, time_zero::tube_1_closed).empty());
}

TEST_CASE("scores are read a group a tube, with or without slashes, and written back") {
  const auto scores = read_paper_scores("000 1-2 10/0/3 -  210", 5, 3, 10);
  REQUIRE(scores);
  CHECK(scores->at(0) == tube_scores{0, 0, 0});
  CHECK(scores->at(1) == tube_scores{1, std::nullopt, 2});
  CHECK(scores->at(2) == tube_scores{10, 0, 3});
  CHECK(scores->at(3) == tube_scores{std::nullopt, std::nullopt, std::nullopt});
  CHECK(paper_scores_text(*scores) == "0/0/0 1/-/2 10/0/3 - 2/1/0");
  CHECK(read_paper_scores(paper_scores_text(*scores), 5, 3, 10) == *scores);
}

TEST_CASE("the sheet's rows A and B are read after the tubes, with their time, and written back") {
  const std::vector<score_time> both{score_time::after_last, score_time::later};
  const std::string_view typed = "000 100 A@10:45 200  B -";
  CHECK(paper_rows_in(typed) == "A@10:45 200  B -");
  CHECK(paper_rows_in("000 100").empty());
  const auto rows = read_paper_after(paper_rows_in(typed), 3, 10, both);
  REQUIRE(rows);
  REQUIRE(rows->size() == 2);
  CHECK(rows->at(0) == paper_after{score_time::after_last, std::chrono::minutes{645}, {2, 0, 0}});
  CHECK(rows->at(1).scores == tube_scores(3));
  CHECK_FALSE(rows->at(1).at);
  CHECK(paper_after_text(*rows) == "A@10:45 2/0/0 B -");
  CHECK(read_paper_after(paper_after_text(*rows), 3, 10, both) == *rows);
  const auto found = [&](const char* text) {
    return read_paper_after(text, 3, 10, {score_time::after_last}).error().found;
  };
  CHECK(found("A") == "0 scores for row A");
  CHECK(found("A 00") == "2 scores for row A");
  CHECK(found("A@25:00 000") == "no time for row A");
  CHECK(found("A 000 A 000") == "row A");
  CHECK(found("B 000") == "row B"); // this test's sheet has none
  CHECK(found("A 000 000 000") == "another word after row A or B");
}

TEST_CASE("too few scores, too high ones and other words are refused with their tube") {
  const auto found = [](const char* text) {
    return read_paper_scores(text, 2, 3, 5).error().found;
  };
  CHECK(found("000") == "scores of 1 tubes");
  CHECK(found("000 000 000") == "scores of 3 tubes");
  CHECK(found("000 00") == "2 scores for tube 2");
  CHECK(found("000 0006") == "4 scores for tube 2");
  CHECK(found("006 000") == "no such score for tube 1");
  CHECK(found("000 0/x/0") == "no such score for tube 2");
  CHECK(found("000 0/0/") == "no such score for tube 2");
  CHECK(found("000 0/0/100") == "no such score for tube 2");
  CHECK(read_paper_scores("  000 0/0/9", 2, 3, 5).error().where == "scores, column 7, \"0/0/9\"");
  CHECK(read_paper_after("   A@25:00 000", 3, 10, {score_time::after_last}).error().where ==
        "scores, column 4");
}
