// The preparation page on paper, as far as it can be judged from inside;
// tests/outside/run_pdf reads it with other eyes.
#include "app/page/preparation_page.hpp"

#include "tests/unit/sheet/made_plan.hpp"

using namespace qb;
using test::made_plan;

namespace {

constexpr const char* when = "2027-03-01T12:00:00Z";

// Everything as long as it can be: the longest names, and every medicine taken.
preparation_text longest(const std::string& id) {
  made_plan m(id, true);
  m.person("Marguerite-Alexandrina Wilhelmina Ångström-Fennimore of Upper Featherstonehaugh");
  const protocol p = *read_protocol(m.protocol_text);
  for (const washout& w : p.washouts)
    m.told(w.why.rule, washout_answer::until);
  m.plan_for("2027-09-29 10:30"); // a long weekday and month
  prepared_plan plan = m.get();
  plan.kit_number = "QB7-4410-2223-4410-99";
  plan.lab.name = "Fenwick Vale and Upper Featherstonehaugh District Breath Laboratory";
  plan.lab.telephone_hours = "Monday to Thursday, 08:30 to 16:30, and Friday, 08:30 to 12:00";
  return preparation_of(plan, m.z, m.instant_of("2027-09-01 12:00"));
}

int pages_at(const preparation_text& text, double size) {
  page::canvas c(text.title, when);
  page::draw_preparation(c, text, size);
  return c.pages();
}

} // namespace

TEST_CASE("the preparation of every shipped protocol is one page, with the longest names") {
  for (const char* id : test::shipped_protocols) {
    INFO(id);
    CHECK(pages_at(longest(id), 8.5) == 1);
    made_plan usual(id);
    usual.plan_for("2027-04-06 07:30");
    CHECK(pages_at(preparation_of(usual.get(), usual.z, usual.at.wall), 9.5) == 1);
    const auto pdf = page::draw_preparation_pdf(longest(id), when);
    REQUIRE(pdf.has_value());
    CHECK(pdf->substr(0, 5) == "%PDF-");
  }
}

TEST_CASE(
    "a larger size takes more of the page, so that the size chosen is the largest that fits") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const preparation_text text = preparation_of(m.get(), m.z, m.at.wall);
  double before = 0;
  for (auto size = std::rbegin(page::preparation_sizes); size != std::rend(page::preparation_sizes);
       ++size) {
    if (pages_at(text, *size) > 1) break;
    page::canvas c(text.title, when);
    const double y = page::draw_preparation(c, text, *size);
    CHECK(y > before);
    before = y;
  }
  CHECK(before > page::mm(200));
}

TEST_CASE("the same plan gives the same page, another moment or practice another one") {
  const preparation_text text = longest("lactulose-10g");
  const auto once = page::draw_preparation_pdf(text, when);
  const auto again = page::draw_preparation_pdf(text, when);
  const auto dated = page::draw_preparation_pdf(text, "2027-03-02T12:00:00Z");
  preparation_text real = text;
  real.rehearsal = false;
  const auto marked = page::draw_preparation_pdf(real, when);
  REQUIRE((once && again && dated && marked));
  CHECK(*once == *again);
  CHECK(*once != *dated);
  CHECK(*once != *marked);
}

TEST_CASE("more than a page can hold goes over to the next instead of being lost") {
  preparation_text text = longest("fructose-25g");
  for (int n = 0; n < 40; ++n)
    text.moments.push_back({"Wednesday 29 September, 10:30", "One more step",
                            "A protocol of a laboratory's own may have as many as it likes."});
  CHECK(pages_at(text, 8) > 1);
  CHECK(page::draw_preparation_pdf(text, when).has_value());
}

TEST_CASE("a page with a letter that no font has is drawn all the same") {
  preparation_text text = longest("lactulose-10g");
  text.first.front().value = "Maren \U0010FFF0";
  CHECK(page::draw_preparation_pdf(text, when).has_value());
}
