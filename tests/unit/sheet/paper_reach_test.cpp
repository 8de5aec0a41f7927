// On paper, as on the screens, the laboratory's hours stand beside every number that can be
// dialled, and what to do outside them where nobody can look it up.
#include "core/sheet/empty_sheet.hpp"
#include "core/sheet/preparation.hpp"

#include "tests/unit/sheet/made_plan.hpp"

#include <algorithm>

using namespace qb;
using test::made_plan;

namespace {

std::size_t count_in(const std::string& text, const std::string& words) {
  std::size_t out = 0;
  for (std::size_t at = text.find(words); at != text.npos; at = text.find(words, at + 1))
    ++out;
  return out;
}

// All that is printed on the preparation page, a line each, in its order.
std::string printed(const preparation_text& page) {
  std::string out = page.title + "\n" + page.start + "\n";
  const auto facts = [&](const std::vector<sheet_fact>& all) {
    for (const sheet_fact& f : all)
      out += f.name + ": " + f.value + "\n";
  };
  const auto list = [&](const page_list& l) {
    out += l.title + "\n" + l.note + "\n";
    for (const std::string& line : l.lines)
      out += line + "\n";
  };
  facts(page.first);
  for (const page_moment& m : page.moments)
    out += m.when + " " + m.what + " " + m.more + "\n";
  for (const page_list& food : page.food)
    list(food);
  for (const page_list* one : {&page.evening, &page.morning, &page.medicines, &page.trouble})
    list(*one);
  facts(page.whom);
  for (const std::string& line : page.foot)
    out += line + "\n";
  return out;
}

// The same of the sheet for a pen.
std::string printed(const empty_sheet& sheet) {
  std::string out;
  const auto rows = [&](const std::vector<pen_row>& all) {
    for (const pen_row& row : all) {
      for (const pen_field& field : row)
        out += field.ask + ": " + field.value + "; ";
      out += "\n";
    }
  };
  rows(sheet.top);
  for (const pen_block& block : sheet.blocks) {
    out += block.title + "\n" + block.note + "\n";
    rows(block.rows);
  }
  for (const std::string& line : sheet.foot)
    out += line + "\n";
  return out;
}

// Each line with the number has the hours in it or in the line below.
bool hours_stand_beside(const std::string& text, const lab_profile& lab) {
  for (std::size_t at = text.find(lab.telephone); at != text.npos;
       at = text.find(lab.telephone, at + 1)) {
    const std::size_t line_end = text.find('\n', at);
    const std::size_t next_end = text.find('\n', line_end + 1);
    if (text.substr(at, next_end - at).find(lab.telephone_hours) == std::string::npos) return false;
  }
  return true;
}

} // namespace

TEST_CASE("on the preparation page the hours stand beside the number, and what to do when nobody "
          "answers") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const lab_profile& lab = m.get().lab;
  const preparation_text page = preparation_of(m.get(), m.z, m.instant_of("2027-03-01 12:00"));
  const std::string text = printed(page);
  CHECK(count_in(text, lab.telephone) == 1);
  CHECK(hours_stand_beside(text, lab));
  REQUIRE_FALSE(lab.outside_hours.empty());
  CHECK(count_in(text, "Nobody answers: " + lab.outside_hours) == 1);
  // A page with the number alone is seen as one.
  CHECK_FALSE(hours_stand_beside("Call " + lab.telephone + ".\nThen wait.\n", lab));
}

TEST_CASE("on the sheet for a pen the hours stand beside the number") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const lab_profile& lab = m.get().lab;
  const std::string text = printed(empty_sheet_of(m.get().test, lab, {}, std::nullopt));
  CHECK(count_in(text, lab.telephone) == 1);
  CHECK(hours_stand_beside(text, lab));
}

TEST_CASE("paper for an invented laboratory says that it is for trying, and no other does") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  prepared_plan plan = m.get();
  REQUIRE(plan.lab.for_trying);
  const auto marks = [&] {
    return count_in(printed(preparation_of(plan, m.z, m.instant_of("2027-03-01 12:00"))),
                    for_trying_words) +
           count_in(printed(empty_sheet_of(plan.test, plan.lab, {}, std::nullopt)),
                    for_trying_words);
  };
  CHECK(marks() == 2);
  plan.lab.for_trying = false;
  CHECK(marks() == 0);
}
