// Every kind of event written and read back, the chain of hashes, and what is refused.
// The journal's rows and the timing log are this form, so a kind that changes on the way is a loss.
#include "core/record/codec.hpp"
#include "core/session/limits.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <sstream>

using namespace qb;
using namespace qb::test;

namespace {

std::string written(const event& e) {
  return json::canonical(encode_event(e));
}

result<event> read_back(const std::string& text) {
  return decode_event(json::parse(text).value(), "event 1");
}

std::string said(const std::string& text) {
  const auto read = read_back(text);
  return read ? "" : sentence(read.error());
}

const char* const at = "\"at\":{\"boot\":\"b\",\"boot_ms\":5,\"offset_s\":3600,"
                       "\"synchronised\":true,\"wall\":\"2027-04-06T06:30:00Z\","
                       "\"zone\":\"Europe/London\"}";

std::string with_at(const std::string& kind, const std::string& data) {
  return std::string("{") + at + ",\"data\":" + data + ",\"kind\":\"" + kind + "\",\"seq\":1}";
}

const std::vector<payload>& one_of_each() {
  static const sample_number n(7);
  static const instant t = utc("2027-04-06T06:46:03.250Z");
  static const std::vector<payload> all{
      opened{"test-1", "quarterbreath 0.1.0", true, fenwick_text()},
      invented_person(),
      plan_of(utc("2027-04-06T06:30:00Z")),
      reported_slip{"fast", t, how_known::estimated, "two biscuits, \"plain\"", "meal"},
      reported_checklist{"evening", {"tubes", "labels"}},
      reported_ready{gate_checks(), {"fast", "last-hour"}, "the laboratory", releaser::laboratory},
      sugar_set_aside{},
      reported_symptoms{n, {{"bloating", 3}, {"pain", std::nullopt}, {"nausea", 0}}, "caf\xC3\xA9"},
      breath_begun{n},
      breath_abandoned{n, ""},
      tube_closed{n},
      reported_breath{n, t, how_known::told},
      repeat_wanted{n, "the lid was open"},
      label_written{n},
      drink_started{},
      drink_ended{false},
      reported_comment{"\\ and /"},
      reported_unwell{},
      unwell_over{true},
      test_ended{"unwell"},
      resumed{},
      clock_changed{{clock_change::kind::stepped, -3600001ms}},
      exported{},
      reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g", parse_date("2027-12-31").value()},
      reported_caution{"ask-diabetes", caution_answer::unsure, asked_outcome::go_on, "my nurse",
                       "as she wrote down", answerer::carer, releaser::doctor, true},
      reported_washout{
          {"antibiotics", washout_answer::until, parse_date("2027-03-10").value(), true},
          "the laboratory",
          releaser::pharmacist,
          true},
      plan_called_off{"a cold"},
      reported_drink{t, how_known::estimated},
      reported_drink_trouble{drink_mishap::vomited, drink_part::less_than_half, t, how_known::told,
                             "at the sink"},
      corrected{17, right_time{t, how_known::told}, "read off another clock"},
      reported_scorer{false, "my daughter"},
      reported_red_flags{n, {"pain", "fainting"}, score_time::later},
      reported_packet{"lactulose", 15, "ml", "a brown bottle", true},
      reported_symptoms_after{score_time::later, {{"wind", 4}, {"pain", std::nullopt}}, "at tea"},
      reported_spoil{n, "room-air", "I coughed"},
      entry_lost{},
      record_salvaged{2, false, {"ask-milk-allergy"}}};
  return all;
}

} // namespace

TEST_CASE("each kind of event is written and read back as the same bytes") {
  std::set<std::string> names;
  std::set<std::size_t> kinds;
  clock_double clock(utc("2027-04-06T06:30:00.123Z"));
  for (const payload& p : one_of_each()) {
    const event e{42, clock.look(), p};
    const std::string text = written(e);
    INFO(text);
    const auto back = read_back(text);
    REQUIRE(back.has_value());
    CHECK(written(*back) == text);
    CHECK(back->seq == 42);
    CHECK(back->what.index() == p.index());
    names.insert(std::string(kind_name(p)));
    kinds.insert(p.index());
  }
  CHECK(kinds.size() == std::variant_size_v<any_fact>);
  CHECK(names.size() == std::variant_size_v<any_fact>); // no two kinds share a name
}

