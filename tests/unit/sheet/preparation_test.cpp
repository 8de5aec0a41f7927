// What stands on the preparation page, read as the person reads it.
#include "core/sheet/preparation.hpp"

#include "tests/unit/sheet/made_plan.hpp"

#include <algorithm>

using namespace qb;
using test::made_plan;

namespace {

preparation_text page_of(const made_plan& m) {
  return preparation_of(m.get(), m.z, m.instant_of("2027-03-01 12:00"));
}

bool says(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

} // namespace

TEST_CASE("the page names the start, the person and the kit, and each step with its day") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const preparation_text page = page_of(m);
  CHECK(page.start == "Tuesday 6 April 2027, 07:30");
  REQUIRE(page.first.size() == 4);
  CHECK(page.first[0].value == "Marguerite Ångström-Fennimore");
  CHECK(page.first[1].value == "FV-2071");
  CHECK(page.first[3].value == "lactulose, 10 g, syrup");
  REQUIRE(page.moments.size() == 6);
  CHECK(page.moments[0].when == "Monday 5 April, 07:30");
  CHECK(page.moments[0].what == "Plain food only");
  CHECK(page.moments[1].when == "Monday 5 April, 19:30");
  CHECK(page.moments[1].what == "Water only; no smoking");
  CHECK(page.moments[1].more == "Until Tuesday 6 April, 07:30. " +
                                    find_window(m.get().test, "fast")->text + " " +
                                    find_window(m.get().test, "smoke-free")->text);
  CHECK(page.moments[2].what == "Stay awake, no exercise");
  CHECK(page.moments[3].when == "Tuesday 6 April, 07:30");
  CHECK(page.moments[4].what == "Last tube, number 10");
  CHECK(page.moments[5].when == "Tuesday 20 April");
}

TEST_CASE("foods fit the test, unless allergic or told to avoid them") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const preparation_text page = page_of(m);
  REQUIRE(page.food.size() == 1);
  CHECK(page.food[0].title == "Food that fits the test");
  CHECK(page.food[0].lines.front() == "White bread");
  CHECK(page.food[0].lines.back() == "To drink: water and black tea or coffee, nothing in it");
  CHECK(page.food[0].note.find("Leave out what you are allergic to or told to avoid.") == 0);
  CHECK(page.food[0].note.find("Call the laboratory") != std::string::npos);
}

TEST_CASE("tubes that stay empty are named") {
  made_plan ten;
  ten.plan_for("2027-04-06 07:30");
  CHECK(page_of(ten).evening.note.empty());
  made_plan seven("lactose-25g");
  seven.plan_for("2027-04-06 07:30");
  CHECK(page_of(seven).evening.note == "Tubes 8 to 10 stay empty.");
  CHECK(page_of(seven).evening.lines.front() == "The 7 tubes and the straw");
  protocol p = *read_protocol(seven.protocol_text);
  p.tubes_in_kit = 8;
  CHECK(empty_tubes_text(p) == "Tube 8 stays empty.");
}

TEST_CASE("lists have boxes; the morning asks what may have changed") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const preparation_text page = page_of(m);
  CHECK(page.evening.boxes);
  CHECK(page.morning.boxes);
  CHECK(says(page.evening.lines, "alarm clock"));
  CHECK(says(page.morning.lines, "Water only; no smoking, since 19:30"));
  CHECK(says(page.morning.lines, "Medicines as prescribed or as told"));
  CHECK(says(page.morning.lines, "Diabetes medicines as told"));
  prepared_plan silent = m.get(); // a protocol that says nothing of them
  silent.test.medicines.clear();
  CHECK(says(preparation_of(silent, m.z, m.instant_of("2027-03-01 12:00")).morning.lines,
             "Medicines as prescribed"));
  CHECK(says(page.trouble.lines,
             "Call before you open anything, for: low blood sugar today; too weak"));
  CHECK(says(page.trouble.lines, "new medicine"));
  CHECK_FALSE(page.medicines.boxes);
}

