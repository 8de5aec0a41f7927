// The one writer: layouts, pieces and texts.
// What is written by pieces must be what a value of the same shape gives.
#include "core/base/json_writer.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

using json::array;
using json::object;
using json::style;
using json::value;

value sample() {
  return object{{"b", array{1, value(), true, "x"}},
                {"a", object{{"d", json::decimal{"12.50"}}, {"c", array{}}}},
                {"e", object{}}};
}

// The same as `sample`, piece by piece.
std::string in_pieces(style how) {
  std::string text;
  json::writer out(text, how);
  out.open_object();
  out.key("b").open_list();
  out.integer(1);
  out.null();
  out.boolean(true);
  out.text("x");
  out.close_list();
  out.key("a").open_object();
  out.key("d").digits("12.50");
  out.key("c").put(array{});
  out.close_object();
  out.members(object{{"e", object{}}});
  out.close_object();
  return text;
}

} // namespace

TEST_CASE("one value is laid out in three ways") {
  CHECK(json::canonical(sample()) == R"({"a":{"c":[],"d":12.50},"b":[1,null,true,"x"],"e":{}})");
  CHECK(json::one_line(sample()) ==
        "{\"b\":[1,null,true,\"x\"],\"a\":{\"d\":12.50,\"c\":[]},\"e\":{}}\n");
  CHECK(json::pretty(sample()) == R"({
  "b": [
    1,
    null,
    true,
    "x"
  ],
  "a": {
    "d": 12.50,
    "c": []
  },
  "e": {}
}
)");
}

TEST_CASE("what is written piece by piece is the value's text") {
  CHECK(in_pieces(style::one_line) + "\n" == json::one_line(sample()));
  CHECK(in_pieces(style::pretty) + "\n" == json::pretty(sample()));
}

TEST_CASE("several values one after another are apart by what the caller puts between them") {
  std::string text;
  json::writer out(text, style::one_line);
  out.put(object{{"a", 1}});
  text += "\n";
  out.put(array{2, 3});
  CHECK(text == "{\"a\":1}\n[2,3]");
}

TEST_CASE("a value can stand on a line of its own") {
  std::string text;
  json::writer out(text, style::one_line);
  out.open_object();
  out.key("all").open_list();
  for (int n = 1; n <= 2; ++n) {
    out.break_line();
    out.put(object{{"n", n}, {"m", n}});
  }
  out.break_line();
  out.close_list();
  out.key("after").integer(0);
  out.close_object();
  CHECK(text == "{\"all\":[\n{\"n\":1,\"m\":1},\n{\"n\":2,\"m\":2}\n],\"after\":0}");
}

TEST_CASE("keys and texts are escaped alike, and what is no UTF-8 is replaced") {
  CHECK(json::canonical(object{{"a\"b", "c\\d\n"}}) == R"({"a\"b":"c\\d\n"})");
  CHECK(json::canonical(value("\xC3\xA9")) == "\"\xC3\xA9\"");
  CHECK(json::canonical(value("a\xFFz")) == "\"a\xEF\xBF\xBDz\"");
}

TEST_CASE("whole numbers are written to their last digit") {
  CHECK(json::canonical(value(std::int64_t{-9007199254740991})) == "-9007199254740991");
  CHECK(json::canonical(value(INT64_MIN)) == "-9223372036854775808");
  CHECK(json::canonical(value(0)) == "0");
}

TEST_CASE("what is not known is null, and lists are made of what they hold") {
  CHECK(json::canonical(json::text_or_null("")) == "null");
  CHECK(json::canonical(json::text_or_null("x")) == "\"x\"");
  CHECK(json::canonical(json::list_of(std::vector<int>{1, 2})) == "[1,2]");
  CHECK(json::canonical(json::list_of(std::vector<std::string>{})) == "[]");
}
