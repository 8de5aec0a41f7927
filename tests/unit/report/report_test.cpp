// What a laboratory is told of one test.
#include "core/report/report.hpp"

#include "tests/unit/report/made_log.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

namespace qb {

namespace {

report report_on(const std::string& log, const own_files& own = {}) {
  return report_of(read_log(log).value(), london_only, own);
}

std::vector<std::string> words_of(const report& r, const std::string& rule) {
  std::vector<std::string> out;
  for (const finding& f : r.findings) {
    if (f.rule == rule) out.push_back(f.words);
  }
  return out;
}

using texts = std::vector<std::string>;

// The shipped laboratory is invented, and every record of a test for it says so; nothing else.
bool only_for_trying(const report& r) {
  return r.findings.size() == 1 && r.findings.front().rule == "for-trying";
}

} // namespace

TEST_CASE("a clean test is ten tubes on time and nothing noted") {
  const report r = report_on(make_log());
  CHECK_FALSE(r.rehearsal);
  CHECK(r.matches_itself);
  CHECK(r.name == "Odile Marchbank");
  CHECK(r.kit_number == "FV-3001");
  CHECK(r.protocol_id == "lactulose-10g");
  CHECK(r.anchor == made_start());
  REQUIRE(r.tubes.size() == 10);
  for (std::size_t i = 0; i < r.tubes.size(); ++i) {
    const report_tube& t = r.tubes[i];
    CHECK(t.number == sample_number::from_index(i));
    CHECK(t.due == made_start() + std::chrono::minutes{15} * static_cast<int>(i));
    CHECK(t.standing == tube_standing::on_time);
    CHECK(t.late == (i == 0 ? duration{0} : duration{12000}));
    CHECK(t.closed == t.due + *t.late);
    CHECK(t.scores == std::vector<std::optional<int>>(3, static_cast<int>(i % 4)));
  }
  CHECK(r.tubes[1].comment == "a little wind");
  CHECK(only_for_trying(r));
}

TEST_CASE("a late tube is late by the profile in the log, and the next stays on the grid") {
  const report r = report_on(make_log({"t", "k", false, std::chrono::seconds{300}, false}));
  CHECK(r.tubes[3].standing == tube_standing::late);
  CHECK(r.tubes[3].late == duration{312000});
  CHECK(r.tubes[4].due == made_start() + std::chrono::minutes{60});
  CHECK(r.tubes[4].standing == tube_standing::on_time);
  CHECK(words_of(r, "sample-late") == texts{"tube 4 closed 5 min 12 s after its time"});
}

TEST_CASE("a tube that was never closed is missed, and its due time still stands") {
  std::vector<event> events = make_events();
  // Without the last tube but with a look at the clocks an hour later.
  events.pop_back();
  event later = events.back();
  ++later.seq;
  later.at.wall += std::chrono::hours{1};
  *later.at.boot += std::chrono::hours{1};
  later.what = resumed{};
  events.push_back(later);
  const report r = report_on(write_log(events, "quarterbreath 0.1.0", ""));
  CHECK(r.tubes[9].standing == tube_standing::missed);
  CHECK_FALSE(r.tubes[9].closed.has_value());
  CHECK(r.tubes[9].due == made_start() + std::chrono::minutes{135});
}

TEST_CASE("food told is told with its day and time, and nobody is accused") {
  const report r = report_on(make_log({"t", "k", false, std::chrono::seconds{0}, true}));
  const texts words = words_of(r, "fast");
  REQUIRE(words.size() == 1);
  CHECK(words[0].find("told for Monday 22:10 (a piece of toast)") != std::string::npos);
  CHECK(words[0].find("9 h 20 min of 12 h") != std::string::npos);
}

TEST_CASE("an edited log says that it does not match its own record, and where") {
  const std::string comment = changed(make_log(), "a little wind", "a lot of wind");
  const report r = report_on(comment);
  CHECK_FALSE(r.matches_itself);
  REQUIRE_FALSE(r.findings.empty());
  CHECK(r.findings.front().rule == "record-mismatch");
  CHECK(r.findings.front().weight == consequence::review);
  REQUIRE(r.findings.front().events.size() == 1);
  const std::int64_t seq = r.findings.front().events[0];
  CHECK(r.findings.front().words ==
        "does not match its own record: from event " + std::to_string(seq) + " on");
  const auto events = make_events();
  const auto* told =
      std::get_if<reported_symptoms>(&events[static_cast<std::size_t>(seq - 1)].what);
  REQUIRE(told != nullptr);
  CHECK(told->comment == "a little wind");
}

TEST_CASE("a log whose end was cut off says so") {
  std::vector<event> shorter = make_events();
  shorter.pop_back();
  const std::string whole = make_log();
  const std::string head = read_log(whole)->head;
  const std::string cut = write_log(shorter, "quarterbreath 0.1.0", "");
  const std::string claimed =
      changed(cut, "\"head\":\"" + read_log(cut)->head, "\"head\":\"" + head);
  CHECK(words_of(report_on(claimed), "record-mismatch") ==
        texts{"does not match its own record: events may be missing at its end"});
}

TEST_CASE("a summary that says otherwise than the events is noted, and the events count") {
  const std::string edited = changed(make_log(), R"("kit_number":"FV-3001","planned_start")",
                                     R"("kit_number":"FV-9999","planned_start")");
  const report r = report_on(edited);
  CHECK(r.kit_number == "FV-3001");
  CHECK(words_of(r, "record-mismatch") ==
        texts{"does not match its own record: its summary says otherwise than its events"});
}

TEST_CASE("a head that says otherwise than the events is noted as that, and not as practice") {
  const std::string edited = changed(make_log(), "\"version\":3,\"zone\":\"Europe/London\"",
                                     "\"version\":3,\"zone\":\"Europe/Berlin\"");
  CHECK(words_of(report_on(edited), "record-mismatch") ==
        texts{"does not match its own record: its head (zone, rules, person, answers) says "
              "otherwise than its events"});
}

TEST_CASE("practice stays practice when one of its two marks is taken off") {
  const std::string practice = make_log({"t", "k", true, std::chrono::seconds{0}, false});
  CHECK(report_on(practice).rehearsal);
  const report r =
      report_on(changed(practice, R"("rehearsal":true,"rules")", R"("rehearsal":false,"rules")"));
  CHECK(r.rehearsal);
  CHECK_FALSE(r.matches_itself);
  CHECK(words_of(r, "rehearsal").size() == 1);
}

TEST_CASE("a zone that is not known here is replaced by the device's offset, and that is noted") {
  const auto none = [](const std::string&) -> result<zone> { return tl::unexpected(refusal{}); };
  const report r = report_of(read_log(make_log()).value(), none);
  CHECK(words_of(r, "zone-unknown").size() == 1);
  CHECK(clock_text(r.place.civil_at(*r.anchor)) == "07:30");
}

TEST_CASE("rules in a log that are not the laboratory's own are noted") {
  const std::string protocol_text = canonical_asset("protocols/lactulose-10g.json");
  const std::string profile_text = canonical_asset("laboratories/fenwick-vale.json");
  CHECK(only_for_trying(report_on(make_log(), {{protocol_text}, {profile_text}})));
  const std::string other = changed(profile_text, "\"on_time_s\":120", "\"on_time_s\":60");
  CHECK(words_of(report_on(make_log(), {{protocol_text}, {other}}), "profile-other") ==
        texts{"the profile in this record is not this laboratory's own 'fenwick-vale' as it "
              "stands now"});
  const std::string glucose = canonical_asset("protocols/glucose-75g.json");
  CHECK(words_of(report_on(make_log(), {{glucose}, {profile_text}}), "protocol-other") ==
        texts{"the protocol in this record, 'lactulose-10g', is not one of this laboratory's own"});
}

TEST_CASE("the report tells of kit, beginnings and washouts, each with the events that say so") {
  const protocol test = read_protocol(canonical_asset("protocols/lactose-25g.json")).value();
  const zone london = zone::fixed("Europe/London", std::chrono::seconds{3600});
  event_list list;
  list.add(
      opened{"t", "quarterbreath 0.1.0", false, canonical_asset("laboratories/fenwick-vale.json")});
  list.add(reported_person{"Odile Marchbank", std::chrono::year{1948} / 5 / 17, "", "FV-2C7H", ""});
  list.add(
      reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactose-25g", std::chrono::year{2027} / 9 / 30});
  list.add(reported_washout{
      {"antibiotics", washout_answer::last_on, std::chrono::year{2027} / 3 / 17, true},
      "Dr Ivo Brandreth",
      releaser::doctor});
  list.add(reported_washout{{"laxatives", washout_answer::never, {}, false}, ""});
  list.add(plan_made{canonical_asset("protocols/lactose-25g.json"), "powder",
                     make_plan(test, made_start(), london).value()});
  list.show_offset(std::chrono::seconds{3600});
  list.until(made_start() - std::chrono::hours{12} + std::chrono::minutes{2});
  list.add(reported_checklist{"fast", {}});
  list.until(made_start());
  list.add(
      reported_slip{"colonoscopy", made_start() - std::chrono::hours{24 * 5}, how_known::told, ""});
  const report r = report_on(write_log(list.all(), "quarterbreath 0.1.0", ""));
  REQUIRE(r.kit.has_value());
  CHECK(r.kit->kit_number == "FV-2C7H");
  CHECK(r.kit->expires == civil_date{std::chrono::year{2027} / 9 / 30});
  CHECK(r.kit->event == 3);
  CHECK(r.empty_tubes == std::vector<int>{8, 9, 10});
  REQUIRE(r.beginnings.size() == 1);
  CHECK(r.beginnings[0].name == "Water only");
  CHECK(r.beginnings[0].event == 7);
  CHECK(day_and_time(r.beginnings[0].at, made_start(), r.place) == "Monday 19:32");
  REQUIRE(r.washouts.size() == test.washouts.size());
  const auto of = [&](const std::string& rule) {
    return *std::find_if(r.washouts.begin(), r.washouts.end(),
                         [&](const report_washout& w) { return w.rule == rule; });
  };
  CHECK(of("antibiotics").last == civil_date{std::chrono::year{2027} / 3 / 17});
  CHECK(of("antibiotics").kept_days == 20);
  CHECK(of("antibiotics").asked_days == 28);
  CHECK(of("antibiotics").agreed_by == "Dr Ivo Brandreth");
  CHECK(of("antibiotics").events == std::vector<std::int64_t>{4});
  CHECK(of("laxatives").answer == washout_answer::never);
  CHECK_FALSE(of("laxatives").last.has_value());
  // Never asked about, and told of afterwards as something that happened.
  CHECK_FALSE(of("colonoscopy").answer.has_value());
  CHECK(of("colonoscopy").last == civil_date{std::chrono::year{2027} / 4 / 1});
  CHECK(of("colonoscopy").kept_days == 5);
  CHECK(of("colonoscopy").events == std::vector<std::int64_t>{8});
}

} // namespace qb