TEST_CASE("texts and lists as long as they are accepted are read back") {
  const sample_number n(7);
  const instant t = utc("2027-04-06T06:46:03.250Z");
  const std::string words(most_words, 'x');
  const std::vector<std::string> items(most_items, words);
  const std::string kit(most_kit_number, 'K');
  reported_person who = invented_person();
  who.name = who.doctor = who.laboratory = words;
  who.kit_number = kit;
  clock_double clock(t);
  for (const payload& p : std::vector<payload>{
           who, reported_slip{words, t, how_known::told, words, words},
           reported_checklist{words, items}, reported_ready{items, items, words},
           reported_symptoms{n, {}, words}, breath_abandoned{n, words}, repeat_wanted{n, words},
           reported_comment{words}, test_ended{words}, reported_red_flags{n, items}}) {
    const event e{1, clock.look(), p};
    const auto back = read_back(written(e));
    INFO(kind_name(p) << ": " << (back ? "" : sentence(back.error())));
    REQUIRE(back.has_value());
    CHECK(written(*back) == written(e));
  }
}

TEST_CASE("the clocks' evidence is kept to the millisecond, with or without a boot clock") {
  clock_double clock(utc("2027-04-06T06:30:00.123Z"));
  clock.zone_name = "America/St_Johns";
  for (const bool boot : {true, false}) {
    clock.has_boot_clock = boot;
    const event e{1, clock.look(), resumed{}};
    const clock_reading back = read_back(written(e)).value().at;
    CHECK(back.wall == e.at.wall);
    CHECK(back.boot == e.at.boot);
    CHECK(back.boot_id == e.at.boot_id);
    CHECK(back.zone == "America/St_Johns");
    CHECK(back.offset == -150min);
    CHECK(back.synchronised);
  }
}

TEST_CASE("a plan is read back with its due times, which follow from the frozen protocol") {
  const plan_made made = plan_of(utc("2027-04-06T06:30:00Z"));
  const plan_made back = std::get<plan_made>(
      read_back(written({1, clock_double(utc("2027-03-08T10:00:00Z")).look(), made})).value().what);
  REQUIRE(back.what.samples.size() == 10);
  for (std::size_t i = 0; i < 10; ++i)
    CHECK(back.what.samples[i].due == made.what.samples[i].due);
  CHECK(back.what.ends == made.what.ends);
  CHECK(back.what.protocol_id == "lactulose-10g");
  CHECK(back.protocol_text == lactulose_text());
  CHECK(back.what.windows.size() == made.what.windows.size());
  CHECK(back.what.washouts.size() == made.what.washouts.size());
}

TEST_CASE("the worked example at the top of the codec is an event, in its canonical form") {
  const std::string header = source_file("core/record/codec.hpp");
  const auto from = header.find("// Example");
  const auto to = header.find("// Beside it");
  REQUIRE(from < to);
  std::string example;
  std::istringstream lines(header.substr(from, to - from));
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line))
    example += line.substr(line.find_first_not_of("/ "));
  const auto e = read_back(example);
  REQUIRE(e.has_value());
  CHECK(e->seq == 2);
  CHECK(std::get<tube_closed>(e->what).sample == sample_number(4));
  CHECK(e->at.wall == utc("2027-04-06T06:30:00.250Z"));
  CHECK(e->at.boot == boot_time{90min});
  CHECK(e->at.offset == 1h);
  CHECK(written(*e) == example);
}

TEST_CASE("hashes are SHA-256 in lower-case hexadecimal, chained from 64 zeros") {
  // FIPS 180-2, appendix B.1: SHA-256 of "abc"; and of the empty text.
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(chain_start() == std::string(64, '0'));
  // printf '%064d\n{}' 0 | sha256sum
  CHECK(chain_next(chain_start(), "{}") ==
        "5649d09ed68c17156095d175eef152856c5b1a81c117c409c1e00f096aa6838e");
}

