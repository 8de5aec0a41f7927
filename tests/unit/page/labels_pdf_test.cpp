// Labels in type: how texts give way to each other, and what is never cut.
// tests/outside/run_paper measures them on the page and reads their codes.
#include "app/page/labels_pdf.hpp"

#include "app/page/data_matrix.hpp"
#include "app/page/label_layout.hpp"
#include "core/sheet/labels.hpp"
#include "tests/unit/page/made_sheet.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;

namespace {

constexpr const char* when = "2027-04-06T10:05:00Z";

// The room inside the smallest label, and inside the largest.
constexpr double small_wide = page::mm(35.5);
constexpr double small_high = page::mm(18.6);
constexpr double large_wide = page::mm(61);
constexpr double large_high = page::mm(32);

page::label_layout laid_out(const label_text& l, double width, double height,
                            double module = page::mm(page::least_matrix_module_mm)) {
  page::canvas c("Trial", when);
  const auto code = page::data_matrix(tube_code_text(l));
  REQUIRE(code.has_value());
  return page::lay_out(c, l, width, height, *code, module);
}

label_text full_label() {
  label_text l = made_labels(1, false).front();
  l.offset = "+2 h 15 min";
  return l;
}

} // namespace

TEST_CASE("everything stands whole on the smallest label, in letters of 6 points or more") {
  label_text l = full_label();
  l.name = "Marguerite Oakhollow-Fen"; // 24 characters
  const page::label_layout fit = laid_out(l, small_wide, small_high);
  CHECK(fit.shortened.empty());
  CHECK(fit.em >= 6);
  CHECK(fit.number_em >= 18);
  CHECK(fit.module == Approx(page::mm(0.38)));
  CHECK(fit.when_high >= page::mm(4));
}

TEST_CASE("a larger label has larger letters, and a longer doctor smaller ones") {
  label_text l = full_label();
  const page::label_layout large = laid_out(l, large_wide, large_high);
  CHECK(large.em == Approx(page::largest_label_em));
  CHECK(large.em > laid_out(l, small_wide, small_high).em);
  l.doctor = "Prof Dr Bartholomew Featherstonehaugh-Cholmondeley";
  const page::label_layout longer = laid_out(l, large_wide, large_high);
  CHECK(longer.shortened.empty());
  CHECK(longer.em < large.em);
}

TEST_CASE("what does not fit is given up in order and told: the doctor first, the name last") {
  label_text l = full_label();
  l.doctor = "Prof Dr Bartholomew Featherstonehaugh-Cholmondeley of Upper Fennimore Regis";
  CHECK(laid_out(l, small_wide, small_high).shortened == std::vector<std::string>{"doctor"});
  l.name = "Marguerite-Alexandrina Wilhelmina Oakhollow"; // two lines
  const page::label_layout two = laid_out(l, small_wide, small_high);
  CHECK(std::find(two.shortened.begin(), two.shortened.end(), "name") == two.shortened.end());
  CHECK(std::find(two.shortened.begin(), two.shortened.end(), "doctor") != two.shortened.end());
  const label_print print;
  const label_sheet& sheet = plain_paper();
  const auto drawn = page::draw_labels_pdf({l}, sheet, print, when);
  REQUIRE(drawn.has_value());
  CHECK(drawn->shortened.empty());
}

TEST_CASE("a name beyond two lines of the smallest letters is refused by its label") {
  label_text l = full_label();
  for (int i = 0; i < 12; ++i)
    l.name += " Oakhollow";
  const auto no = page::draw_labels_pdf({l}, plain_paper(), {}, when);
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().where == "label 1 name");
  CHECK(sentence(no.error()).find("Oakhollow") == std::string::npos);
}

TEST_CASE("a label without a name has the kit at the name's place and nothing of the person") {
  const label_text l = without_name(full_label());
  CHECK(l.name.empty());
  CHECK(l.birth_short.empty());
  CHECK(l.doctor.empty());
  CHECK(laid_out(l, small_wide, small_high).title == "Kit FV-2071");
}

TEST_CASE("the code of a tube is its kit and two digits, in 14 x 14 modules for kit codes") {
  label_text l = full_label();
  l.number = sample_number(7);
  CHECK(tube_code_text(l) == "FV-2071-07");
  CHECK(page::data_matrix("FV-2071-07")->side == 14);
  CHECK(page::data_matrix("FV-2C7H-10")->side == 14);
  CHECK(page::data_matrix("QB7-4410-2223-4410-99-10")->side == 18);
  // An ECC 200 symbol has a solid left and bottom edge (ISO/IEC 16022).
  const code::symbol code = *page::data_matrix("FV-2071-07");
  for (std::size_t i = 0; i < code.side; ++i) {
    CHECK(code.at(0, i));
    CHECK(code.at(i, code.side - 1));
    CHECK(code.at(i, 0) == (i % 2 == 0));
  }
  l.kit_number = "Łódź-7";
  CHECK(tube_code_text(l).empty());
  CHECK_FALSE(page::data_matrix("").has_value());
  CHECK_FALSE(page::data_matrix("Łódź").has_value());
}

TEST_CASE("the same labels at the same places give the same bytes, settings off the sheet none") {
  std::vector<label_text> labels = made_labels(3, false);
  const auto one = page::draw_labels_pdf(labels, plain_paper(), {4, 0, 0}, when);
  const auto same = page::draw_labels_pdf(labels, plain_paper(), {4, 0, 0}, when);
  const auto moved = page::draw_labels_pdf(labels, plain_paper(), {4, 1, 0}, when);
  REQUIRE((one && same && moved));
  CHECK(one->bytes == same->bytes);
  CHECK(one->bytes != moved->bytes);
  CHECK(page::draw_labels_pdf(labels, plain_paper(), {25, 0, 0}, when).error().where ==
        "--start-at");
  CHECK(page::draw_label_test_pdf(plain_paper(), {1, 200, 0}, when).error().where == "--offset-x");
}
