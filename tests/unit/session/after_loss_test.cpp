// What of a damaged record still counts before the drink: by the place of the loss, and by nothing
// else.
#include "core/session/after_loss.hpp"

#include "core/session/going_on.hpp"
#include "core/session/other_sugars.hpp"
#include "tests/unit/session/at_the_sugar.hpp"

#include <algorithm>

using namespace qb;
using namespace qb::test;

namespace {

constexpr const char* another = "no-another-sugar"; // a question that no shipped test asks

// A record with something lost at its end, and what was told since.
class record {
public:
  explicit record(const patient& p) : events_(p.e.events()) {}

  record& lost(bool complete = false, std::vector<std::string> ask_again = {}) {
    return told(record_salvaged{complete ? 0 : 1, complete, std::move(ask_again)});
  }
  record& told(payload what) {
    const auto seq = static_cast<std::int64_t>(events_.size()) + 1;
    events_.push_back({seq, events_.back().at, std::move(what)});
    return *this;
  }
  [[nodiscard]] state now() const { return fold_events(events_); }

private:
  std::vector<event> events_;
};

const protocol& asked_test() {
  return shipped("lactulose-10g");
}

// The first question before the plan, answered that way before the loss.
bool counts(const reported_caution& answer, bool since) {
  const caution& asked = asked_test().cautions.front();
  record r{at_the_sugar()};
  if (!since) r.told(answer).lost();
  if (since) r.lost().told(answer);
  const state s = r.now();
  const noted_caution* told = find_noted_caution(s, answer.rule);
  REQUIRE(told != nullptr);
  return still_counts(s, asked_test(), asked, *told);
}

} // namespace

TEST_CASE("after a loss before the drink the person, the signs and the slips are told again") {
  const state s = record(at_the_sugar()).lost().now();
  CHECK(is_person_lost(s));
  CHECK(are_signs_lost(s));
  CHECK(are_slips_lost(s));
  const state whole = record(at_the_sugar()).now();
  CHECK_FALSE(is_person_lost(whole));
  CHECK_FALSE(are_signs_lost(whole));
  CHECK_FALSE(are_slips_lost(whole));
}

TEST_CASE("where nothing is lost nothing is asked again") {
  const state s = record(at_the_sugar()).lost(true, {another}).now();
  CHECK_FALSE(is_person_lost(s));
  CHECK_FALSE(are_signs_lost(s));
  CHECK_FALSE(are_slips_lost(s));
  CHECK(lost_answers(s, asked_test()).empty());
}

TEST_CASE("what was told since the loss is not asked again, each by itself") {
  const state person = record(at_the_sugar()).lost().told(invented_person()).now();
  CHECK_FALSE(is_person_lost(person));
  CHECK(are_signs_lost(person));
  const state signs =
      record(at_the_sugar()).lost().told(reported_red_flags{sample_number(1), {}}).now();
  CHECK_FALSE(are_signs_lost(signs));
  CHECK(are_slips_lost(signs));
  const state slips =
      record(at_the_sugar()).lost().told(reported_checklist{told_again_list, {}}).now();
  CHECK_FALSE(are_slips_lost(slips));
  CHECK(is_person_lost(slips));
}

TEST_CASE("each of what may be lost stands against the sugar by itself until it is told again") {
  const auto stands = [](const state& s, const std::string& rule) {
    const auto all = hindrances(s, at_the_sugar().clock.look());
    return std::find(all.begin(), all.end(), hindrance{hindrance_kind::unanswered, rule}) !=
           all.end();
  };
  const std::string who = asked_test().age_why.rule;
  CHECK_FALSE(stands(record(at_the_sugar()).now(), who));
  const state lost = record(at_the_sugar()).lost().now();
  for (const std::string& rule : {who, std::string(signs_again), std::string(told_again_list)})
    CHECK(stands(lost, rule));
  const state told = record(at_the_sugar()).lost().told(invented_person()).now();
  CHECK_FALSE(stands(told, who));
  CHECK(stands(told, told_again_list));
}

TEST_CASE("that no slip is left says its own list alone, and only since the loss") {
  CHECK(
      are_slips_lost(record(at_the_sugar()).lost().told(reported_checklist{"evening", {}}).now()));
  CHECK(are_slips_lost(
      record(at_the_sugar()).told(reported_checklist{told_again_list, {}}).lost().now()));
}

TEST_CASE("after the drink, and after the end, nothing is asked again") {
  for (const payload& told : {payload(drink_started{}), payload(test_ended{"stopped"})}) {
    const state s = record(at_the_sugar()).lost(false, {another}).told(told).now();
    CHECK_FALSE(is_person_lost(s));
    CHECK_FALSE(are_signs_lost(s));
    CHECK_FALSE(are_slips_lost(s));
    CHECK(lost_answers(s, asked_test()).empty());
  }
}

TEST_CASE("an answer from before the loss counts where it forbids, and never where it permits") {
  const std::string& rule = asked_test().cautions.front().why.rule;
  CHECK(counts(said(rule, caution_answer::yes), false));
  CHECK(counts(said(rule, caution_answer::unsure), false));
  CHECK_FALSE(counts(again(said(rule, caution_answer::no)), false));
  for (const auto answer : {caution_answer::no, caution_answer::yes, caution_answer::unsure})
    CHECK(counts(again(said(rule, answer)), true));
}

TEST_CASE("other sugars' questions are asked again, the test's own among its own") {
  const std::string& own = asked_test().cautions.front().why.rule;
  const auto left = [](const record& r) { return lost_answers(r.now(), asked_test()); };
  CHECK(left(record(at_the_sugar()).lost(false, {own, another})) ==
        std::vector<std::string>{another});
  CHECK(left(record(at_the_sugar())
                 .lost(false, {another})
                 .told(again(said(another, caution_answer::no))))
            .empty());
  CHECK(
      left(record(at_the_sugar()).told(said(another, caution_answer::no)).lost(false, {another})) ==
      std::vector<std::string>{another});
}

TEST_CASE("a kit's code told since says which sugar it is, and other sugars are not asked about") {
  const reported_kit kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g",
                         parse_date("2027-12-31").value()};
  const auto before = record(at_the_sugar()).told(kit).lost(false, {another}).now();
  CHECK_FALSE(lost_answers(before, asked_test()).empty());
  const auto since = record(at_the_sugar()).lost(false, {another}).told(kit).now();
  CHECK(lost_answers(since, asked_test()).empty());
}
