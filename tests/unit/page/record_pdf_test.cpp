// Paper as far as it can be judged from inside; tests/outside/run_pdf reads it with other eyes.
#include "app/page/record_pdf.hpp"

#include "app/page/canvas.hpp"
#include "app/page/labels_pdf.hpp"
#include "tests/unit/page/made_sheet.hpp"

#include <catch2/catch.hpp>

namespace qb {

namespace {

constexpr const char* when = "2027-04-06T10:05:00Z";

} // namespace

TEST_CASE("the same record gives the same bytes") {
  const auto once = page::draw_record_pdf(made_sheet(10, false), made_labels(10, false), when);
  const auto again = page::draw_record_pdf(made_sheet(10, false), made_labels(10, false), when);
  REQUIRE(once.has_value());
  REQUIRE(again.has_value());
  CHECK(once->size() > 10000);
  CHECK(once->substr(0, 5) == "%PDF-");
  CHECK(*once == *again);
}

TEST_CASE("another record or another date gives other bytes") {
  const auto once = page::draw_record_pdf(made_sheet(10, false), made_labels(10, false), when);
  const auto dated =
      page::draw_record_pdf(made_sheet(10, false), made_labels(10, false), "2027-04-07T10:05:00Z");
  const auto practice = page::draw_record_pdf(made_sheet(10, true), made_labels(10, true), when);
  REQUIRE((once && dated && practice));
  CHECK(*once != *dated);
  CHECK(*once != *practice);
}

TEST_CASE("a line of 10 points is 10 points on paper, not 13") {
  page::canvas c("Lines", when);
  // Noto Sans is 1.362 em high: 4.8 mm at 10 points.
  CHECK(c.height_of(-1, "Tube 1", {10}) == Approx(13.62).margin(0.1));
  CHECK(c.height_of(-1, "Tube 1", {10}) == Approx(page::mm(4.8)).margin(0.1));
  // Figures stand under each other because they are of one width.
  CHECK(c.width_of("1111", {10}) == Approx(c.width_of("0000", {10})).margin(0.01));
}

TEST_CASE("a letter without a font is a square, and the whole text is kept for a code") {
  page::canvas c("Lines", when);
  const std::string name = "Maren \U0010FFF0"; // a private character no font has
  CHECK(c.text(0, 0, 200, {name, "name"}, {10}) > 0);
  CHECK(c.text(0, 20, 200, {name, "label 1 name"}, {10}) > 0);
  CHECK(c.text(0, 40, 200, {"Maren", "doctor"}, {10}) > 0);
  REQUIRE(c.stood_in().size() == 1);
  CHECK(c.stood_in()[0].text == name);
  CHECK(c.stood_in()[0].what == "name");
  CHECK(c.width_of(name, {10}) == Approx(c.width_of("Maren \u25A1", {10})));
  CHECK(c.finish().has_value());
}

TEST_CASE("a text that would turn its order on paper shows how, and its whole stands as a code") {
  page::canvas c("Lines", when);
  const std::string name = "Maren \u202Ewollohkao";
  (void)c.text(0, 0, 400, {name, "name"}, {10});
  CHECK(c.width_of(name, {10}) == Approx(c.width_of("Maren \\u202ewollohkao", {10})));
  CHECK(c.stood_in().size() == 1);
}

TEST_CASE("no letter stops a record or a label, and a label says which were replaced") {
  std::vector<label_text> labels = made_labels(3, false);
  labels[1].name = "Maren \U0010FFF0";
  CHECK(page::draw_record_pdf(made_sheet(3, false), labels, when).has_value());
  const auto alone = page::draw_labels_pdf(labels, plain_paper(), {}, when);
  REQUIRE(alone.has_value());
  CHECK(alone->stood_in == std::vector<std::string>{"label 2 name"});
}

TEST_CASE("names in Greek, Polish and Cyrillic letters are drawn") {
  for (const char* name :
       {"Ελευθερία Παπανικολάου", "Świętosława Wiśniewska", "Валентина Черноброва"}) {
    std::vector<label_text> labels = made_labels(1, false);
    labels[0].name = name;
    CHECK(page::draw_labels_pdf(labels, plain_paper(), {}, when).has_value());
  }
}

TEST_CASE("24 rows, long words and no words at all are drawn") {
  sheet_text s = made_sheet(24, true);
  for (sheet_row& r : s.rows)
    r.comment = std::string(500, 'w');
  CHECK(page::draw_record_pdf(s, made_labels(24, true), when).has_value());
  CHECK(page::draw_record_pdf(sheet_text{}, {}, when).has_value());
}

} // namespace qb
