// The sheet for a pen: what is printed is only what is sure before the test.
#include "core/sheet/empty_sheet.hpp"

#include "tests/support/scripted_test.hpp"
#include "tests/unit/sheet/made_plan.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using test::made_plan;

namespace {

bool asks(const empty_sheet& s, const std::string& words) {
  const auto has = [&](const pen_row& row) {
    for (const pen_field& f : row)
      if (f.ask == words) return true;
    return false;
  };
  for (const pen_row& row : s.top)
    if (has(row)) return true;
  for (const pen_block& b : s.blocks)
    for (const pen_row& row : b.rows)
      if (has(row)) return true;
  return false;
}

} // namespace

TEST_CASE("every shipped protocol has an empty sheet with its offsets, symptoms and windows") {
  for (const char* id : test::shipped_protocols) {
    INFO(id);
    made_plan m(id);
    const protocol p = *read_protocol(m.protocol_text);
    const empty_sheet s = empty_sheet_of(p, lab_profile{}, {}, std::nullopt);
    REQUIRE(s.rows.size() == p.samples());
    CHECK(s.rows.front().offset == "first");
    CHECK(s.rows[1].offset == offset_text(p, sample_number(2)));
    CHECK(s.symptoms.size() == p.symptoms.size());
    CHECK(s.condition.empty());
    for (const empty_row& row : s.rows)
      CHECK(row.planned.empty());
    for (const preparation_window& w : p.windows)
      CHECK(asks(s, w.name));
    for (const char* asked : {"All of it drunk?", "Any of it spilled?", "Any of it vomited?",
                              "Last food, what and when:"})
      CHECK(asks(s, asked));
  }
}

TEST_CASE("a planned start prints times, each under the condition that it was kept") {
  made_plan m;
  const protocol p = *read_protocol(m.protocol_text);
  const planned_start start{m.instant_of("2027-04-06 07:30"), m.z};
  const empty_sheet s = empty_sheet_of(p, lab_profile{}, {"", std::nullopt, "", "FV-2C7H"}, start);
  CHECK(s.condition == "Only if tube 1 was at 07:30");
  CHECK(s.kit_number == "FV-2C7H");
  CHECK(s.rows[0].planned == "07:30");
  CHECK(s.rows[1].planned == "07:45");
  CHECK(s.rows[9].planned == "09:45");
}

TEST_CASE("labels ahead of a test have person and offsets, and leave date and time to the pen") {
  made_plan m;
  const protocol p = *read_protocol(m.protocol_text);
  const civil_date born = *parse_date("1957-02-11");
  const auto labels = labels_ahead(p, {"Maren Oakhollow", born, "Dr Ivo Brandreth", "FV-2C7H"});
  REQUIRE(labels.size() == p.samples());
  CHECK(labels[1].offset == "+15 min");
  CHECK(labels[1].birth_short == "11 Feb 1957");
  CHECK(labels[1].time.empty());
  CHECK(labels[1].date_short.empty());
}

TEST_CASE("where scores are asked after the tubes, the empty sheet has a row for each of them") {
  const lab_profile lab = test::fenwick();
  const empty_sheet sheet = empty_sheet_of(test::shipped("lactose-25g"), lab, {}, std::nullopt);
  REQUIRE(sheet.blocks.front().title == "How you feel after the tubes");
  REQUIRE(sheet.blocks.front().rows.size() == 2);
  CHECK(sheet.blocks.front().rows[0].front().ask ==
        "A. after the last tube, 3 h 30 min after tube 1; at (hour, minute)");
  CHECK(sheet.blocks.front().rows[1].front().ask ==
        "B. later the same day, 6 h after the drink; at (hour, minute)");
  CHECK(sheet.blocks.front().rows[0].size() == 6);
  CHECK(empty_sheet_of(test::lactulose(), lab, {}, std::nullopt).blocks.front().title ==
        "The drink");
}
