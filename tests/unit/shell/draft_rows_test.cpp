// Drafts kept as rows and read again: all of them come back, an earlier version's rows are read,
// and what is no draft does no harm.
#include "app/patient/shell/draft_rows.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

person_draft typed_person() {
  person_draft who;
  who.name = {"Maren Oakhollow", true};
  who.birth = {"11 02 1957", true};
  who.doctor = {"Dr Isolde Fennimore", true};
  who.kit = {"QB7-4410-2", false};
  who.laboratory = {"Fenwick Vale", true};
  who.code = "FV2C-7HM2";
  who.no_code = true;
  return who;
}

plan_draft chosen_plan() {
  plan_draft plan;
  plan.test = "lactulose-10g";
  plan.form = "syrup";
  plan.date = parse_date("2027-04-06").value();
  plan.minute = 450;
  plan.which = fold::second;
  plan.medicines["antibiotics"].again = true;
  plan.medicines["laxatives"] = {false, medicine_end::until_a_day,
                                 parse_date("2027-04-02").value()};
  plan.medicines["prokinetics"] = {true, medicine_end::no_longer, std::nullopt};
  plan.asks_later = {"ask-diabetes", "laxatives"};
  plan.advice = {asked_outcome::not_this_test, adviser::other, "my sister the nurse", "wait"};
  plan.home = {{false, {2, 4}}, 7 * 60, 24 * 60, true};
  return plan;
}

// Every draft that is kept, as it is not at first.
all_drafts everything() {
  all_drafts d;
  d.who = typed_person();
  d.plan = chosen_plan();
  d.slip = {"fast", "meal", from_unix_ms(1806872400000), "A biscuit", true};
  d.samples[sample_number(1)] = {{{"bloating", 0}, {"pain", std::nullopt}}, "well"};
  d.samples[sample_number(10)] = {{{"bloating", 7}}, ""};
  d.after[0] = {{{"wind", 4}}, "bloated"};
  d.after[1] = {{{"pain", std::nullopt}, {"wind", 0}}, ""};
  d.comment = "The bag was torn";
  d.own_reason = "my watch";
  d.call_off_reason = "a cold";
  d.gate_adviser = "Ms Quill";
  d.answers = answerer::carer;
  d.silent = true;
  d.handed_to = "the drive BLUE";
  return d;
}

} // namespace

TEST_CASE("every draft that is kept comes back as it was") {
  const all_drafts kept = everything();
  CHECK(drafts_of(rows_of(kept)) == kept);
  // No field stands in another's row: taking out any row changes something.
  const draft_rows all = rows_of(kept);
  CHECK(all.size() == 51);
  for (const auto& [key, value] : all) {
    INFO(key << " = " << value);
    draft_rows fewer = all;
    fewer.erase(key);
    CHECK_FALSE(drafts_of(fewer) == kept);
  }
}

TEST_CASE("each answer of a list comes back, and days at home whichever they are") {
  all_drafts d;
  for (const adviser who : all_advisers) {
    d.plan.advice.who = who;
    CHECK(drafts_of(rows_of(d)) == d);
  }
  for (const fold which : {fold::unasked, fold::first, fold::second}) {
    d.plan.which = which;
    CHECK(drafts_of(rows_of(d)) == d);
  }
  for (const home_days& days : {home_days{}, home_days{true, {1, 2, 3, 4, 5, 6, 7}},
                                home_days{false, {}}, home_days{false, {7}}}) {
    d.plan.home.days = days;
    CHECK(drafts_of(rows_of(d)) == d);
  }
}

TEST_CASE("where nothing was typed or chosen nothing is kept") {
  CHECK(rows_of({}).empty());
  CHECK(drafts_of({}) == all_drafts{});
  all_drafts cleared;
  cleared.who.name.text = "";
  cleared.who.no_code = false;
  CHECK(rows_of(cleared).empty());
}

TEST_CASE("what is worth nothing after a kill is not kept") {
  all_drafts d;
  d.ticked = {"power"};
  d.later.tube = sample_number(3);
  d.later.minutes_ago = 4;
  d.right.minutes = -2;
  d.plan.use_earliest = true;
  CHECK(rows_of(d).empty());
}

TEST_CASE("rows of an earlier version are read") {
  const all_drafts d = drafts_of({{"who.name", "Maren"},
                                  {"who.name.seen", "yes"},
                                  {"who.code.none", "yes"},
                                  {"plan.date", "2027-04-06"},
                                  {"plan.minute", "450"},
                                  {"plan.fold", "first"},
                                  {"plan.ask.antibiotics", "again"},
                                  {"plan.how.laxatives", "until"},
                                  {"plan.dose.laxatives", "2027-04-02"},
                                  {"ask.later.ask-diabetes", "yes"},
                                  {"home.days", "1234567"},
                                  {"home.seen", "yes"},
                                  {"slip.at", "1806872400000"},
                                  {"score.2.bloating", "skip"},
                                  {"score.2.comment", "tired"},
                                  {"attention.silent", "yes"},
                                  {"opened.tell", "1806872400000"},
                                  {"plan.use_earliest", "yes"}});
  all_drafts meant;
  meant.who.name = {"Maren", true};
  meant.who.no_code = true;
  meant.plan.date = parse_date("2027-04-06").value();
  meant.plan.minute = 450;
  meant.plan.which = fold::first;
  meant.plan.medicines["antibiotics"].again = true;
  meant.plan.medicines["laxatives"] = {false, medicine_end::until_a_day,
                                       parse_date("2027-04-02").value()};
  meant.plan.asks_later = {"ask-diabetes"};
  meant.plan.home.answered = true;
  meant.slip.at = from_unix_ms(1806872400000);
  meant.samples[sample_number(2)] = {{{"bloating", std::nullopt}}, "tired"};
  meant.silent = true;
  CHECK(d == meant);
}

TEST_CASE("a row that says nothing that can be is left out") {
  const all_drafts d = drafts_of({{"plan.date", "2027-02-31"},
                                  {"plan.minute", "1441"},
                                  {"plan.fold", "third"},
                                  {"home.days", "weekends"},
                                  {"home.from", "7:00"},
                                  {"ask.who", "nobody"},
                                  {"ask.outcome", "perhaps"},
                                  {"slip.at", "yesterday"},
                                  {"score.0.bloating", "3"},
                                  {"score.bloating", "3"},
                                  {"score.2x.bloating", "3"},
                                  {"nobody.knows", "this"}});
  CHECK(d == all_drafts{});
}
