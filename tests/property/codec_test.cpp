// Events, JSON and CSV at random: what is written is read back as the same, whatever is in it.
// Generated texts hold what keyboards of the world can type and what spreadsheets trip over.
#include "core/base/json_fields.hpp"
#include "core/base/visible.hpp"
#include "core/record/codec.hpp"
#include "core/record/log.hpp"
#include "core/sheet/sheet.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

rc::Gen<std::string> pieces(std::vector<std::string> of, int least, int most) {
  return rc::gen::map(rc::gen::mapcat(rc::gen::inRange(least, most + 1),
                                      [of](int n) {
                                        return rc::gen::container<std::vector<std::string>>(
                                            static_cast<std::size_t>(n), rc::gen::elementOf(of));
                                      }),
                      [](const std::vector<std::string>& all) {
                        std::string out;
                        for (const std::string& one : all)
                          out += one;
                        return out;
                      });
}

// A person's words: up to 60 characters of one line.
std::string words_of_a_person(int least = 0) {
  return *pieces({"a",
                  "Z",
                  "7",
                  " ",
                  "\"",
                  "\\",
                  "/",
                  ",",
                  "=",
                  "+",
                  "-",
                  "@",
                  "'",
                  "{n}",
                  "\xC3\xA9",
                  "\xD0\xB6",
                  "\xE2\x82\xAC",
                  "\xF0\x9F\x99\x82",
                  "\xE2\x80\xA8",
                  "<b>",
                  "&"},
                 least, 60);
}

instant any_instant() {
  return from_unix_ms(*rc::gen::resize(
      rc::kNominalSize, rc::gen::inRange<std::int64_t>(to_unix_ms(utc("0002-01-01T00:00:00Z")),
                                                       to_unix_ms(utc("9997-01-01T00:00:00Z")))));
}

clock_reading any_reading() {
  clock_reading r;
  r.wall = any_instant();
  if (*rc::gen::arbitrary<bool>()) {
    r.boot = boot_time{std::chrono::milliseconds{*rc::gen::inRange<std::int64_t>(0, 1LL << 50)}};
    r.boot_id = words_of_a_person(1);
  }
  r.zone = *rc::gen::element<std::string>("Europe/London", "Etc/GMT+5", "Asia/Kathmandu");
  r.offset = std::chrono::seconds{*rc::gen::inRange(-93600, 93601)};
  r.synchronised = *rc::gen::arbitrary<bool>();
  return r;
}

sample_number any_sample() {
  return sample_number(*rc::gen::inRange(1, sample_number::most + 1));
}
how_known any_how() {
  return *rc::gen::element(how_known::observed, how_known::told, how_known::estimated);
}

reported_caution any_caution_told() {
  return {words_of_a_person(1),
          *rc::gen::element(caution_answer::no, caution_answer::yes, caution_answer::unsure),
          *rc::gen::element(asked_outcome::not_asked, asked_outcome::go_on,
                            asked_outcome::not_this_test),
          words_of_a_person(), words_of_a_person()};
}

reported_washout any_washout_told() {
  reported_washout told;
  told.what.rule = words_of_a_person(1);
  told.what.answer =
      *rc::gen::element(washout_answer::never, washout_answer::last_on, washout_answer::until,
                        washout_answer::cannot_stop, washout_answer::unknown);
  if (told.what.answer == washout_answer::last_on || told.what.answer == washout_answer::until)
    told.what.on = plus_days(parse_date("2027-03-01").value(),
                             std::chrono::days{*rc::gen::inRange(-40000, 40000)});
  told.what.agreed = *rc::gen::arbitrary<bool>();
  told.who = words_of_a_person();
  told.asked_again = *rc::gen::arbitrary<bool>();
  return told;
}

