// A finding has the same fields whichever command shows it.
#include "app/lab/render/finding_json.hpp"

#include "tests/unit/lab/laboratory.hpp"

#include <algorithm>

namespace qb::lab {

namespace {

using json::value;

std::vector<std::string> keys_of(const value& v) {
  std::vector<std::string> out;
  for (const json::member& m : *v.members())
    out.push_back(m.first);
  return out;
}

const finding late{"sample-late", consequence::review, sample_number(4), {17},
                   {4, 5},        "5 min late"};

// Whether a list holds a finding with all of those fields and their values.
bool holds(const value& list, const value& one) {
  return std::any_of(list.items()->begin(), list.items()->end(), [&](const value& other) {
    return std::all_of(one.members()->begin(), one.members()->end(), [&](const auto& m) {
      const value* its = other.find(m.first);
      return its != nullptr && json::canonical(*its) == json::canonical(m.second);
    });
  });
}

} // namespace

TEST_CASE("what follows from a finding, and what a code notes, have the finding's own fields") {
  const value found = finding_json(late);
  CHECK(json::one_line(found) ==
        R"({"rule":"sample-late","weight":"review","tube":4,"words":"5 min late",)"
        R"("events":[17],"figures":[4,5]})"
        "\n");
  const case_finding weighed{late, "Tube late", "", consequence::cannot_be_used, {}};
  const value followed = finding_json(weighed);
  for (const json::member& m : *found.members())
    CHECK(json::canonical(*followed.find(m.first)) == json::canonical(m.second));
  CHECK(*followed.find("consequence")->text() == "cannot-be-used");
  CHECK(followed.find("source")->is_null());
  CHECK(followed.find("set_aside")->is_null());
  CHECK(keys_of(finding_json(late.rule)) == keys_of(found));
}

TEST_CASE("show, receive and the report tell one finding alike") {
  laboratory lab;
  made_test late_and_eaten;
  late_and_eaten.tube_4_late = std::chrono::minutes{6};
  late_and_eaten.food_told = true;
  lab.import(late_and_eaten);
  const value box = lab.received("FV-3001", "y posted 2027-04-07 -9");
  const value shown = lab.shown("FV-3001");
  const value report = lab.judged("FV-3001");
  const value& told = *report.find("findings");
  const value& of_log = *shown.find("tests")->items()->front().find("findings");
  for (const value* list : {&of_log, box.find("findings"), box.find("record_findings")}) {
    REQUIRE_FALSE(list->items()->empty());
    for (const value& one : *list->items()) {
      INFO(json::one_line(one));
      CHECK(holds(told, one));
    }
  }
}

} // namespace qb::lab
