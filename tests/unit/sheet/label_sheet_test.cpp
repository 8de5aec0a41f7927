// Sheets of labels: the shipped ones, what a reader refuses, and where a label stands.
#include "core/sheet/label_sheet.hpp"

#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

using namespace qb;

namespace {

std::string text_of(const std::string& id) {
  std::ifstream file(repository() + "/assets/labels/" + id + ".json");
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

label_sheet shipped(const std::string& id) {
  auto read = read_label_sheet(text_of(id));
  REQUIRE(read.has_value());
  return *read;
}

std::string changed(const std::string& from, const std::string& to) {
  std::string text = text_of("a4-70x37");
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("the shipped labels are as large as their names say, and from common practice") {
  const label_sheet large = shipped("a4-70x37");
  CHECK(large.columns == 3);
  CHECK(large.rows == 8);
  CHECK((large.label.width == 700 && large.label.height == 370));
  const label_sheet small = shipped("a4-38x21");
  CHECK(small.columns == 5);
  CHECK(small.rows == 13);
  CHECK((small.label.width == 381 && small.label.height == 212));
  const label_sheet roll = shipped("roll-51x25");
  CHECK(roll.roll);
  CHECK((roll.label.width == 508 && roll.label.height == 254));
  for (const label_sheet& s : {large, small, roll}) {
    CHECK(s.basis == "common-practice");
    CHECK_FALSE(s.citation.empty());
  }
}

TEST_CASE("labels that adjoin and stand in the middle of A4 leave the same edge on both sides") {
  for (const char* id : {"a4-70x37", "a4-38x21"}) {
    const label_sheet s = shipped(id);
    const int right = s.page.width - s.left - static_cast<int>(s.columns) * s.pitch_x;
    const int bottom = s.page.height - s.top - static_cast<int>(s.rows) * s.pitch_y;
    CHECK(std::abs(right - s.left) <= 1);
    CHECK(std::abs(bottom - s.top) <= 1);
  }
}

TEST_CASE("plain paper for cutting has the grid of the most common sheet") {
  const label_sheet s = shipped("a4-70x37");
  const label_sheet& plain = plain_paper();
  CHECK((plain.page.width == s.page.width && plain.page.height == s.page.height));
  CHECK((plain.columns == s.columns && plain.rows == s.rows));
  CHECK((plain.label.width == s.label.width && plain.label.height == s.label.height));
  CHECK((plain.left == s.left && plain.top == s.top));
  CHECK((plain.pitch_x == s.pitch_x && plain.pitch_y == s.pitch_y));
  CHECK((plain.margin_x == s.margin_x && plain.margin_y == s.margin_y));
}

TEST_CASE("labels that overlap, leave the page or are several on a roll are refused") {
  const auto refused = [](const std::string& text, const std::string& found) {
    const auto no = read_label_sheet(text);
    REQUIRE_FALSE(no.has_value());
    CHECK(sentence(no.error()).find(found) != std::string::npos);
  };
  refused(changed("\"x\": 700", "\"x\": 699"), "pitch");
  refused(changed("\"x\": 700", "\"x\": 701"), "labels up to 2102 and 2965");
  refused(changed("\"columns\": 3", "\"columns\": 4"), "labels up to 2800");
  refused(changed("\"sheet\"", "\"roll\""), "a roll of 24 labels a page");
  refused(changed("\"unit\": \"0.1 mm\"", "\"unit\": \"mm\""), "unit");
  refused(changed("\"rows\": 8", "\"rows\": 8, \"rowz\": 1"), "rowz");
}

TEST_CASE("a label stands at its column and row, moved by the offsets, after those already used") {
  const label_sheet s = shipped("a4-70x37");
  const label_place first = place_of(s, {}, 0);
  CHECK((first.page == 0 && first.left == 0 && first.top == 5));
  const label_place begun = place_of(s, {5, 7, -4}, 0); // second row, second column
  CHECK((begun.page == 0 && begun.left == 707 && begun.top == 371));
  const label_place over = place_of(s, {23, 0, 0}, 2); // the 25th place
  CHECK((over.page == 1 && over.left == 0 && over.top == 5));
  const label_place third = place_of(shipped("roll-51x25"), {}, 2);
  CHECK((third.page == 2 && third.left == 0 && third.top == 0));
}

TEST_CASE("a start beyond the sheet and offsets beyond a centimetre are refused by their option") {
  const label_sheet s = shipped("a4-70x37");
  CHECK(check_print(s, {24, 100, -100}).has_value());
  CHECK(check_print(s, {25, 0, 0}).error().where == "--start-at");
  CHECK(check_print(s, {0, 0, 0}).error().where == "--start-at");
  CHECK(check_print(s, {1, 101, 0}).error().where == "--offset-x");
  CHECK(check_print(s, {1, 0, -101}).error().where == "--offset-y");
}