corrected any_corrected() {
  const std::int64_t seq = *rc::gen::inRange<std::int64_t>(1, 1LL << 40);
  const int which = *rc::gen::inRange(0, 3);
  if (which == 0) return {seq, right_time{any_instant(), any_how()}, words_of_a_person(1)};
  if (which == 1) return {seq, right_tube{any_sample()}, words_of_a_person(1)};
  right_score to{words_of_a_person(1), std::nullopt};
  if (*rc::gen::arbitrary<bool>()) to.score = *rc::gen::inRange(0, 11);
  return {seq, to, words_of_a_person(1)};
}

reported_drink_trouble any_drink_trouble() {
  return {*rc::gen::element(drink_mishap::slow, drink_mishap::unfinished, drink_mishap::spilled,
                            drink_mishap::vomited),
          *rc::gen::element(drink_part::all, drink_part::more_than_half, drink_part::less_than_half,
                            drink_part::none),
          any_instant(), any_how(), words_of_a_person()};
}

payload any_payload() {
  std::vector<symptom_score> scores;
  for (int i = *rc::gen::inRange(0, 5); i > 0; --i)
    scores.push_back({"s" + std::to_string(i), *rc::gen::inRange(0, 11)});
  if (!scores.empty()) scores.front().score.reset();
  const auto year = std::chrono::year{*rc::gen::inRange(first_year, last_year)};
  reported_person who{words_of_a_person(1),
                      civil_date{year, std::chrono::month(2), std::chrono::day(28)},
                      words_of_a_person(), words_of_a_person(1), words_of_a_person()};
  const std::vector<payload> all{
      opened{words_of_a_person(1), words_of_a_person(1), *rc::gen::arbitrary<bool>(),
             fenwick_text()},
      who,
      reported_slip{words_of_a_person(1), any_instant(), any_how(), words_of_a_person(),
                    words_of_a_person()},
      reported_checklist{words_of_a_person(1), {words_of_a_person(1), words_of_a_person(1)}},
      reported_ready{{words_of_a_person(1)}, {words_of_a_person(1)}, words_of_a_person()},
      reported_kit{words_of_a_person(1), words_of_a_person(1), words_of_a_person(1),
                   who.birth_date},
      any_caution_told(),
      any_washout_told(),
      plan_called_off{words_of_a_person()},
      any_corrected(),
      any_drink_trouble(),
      reported_drink{any_instant(), any_how()},
      reported_scorer{*rc::gen::arbitrary<bool>(), words_of_a_person()},
      reported_red_flags{any_sample(), {words_of_a_person(1)}},
      reported_symptoms{any_sample(), scores, words_of_a_person()},
      breath_abandoned{any_sample(), words_of_a_person()},
      reported_breath{any_sample(), any_instant(), any_how()},
      repeat_wanted{any_sample(), words_of_a_person()},
      reported_comment{words_of_a_person(1)},
      test_ended{words_of_a_person(1)},
      tube_closed{any_sample()},
      drink_ended{*rc::gen::arbitrary<bool>()},
      clock_changed{{clock_change::kind::stepped,
                     duration{*rc::gen::inRange<std::int64_t>(-(1LL << 50), 1LL << 50)}}},
      resumed{}};
  return *rc::gen::elementOf(all);
}

json::value any_json(int depth) {
  const int kind = *rc::gen::inRange(0, depth > 0 ? 6 : 4);
  if (kind == 0) return nullptr;
  if (kind == 1) return *rc::gen::arbitrary<bool>();
  if (kind == 2) return *rc::gen::inRange<std::int64_t>(-9007199254740991, 9007199254740991);
  if (kind == 3)
    return *pieces({"a", "\x01", "\n", "\t", "\x1f", "\x7f", "\"", "\\", "\xC3\xA9"}, 0, 12);
  const int n = *rc::gen::inRange(0, 4);
  json::array items;
  json::object members;
  for (int i = 0; i < n; ++i) {
    items.push_back(any_json(depth - 1));
    members.emplace_back(*pieces({"k", "z"}, 0, 3) + std::to_string(i), items.back());
  }
  return kind == 4 ? json::value(items) : json::value(members);
}