TEST_CASE("medicines are taken as prescribed, and what was told of them stands there") {
  made_plan m;
  m.told("laxatives", washout_answer::until);
  m.told("prokinetics", washout_answer::cannot_stop);
  for (const char* none : {"antibiotics", "anti-diarrhoeals", "bowel-cleansing", "colonoscopy"})
    m.told(none, washout_answer::never);
  m.plan_for("2027-04-06 07:30");
  const auto lines = page_of(m).medicines.lines;
  CHECK(lines.front().find("Take all of them as prescribed or as told for this test. Not sure? Ask "
                           "your prescriber or pharmacist. Never just leave one out.") == 0);
  CHECK(says(lines, "Laxatives, from Wednesday 31 March: " +
                        find_washout(m.get().test, "laxatives")->text));
  CHECK(says(lines, "Medicines that speed up the gut: keep taking it as prescribed"));
  CHECK_FALSE(says(lines, "ntibiotics"));
  CHECK(says(lines, "earlier breath test (Wednesday 31 March)")); // nobody asked about it yet
  CHECK(says(lines, "Do not change anything by yourself"));
  CHECK(says(lines, "from the day shown: stool softeners and fibre, probiotics and earlier "
                    "breath test (Wednesday 31 March)."));
}

TEST_CASE("medicines of which the same is said are named together") {
  made_plan m;
  const protocol test = *read_protocol(m.protocol_text);
  for (const washout& w : test.washouts)
    m.told(w.why.rule, washout_answer::until);
  m.plan_for("2027-04-06 07:30");
  const auto lines = page_of(m).medicines.lines;
  const std::string text = find_washout(test, "laxatives")->text;
  CHECK(says(lines, "Laxatives, stool softeners and fibre, probiotics and medicines that speed up "
                    "the gut, from Wednesday 31 March: " +
                        text));
}

TEST_CASE(
    "when something goes wrong: low blood sugar first, no blame, and whom to call with hours") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const preparation_text page = page_of(m);
  CHECK(page.trouble.lines.front() == "Low blood sugar: take your own sugar, then call.");
  CHECK(says(page.trouble.lines, "Thank you."));
  REQUIRE(page.whom.size() == 4);
  CHECK(page.whom[1].value == "01632 960 417");
  CHECK(page.whom[2].value == "Monday to Friday, 8:30 to 16:30");
  CHECK(says(page.trouble.lines, "late or ill: keep the sugar closed. The test can be moved"));
  CHECK(says(page.foot, "Nobody answers: "));
  CHECK(page.whom[3].value == "112");
}

TEST_CASE("the page says when the clocks change in between, and whose clocks it goes by") {
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  CHECK_FALSE(says(page_of(m).foot, "clocks change"));
  CHECK(says(page_of(m).foot, "Europe/London"));
  made_plan spring;
  spring.plan_for("2027-03-28 09:00");
  CHECK(says(page_of(spring).foot, "The clocks change in these days."));
  CHECK(page_of(spring).moments[1].when == "Saturday 27 March, 20:00");
}

TEST_CASE("there is no page without a plan, and one that was called off says so") {
  made_plan m;
  CHECK_FALSE(prepared_plan_of(m.s).has_value());
  m.plan_for("2027-04-06 07:30");
  CHECK_FALSE(page_of(m).called_off);
  m.tell(plan_called_off{"a cold"});
  CHECK(page_of(m).called_off);
  m.plan_for("2027-04-13 07:30");
  CHECK_FALSE(page_of(m).called_off);
  CHECK(m.get().revision == 1);
}

TEST_CASE("a name within a sentence begins small, an abbreviation keeps its capitals") {
  CHECK(within_sentence("Plain food only") == "plain food only");
  CHECK(within_sentence("PPI") == "PPI");
  CHECK(within_sentence("GP letter") == "GP letter");
  CHECK(within_sentence("water") == "water");
  CHECK(within_sentence("A") == "A");
  CHECK(within_sentence("").empty());
}