TEST_CASE("an event that is not in today's form is refused with its place") {
  CHECK(said(with_at("tube-shut", "{\"sample\":4}")) ==
        "line 1: event 1.kind: found \"tube-shut\", expected a kind of event that this version "
        "knows");
  CHECK(said(with_at("tube-closed", "{\"sample\":0}")) ==
        "line 1: event 1.data.sample: found 0, expected a whole number from 1 to 24");
  CHECK(said(with_at("tube-closed", "{\"sample\":25}")) != "");
  CHECK(said(with_at("tube-closed", "{}")) ==
        "line 1: event 1.data.sample: found nothing, expected this field");
  CHECK(said(with_at("resumed", "{\"sample\":4}")) ==
        "line 1: event 1.data.sample: found a field that is not known here, expected only the "
        "fields of this format");
  CHECK(said(with_at("resumed", "[]")) == "line 1: event 1.data: found a list, expected an object");
  CHECK(said(with_at("drink-ended", "{\"all_of_it\":1}")) != "");
  CHECK(said(with_at("breath-told", "{\"sample\":1,\"closed\":\"07:46\",\"how\":\"told\"}")) ==
        "line 1: event 1.data.closed: found another form, expected an instant such as "
        "\"2027-03-28T08:00:00Z\"");
  CHECK(said(with_at("breath-told",
                     "{\"sample\":1,\"closed\":\"2027-04-06T06:46:00Z\",\"how\":\"guessed\"}")) ==
        "line 1: event 1.data.how: found \"guessed\", expected one of: observed, told, estimated");
  CHECK(said(with_at(
            "symptoms",
            "{\"sample\":1,\"scores\":[{\"id\":\"pain\",\"score\":11}],\"comment\":\"\"}")) ==
        "line 1: event 1.data.scores[0].score: found 11, expected a whole number from 0 to 10");
  CHECK(said(with_at("opened", "{\"test_id\":\"x\",\"program\":\"y\",\"rehearsal\":false,"
                               "\"profile\":{}}"))
            .find("expected a laboratory's profile") != std::string::npos);
}

TEST_CASE("each answer and outcome has its own name and comes back as itself") {
  clock_double clock(utc("2027-03-08T10:00:00Z"));
  std::set<std::string> bodies;
  for (const auto answer : {caution_answer::no, caution_answer::yes, caution_answer::unsure}) {
    for (const auto outcome :
         {asked_outcome::not_asked, asked_outcome::go_on, asked_outcome::not_this_test}) {
      const event e{1, clock.look(), reported_caution{"ask-diabetes", answer, outcome, "", ""}};
      const auto back = std::get<reported_caution>(read_back(written(e)).value().what);
      CHECK(back.answer == answer);
      CHECK(back.outcome == outcome);
      bodies.insert(written(e));
    }
  }
  for (const auto answer : {washout_answer::never, washout_answer::last_on, washout_answer::until,
                            washout_answer::cannot_stop, washout_answer::unknown}) {
    const bool dated = answer == washout_answer::last_on || answer == washout_answer::until;
    reported_washout told{{"laxatives", answer, std::nullopt, false}, ""};
    if (dated) told.what.on = parse_date("2027-03-10").value();
    const event e{1, clock.look(), told};
    const auto back = std::get<reported_washout>(read_back(written(e)).value().what);
    CHECK(back.what.answer == answer);
    CHECK(back.what.on == told.what.on);
    bodies.insert(written(e));
  }
  CHECK(bodies.size() == 3 * 3 + 5);
}

TEST_CASE("a washout has a day with 'last on' and 'until' and none with the others") {
  const auto washout_said = [](const std::string& answer, const std::string& on) {
    return said(with_at("washout", "{\"agreed\":false,\"answer\":\"" + answer + "\",\"on\":" + on +
                                       ",\"rule\":\"laxatives\",\"who\":\"\"}"));
  };
  CHECK(washout_said("never", "null") == "");
  CHECK(washout_said("until", "\"2027-03-10\"") == "");
  CHECK(washout_said("never", "\"2027-03-10\"") ==
        "line 1: event 1.data.on: found a text, expected null");
  CHECK(washout_said("last-on", "null") == "line 1: event 1.data.on: found null, expected a text");
  CHECK(washout_said("until", "\"2027-02-30\"") ==
        "line 1: event 1.data.on: found another form, expected a date such as 2027-03-28");
  CHECK(washout_said("sometimes", "null") ==
        "line 1: event 1.data.answer: found \"sometimes\", expected one of: never, last-on, until, "
        "cannot-stop, unknown");
}