// The one cell of a line of CSV, by RFC 4180.
std::string cell_of(const std::string& text) {
  if (text.empty() || text.front() != '"') return text;
  std::string out;
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    out += text[i];
    if (text[i] == '"') ++i;
  }
  return out;
}

} // namespace

TEST_CASE("any event is written and read back as the same bytes") {
  CHECK(rc::check("event there and back", [] {
    const event e{*rc::gen::inRange<std::int64_t>(1, 1LL << 50), any_reading(), any_payload()};
    const std::string text = json::canonical(encode_event(e));
    const auto back = decode_event(json::parse(text).value(), "event");
    if (!back) RC_FAIL(sentence(back.error()));
    RC_ASSERT(json::canonical(encode_event(*back)) == text);
    RC_ASSERT(back->at.wall == e.at.wall);
    RC_ASSERT(back->what.index() == e.what.index());
  }));
}

TEST_CASE("any JSON value has one canonical form, read back as itself") {
  CHECK(rc::check("canonical form", [] {
    const json::value v = any_json(4);
    const std::string text = json::canonical(v);
    const auto back = json::parse(text);
    RC_ASSERT(back.has_value());
    RC_ASSERT(json::canonical(*back) == text);
    RC_ASSERT(json::canonical(json::parse(json::pretty(v)).value()) == text);
  }));
}

TEST_CASE("any bytes at all are read or refused, and a refusal is one printable line") {
  CHECK(rc::check("the strict reader", [] {
    const std::string text =
        *pieces({"{",  "}",    "[",    "]",  "\"",   ":",     ",",
                 "1",  "-",    ".",    "e",  "true", "null",  "\\u0000",
                 "\\", "\xC3", "\xA9", "\n", " ",    "\"a\"", std::string(1, '\0'),
                 "/*"},
                0, 40);
    const auto read = json::parse(text);
    if (read) {
      RC_ASSERT(json::canonical(json::parse(json::canonical(*read)).value()) ==
                json::canonical(*read));
      return;
    }
    const std::string said = sentence(read.error());
    RC_ASSERT(!said.empty());
    RC_ASSERT(said.find('\n') == std::string::npos);
  }));
}

TEST_CASE("a log with any byte changed is refused or says that it does not match itself") {
  const std::string good = [] {
    patient p;
    p.through_the_drink();
    p.score(1);
    p.sample(2);
    return write_log(p.e.events(), "quarterbreath 0.1.0", "");
  }();
  // The program's name in the heading is outside the chain; it is told, not believed.
  const auto heading = good.rfind("\"program\":\"");
  CHECK(rc::check("one byte of a log", [&] {
    const auto at = static_cast<std::size_t>(
        *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(0, static_cast<int>(good.size()))));
    RC_PRE(at < heading || at > heading + 40);
    std::string text = good;
    text[at] = static_cast<char>(*rc::gen::inRange(32, 127));
    RC_PRE(text != good);
    const auto log = read_log(text);
    // White space for white space and a number's sign for nothing else aside, an edit is seen.
    if (log && json::canonical(json::parse(text).value()) != good)
      RC_ASSERT(!log->mismatches.empty());
  }));
}

TEST_CASE("any words come back out of their CSV cell, with an apostrophe before a formula") {
  const auto without_apostrophes = [](std::string text) {
    text.erase(std::remove(text.begin(), text.end(), '\''), text.end());
    return text;
  };
  CHECK(rc::check("CSV cell", [&] {
    const std::string words =
        words_of_a_person() + *rc::gen::element<std::string>("", ";", "\t") + words_of_a_person();
    const std::string cell = cell_of(csv_cell(words));
    RC_ASSERT(without_apostrophes(cell) == without_apostrophes(visible(words)));
    const bool number = cell.find_first_not_of("-0123456789") == std::string::npos;
    bool begins = true; // of a cell, by commas, semicolons or tabs
    for (const char c : cell) {
      RC_ASSERT(number || !begins || std::string("=+-@").find(c) == std::string::npos);
      begins = c == ';' || c == '\t' || (begins && (c == ' ' || c == '"'));
    }
  }));
}
