// The strict field reader: each kind of wrong field is refused by place, finding and expectation.
// Its messages are the ones a person at a laboratory reads, so their wording is held here.
#include "core/base/json_fields.hpp"

#include <catch2/catch.hpp>
#include <functional>

using namespace qb;
using json::fields;

namespace {

// The sentence of the first refusal that reading with `read` meets; "" where there is none.
std::string said(const std::string& text, const std::function<void(fields&)>& read) {
  const json::value v = json::parse(text).value();
  fields f(v, "");
  read(f);
  const auto no = f.finish();
  return no ? sentence(*no) : "";
}

} // namespace

TEST_CASE("a missing field is named with its line") {
  CHECK(said("{\n}", [](fields& f) { f.text("zone"); }) ==
        "line 2: zone: found nothing, expected this field");
}

TEST_CASE("an unknown field is refused, and named only where it looks like a field") {
  const auto nothing = [](fields&) {};
  CHECK(said("{\"dose_mg\": 1}", nothing) ==
        "line 1: dose_mg: found a field that is not known here, expected only the fields of this "
        "format");
  CHECK(said("{\"Maren Oakhollow\": 1}", nothing).find("Oakhollow") == std::string::npos);
}

TEST_CASE("a text of the wrong kind, length or with control characters is refused") {
  const auto read = [](fields& f) { f.text("name", 5); };
  CHECK(said("{\"name\": \"Maren\"}", read) == "");
  CHECK(said("{\"name\": 5}", read) == "line 1: name: found a whole number, expected a text");
  CHECK(said("{\"name\": \"\"}", read) ==
        "line 1: name: found 0 characters of text, expected 1 to 5 characters");
  CHECK(said("{\"name\": \"Oakhollow\"}", read) ==
        "line 1: name: found 9 characters of text, expected 1 to 5 characters");
  CHECK(said("{\"name\": \"a\\nb\"}", read) ==
        "line 1: name: found a control character, expected text on one line");
  CHECK(said("{\"name\": \"a\\u007f\"}", read) ==
        "line 1: name: found a control character, expected text on one line");
  // Characters are counted, not bytes, as JSON Schema's maxLength does.
  CHECK(said("{\"name\": \"\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\"}", read) == "");
}

TEST_CASE("a number outside its range and one of another kind are told apart") {
  const auto read = [](fields& f) { f.integer("days", 1, 366); };
  CHECK(said("{\"days\": 1}", read) == "");
  CHECK(said("{\"days\": 366}", read) == "");
  CHECK(said("{\"days\": 0}", read) ==
        "line 1: days: found 0, expected a whole number from 1 to 366");
  CHECK(said("{\"days\": \"7\"}", read) ==
        "line 1: days: found a text, expected a whole number from 1 to 366");
}

TEST_CASE("the line of a number is the one it stands on, also at the end of a line") {
  const auto read = [](fields& f) { f.integer("days", 1, 366); };
  CHECK(said("{\n\"days\": 0\n}", read) ==
        "line 2: days: found 0, expected a whole number from 1 to 366");
  CHECK(said("{\"days\":\n\n0}\n", read) ==
        "line 3: days: found 0, expected a whole number from 1 to 366");
}

TEST_CASE("a choice lists what may stand there") {
  const auto read = [](fields& f) { f.choice("form", {"powder", "syrup"}); };
  CHECK(said("{\"form\": \"syrup\"}", read) == "");
  CHECK(said("{\"form\": \"tablet\"}", read) ==
        "line 1: form: found \"tablet\", expected one of: powder, syrup");
}

TEST_CASE("true or false, null, lists and objects are each held to their kind") {
  CHECK(said("{\"a\": 1}", [](fields& f) { f.boolean("a"); }) ==
        "line 1: a: found a whole number, expected true or false");
  CHECK(said("{\"a\": 1}", [](fields& f) { f.null("a"); }) ==
        "line 1: a: found a whole number, expected null");
  CHECK(said("{\"a\": [1]}", [](fields& f) { f.texts("a", 1, 3); }) ==
        "line 1: a: found a whole number, expected a list of texts, each on one line");
  CHECK(said("{\"a\": []}", [](fields& f) { f.texts("a", 1, 3); }) ==
        "line 1: a: found 0 items, expected a list of 1 to 3 texts");
  CHECK(said("{\"a\": [0, 70]}", [](fields& f) { f.integers("a", 1, 3, 0, 60); }) ==
        "line 1: a: found 70, expected a whole number from 0 to 60");
  CHECK(said("{\"a\": []}", [](fields& f) { (void)f.child("a"); }) ==
        "line 1: a: found a list, expected an object");
  CHECK(said("{\"a\": {}}", [](fields& f) { (void)f.children("a", 0, 3); }) ==
        "line 1: a: found an object, expected a list of 0 to 3 objects");
  CHECK(said("[]", [](fields&) {}) == "line 1: found a list, expected an object");
}

TEST_CASE("the first refusal is kept, and what follows answers harmless defaults") {
  std::int64_t later = -1;
  CHECK(said("{\"a\": \"x\", \"b\": 5}", [&](fields& f) {
          f.integer("a", 1, 2);
          later = f.integer("b", 3, 9);
        }) == "line 1: a: found a text, expected a whole number from 1 to 2");
  CHECK(later == 3);
}

TEST_CASE("a message never shows a long text or one that could steer a terminal") {
  CHECK(json::shown("syrup") == "\"syrup\"");
  CHECK(json::shown(std::string(41, 'x')) == "a long text");
  CHECK(json::shown("\x1b[2J") == "a text with control characters");
  CHECK(json::shown(json::value(7)) == "7");
  CHECK(json::shown(json::array{}) == "a list");
}

TEST_CASE("a plain line is valid UTF-8 without control characters") {
  CHECK(json::is_plain_line(""));
  CHECK(json::is_plain_line("\"quoted\" and \\ \xC3\xA9"));
  for (const char* text : {"two\nlines", "a\ttab", "\x7f", "\xC3", "\xED\xA0\x80"})
    CHECK_FALSE(json::is_plain_line(text));
}