TEST_CASE(
    "each field that can be corrected, and each trouble with the drink, comes back as itself") {
  clock_double clock(utc("2027-04-06T08:00:00Z"));
  const auto back = [&](const payload& p) {
    const event e{1, clock.look(), p};
    const auto read = read_back(written(e));
    REQUIRE(read.has_value());
    CHECK(written(*read) == written(e));
    return read->what;
  };
  const auto tube =
      std::get<corrected>(back(corrected{9, right_tube{sample_number(5)}, "swapped"}));
  CHECK(tube.seq == 9);
  CHECK(std::get<right_tube>(tube.to).really == sample_number(5));
  CHECK(tube.reason == "swapped");
  for (const std::optional<int> score : {std::optional<int>{}, std::optional<int>{0}}) {
    const auto read = std::get<corrected>(back(corrected{9, right_score{"pain", score}, "slip"}));
    CHECK(std::get<right_score>(read.to).symptom == "pain");
    CHECK(std::get<right_score>(read.to).score == score);
  }
  const instant t = utc("2027-04-06T07:12:00Z");
  for (const auto what : {drink_mishap::slow, drink_mishap::unfinished, drink_mishap::spilled,
                          drink_mishap::vomited}) {
    for (const auto kept : {drink_part::all, drink_part::more_than_half, drink_part::less_than_half,
                            drink_part::none}) {
      const auto read = std::get<reported_drink_trouble>(
          back(reported_drink_trouble{what, kept, t, how_known::told, ""}));
      CHECK(read.what == what);
      CHECK(read.kept == kept);
      CHECK(read.when == t);
    }
  }
  CHECK(said(with_at("corrected", "{\"corrects\":9,\"field\":\"colour\",\"reason\":\"x\"}")) ==
        "line 1: event 1.data.field: found \"colour\", expected one of: time, tube, score");
}

TEST_CASE("new fields of older kinds are asked for: a slip's subject, a start's not kept") {
  CHECK(said(with_at("slip", "{\"rule\":\"fast\",\"when\":\"2027-04-06T06:46:00Z\","
                             "\"how\":\"told\",\"words\":\"\"}")) ==
        "line 1: event 1.data.subject: found nothing, expected this field");
  CHECK(said(with_at("ready", "{\"checks\":[]}")) ==
        "line 1: event 1.data.not_kept: found nothing, expected this field");
  CHECK(said(with_at("ready", "{\"checks\":[],\"not_kept\":[\"fast\"]}")) ==
        "line 1: event 1.data.agreed: found nothing, expected this field");
}

TEST_CASE("clock evidence that is not whole is refused") {
  const auto at_said = [](const std::string& what, const std::string& by) {
    std::string text = with_at("resumed", "{}");
    const auto where = text.find(what);
    REQUIRE(where != std::string::npos);
    return said(text.replace(where, what.size(), by));
  };
  CHECK(at_said("\"boot\":\"b\",", "") ==
        "line 1: event 1.at.boot_ms: found one of boot_ms and boot, expected both or neither");
  CHECK(at_said("Europe/London", "../etc/passwd") ==
        "line 1: event 1.at.zone: found another text, expected a zone's IANA name");
  CHECK(at_said("2027-04-06T06:30:00Z", "2027-04-06T06:30:00+01:00") != "");
  CHECK(at_said("\"boot_ms\":5", "\"boot_ms\":-5") != "");
  CHECK(at_said("3600", "99999") != "");
  CHECK(at_said("true", "\"yes\"") != "");
}

TEST_CASE("a message about a damaged record repeats nothing that a person wrote") {
  for (const char* data :
       {"{\"name\":5,\"birth_date\":\"Maren\",\"doctor\":\"Oakhollow\",\"kit_number\":\"k\"}",
        "{\"name\":\"Maren Oakhollow\",\"birth_date\":\"Oakhollow\",\"doctor\":\"\","
        "\"kit_number\":\"k\",\"laboratory\":\"\"}",
        "{\"name\":\"Maren\\nOakhollow\",\"birth_date\":\"1957-02-11\",\"doctor\":\"\","
        "\"kit_number\":\"k\",\"laboratory\":\"\"}"}) {
    const std::string text = said(with_at("person", data));
    CHECK(text != "");
    CHECK(text.find("Maren") == std::string::npos);
    CHECK(text.find("Oakhollow") == std::string::npos);
  }
}
