// The strict JSON reader and the canonical writer.
// Every file of the project goes through them, so what they let through everybody lets through.
#include "core/base/json.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

refusal no_of(const std::string& text) {
  const auto read = json::parse(text);
  REQUIRE_FALSE(read.has_value());
  return read.error();
}

std::string same(const std::string& text) {
  return json::canonical(json::parse(text).value());
}

} // namespace

TEST_CASE("a refused JSON text names the line on which it goes wrong") {
  const refusal no = no_of("{\n  \"a\": 1,\n  \"b\": tru\n}");
  CHECK(no.kind == refusal_kind::malformed);
  CHECK(no.where == "line 3");
  CHECK(no.expected == "JSON");
}

TEST_CASE("a field that stands twice is refused, since readers differ in which one counts") {
  // RFC 8259, section 4: names within an object SHOULD be unique.
  const refusal no = no_of("{\"seq\":1,\n\"seq\":2}");
  CHECK(no.where == "line 2");
  CHECK(no.found == "the field \"seq\" twice");
  CHECK(no_of("{\"a\":{\"b\":1,\"b\":1}}").found == "the field \"b\" twice");
  // The same name in two objects is no duplicate.
  CHECK(json::parse("[{\"a\":1},{\"a\":2}]").has_value());
}

TEST_CASE("a field that stands twice among very many is found as well, and found at once") {
  std::string many = "{";
  for (int i = 0; i < 200'000; ++i)
    many += "\"k" + std::to_string(i) + "\":1,";
  // Looking through all of them for each takes some minutes.
  CHECK(json::parse(many + "\"k\":1}").value().members()->size() == 200'001);
  CHECK(no_of(many + "\"k7\":1}").found == "the field \"k7\" twice");
  CHECK(no_of("{\"" + std::string(50, 'k') + "\":1,\"" + std::string(50, 'k') + "\":1}").found ==
        "a field twice");
}

TEST_CASE("more values than any file of ours has are refused before they take the memory") {
  std::string many = "[";
  for (int i = 0; i < 500'000; ++i)
    many += "[],";
  const refusal no = no_of(many + "1]");
  CHECK(no.found == "more values");
  CHECK(no.expected == "at most 500000");
}

TEST_CASE("white space without end is refused, and not kept for a message") {
  CHECK(no_of(std::string(65'537, '\n')).found == "white space without end");
  CHECK(json::parse("[1," + std::string(65'536, ' ') + "2]").has_value());
}

TEST_CASE("numbers are whole and exact in every reader, or refused") {
  // RFC 8259, section 6: integers beyond 2^53-1 are not exact in all readers.
  CHECK(same("9007199254740991") == "9007199254740991");
  CHECK(same("-9007199254740991") == "-9007199254740991");
  CHECK(no_of("9007199254740992").expected == "a smaller number");
  CHECK(no_of("-9007199254740992").expected == "a smaller number");
  CHECK(no_of("18446744073709551615").found == "a number beyond 9007199254740991");
  for (const char* text : {"1.0", "1e3", "0.5", "-0.0", "1E-2", "123456789012345678901234567890"})
    CHECK(no_of(text).found.find("the number ") == 0);
  CHECK(no_of(std::string(1000, '9')).found.size() < 60);
  for (const char* text : {"01", "+1", ".5", "1.", "--1", "0x10", "NaN", "Infinity"})
    CHECK_FALSE(json::parse(text).has_value());
}

TEST_CASE("nothing may follow the value, also not behind a zero byte") {
  CHECK_FALSE(json::parse("{} {}").has_value());
  CHECK_FALSE(json::parse("1,").has_value());
  CHECK_FALSE(json::parse("").has_value());
  CHECK_FALSE(json::parse("  \n ").has_value());
  const refusal no = no_of(std::string("{}\n\0{}", 6));
  CHECK(no.where == "line 2");
  CHECK(no.found == "a zero byte");
  CHECK_FALSE(json::parse(std::string("{}\0", 3)).has_value());
  CHECK_FALSE(json::parse(std::string("\"a\0b\"", 5)).has_value());
}

TEST_CASE("text that is not UTF-8 is refused") {
  // RFC 3629: overlong forms, surrogates, stray and missing continuation bytes, beyond U+10FFFF.
  for (const char* bytes : {"\xC0\xAF", "\xED\xA0\x80", "\x80", "\xE2\x82", "\xF4\x90\x80\x80",
                            "\xFF", "\xF8\x88\x80\x80\x80"})
    CHECK_FALSE(json::parse(std::string("\"") + bytes + "\"").has_value());
  CHECK(same("\"\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x99\x82\"") ==
        "\"\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x99\x82\"");
  CHECK_FALSE(json::parse("\"\\ud800\"").has_value());
}

TEST_CASE("what a damaged file holds of a person is not repeated in the message") {
  for (const char* text : {"{\"name\": \"Maren Oakhollow\", }", "{\"name\": \"Maren Oakhollow",
                           "{\"name\": \"Maren\tOakhollow\"}", "[\"Maren Oakhollow\" 1]",
                           "{\"name\" \"Maren Oakhollow\"}"}) {
    const std::string said = sentence(no_of(text));
    CHECK(said.find("Maren") == std::string::npos);
    CHECK(said.find("Oakhollow") == std::string::npos);
    CHECK(said.find("line 1") != std::string::npos);
  }
}

TEST_CASE("nesting ends at the limit and not in a crash") {
  const auto nested = [](int depth) {
    return std::string(static_cast<std::size_t>(depth), '[') +
           std::string(static_cast<std::size_t>(depth), ']');
  };
  CHECK(json::parse(nested(json::most_depth)).has_value());
  CHECK(no_of(nested(json::most_depth + 1)).found == "deeper nesting");
  CHECK(no_of(nested(1000000)).found == "deeper nesting");
  CHECK(no_of(std::string(1000000, '[')).found == "deeper nesting");
}

TEST_CASE("a file beyond the limit of size is refused before it is read") {
  const std::string text = '"' + std::string(json::most_bytes - 2, 'a') + '"';
  CHECK(json::parse(text).has_value());
  const refusal no = no_of(" " + text);
  CHECK(no.kind == refusal_kind::out_of_range);
  CHECK(no.expected == "at most 16777216 bytes");
}

TEST_CASE("the canonical form sorts keys, has no white space and escapes no more than it must") {
  // RFC 8785, sections 3.2.2 and 3.2.3.
  CHECK(same("{ \"b\" : [ 1 , true , null ] , \"a\" : { \"d\" : \"\" , \"c\" : -1 } }") ==
        "{\"a\":{\"c\":-1,\"d\":\"\"},\"b\":[1,true,null]}");
  CHECK(same("\"\\u0041\\u00e9\\/\"") == "\"A\xC3\xA9/\"");
  CHECK(same("\"\\u0008\\u0009\\u000a\\u000c\\u000d\\u0022\\u005c\\u001f\\u007f\"") ==
        "\"\\b\\t\\n\\f\\r\\\"\\\\\\u001f\x7f\"");
  CHECK(same("-0") == "0");
  CHECK(same(same("{\"z\":1,\"a\":[]}")) == "{\"a\":[],\"z\":1}");
}

TEST_CASE("a number with a fraction is taken only where it is asked for, and keeps its digits") {
  const std::string text = "{\"a\":12.50,\"b\":-1e-3,\"c\":7,\"d\":[0.0]}";
  CHECK_FALSE(json::parse(text).has_value());
  const auto read = json::parse(text, json::numbers::exact);
  REQUIRE(read.has_value());
  REQUIRE(read->find("a")->digits() != nullptr);
  CHECK(*read->find("a")->digits() == "12.50");
  CHECK(read->find("a")->integer() == nullptr);
  CHECK(read->find("a")->kind_in_words() == "a number with a fraction");
  REQUIRE(read->find("c")->integer() != nullptr);
  CHECK(json::canonical(*read) == text);
  // What is whole stays within what every reader has exactly.
  CHECK_FALSE(json::parse("9007199254740992", json::numbers::exact).has_value());
  CHECK_FALSE(json::parse("1.", json::numbers::exact).has_value());
}

TEST_CASE("the form for people keeps the order of the fields") {
  const json::value v = json::object{{"zone", "Europe/London"}, {"ends", 1}};
  CHECK(json::pretty(v) == "{\n  \"zone\": \"Europe/London\",\n  \"ends\": 1\n}\n");
}

TEST_CASE("a value knows the line it stands on, and its kind in words") {
  const json::value v = json::parse("{\n\"a\": [],\n\"b\": \"x\"}").value();
  CHECK(v.find("a")->line() == 2);
  CHECK(v.find("b")->line() == 3);
  CHECK(v.find("c") == nullptr);
  CHECK(v.find("a")->find("b") == nullptr);
  CHECK(v.kind_in_words() == "an object");
  CHECK(v.find("a")->kind_in_words() == "a list");
  CHECK(v.find("b")->kind_in_words() == "a text");
  CHECK(json::value(true).kind_in_words() == "true or false");
  CHECK(json::value(1).kind_in_words() == "a whole number");
  CHECK(json::value().kind_in_words() == "null");
}
