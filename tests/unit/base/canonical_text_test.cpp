// A text is proved canonical or it is not: held against what parse and canonical say of it.
#include "core/base/canonical_fields.hpp"
#include "core/base/json.hpp"
#include "core/base/json_fields.hpp"

#include <catch2/catch.hpp>
#include <vector>

using namespace qb;
using namespace qb::json;

namespace {

bool proved(const std::string& text) {
  canonical_scan scan;
  return scan.scan(text, {}) != nullptr;
}

} // namespace

TEST_CASE("what is canonical is proved") {
  for (const std::string text :
       {"{}", "[]", "null", "true", "false", "0", "-1", "9007199254740991", "\"\"",
        R"({"a":1,"b":[{"c":null},"x"],"z_9":{}})", R"("\" \\ \n \t \b \f \r /")",
        "\"caf\xC3\xA9 \x7F\"",
        "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]"}) {
    CAPTURE(text);
    CHECK(canonical(parse(text).value()) == text);
    CHECK(proved(text));
  }
}

TEST_CASE("what is no JSON, or not canonical, is not proved") {
  for (const std::string text :
       {"",
        " {}",
        "{} ",
        "{}x",
        "{",
        "{\"a\"}",
        "{\"a\":}",
        "{\"a\":1,}",
        "{\"a\":1 }",
        "{\"a\": 1}",
        "{\"b\":1,\"a\":2}",
        "{\"a\":1,\"a\":1}",
        "[1,]",
        "[,1]",
        "[1 ]",
        "[1",
        "01",
        "-0",
        "-",
        "1.0",
        "1e3",
        "9007199254740992",
        "99999999999999999",
        "+1",
        "nul",
        "nulll",
        "tru",
        "\"",
        "\"a",
        "\"\\",
        "\"\\/\"",
        "\"\\u0041\"",
        "\"\n\"",
        "\"\xC3\"",
        "\"\xED\xA0\x80\"",
        "{a:1}",
        "{1:1}",
        "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]"}) {
    CAPTURE(text);
    const auto read = parse(text);
    CHECK_FALSE((read && canonical(*read) == text));
    CHECK_FALSE(proved(text));
  }
  CHECK_FALSE(proved(std::string("1\0", 2)));
  CHECK_FALSE(proved(std::string("\"a\0\"", 4)));
}

TEST_CASE("each value is found where it stands") {
  canonical_scan scan;
  const std::string text = R"({"a":[1,{"b":"x\"y"}],"c":-7,"d":{"e":true}})";
  const spot* all = scan.scan(text, {});
  REQUIRE(all != nullptr);
  CHECK(all->bytes == text);
  CHECK(all->find("c")->number == -7);
  CHECK(all->find("a")->bytes == R"([1,{"b":"x\"y"}])");
  const spot* first = all->find("a") + 1;
  CHECK(first->number == 1);
  CHECK(first->after()->find("b")->text() == "x\"y");
  CHECK(all->find("d")->find("e")->what == spot::kind::yes);
  CHECK(all->find("b") == nullptr);
  CHECK(first->find("b") == nullptr);
}

TEST_CASE("an object that was proved before is told by its bytes, under its own key alone") {
  canonical_scan scan;
  const std::string rules = R"({"id":"x","n":[1,2]})";
  const std::vector<proved_object> known{{"rules", rules}};
  const std::string text = R"({"other":)" + rules + R"(,"rules":)" + rules + "}";
  const spot* all = scan.scan(text, known);
  REQUIRE(all != nullptr);
  CHECK(all->find("rules")->bytes == rules);
  CHECK(all->find("rules")->count == 0);
  CHECK(all->find("other")->count == 2);
  CHECK(scan.scan(R"({"rules":)" + rules, known) == nullptr);
}

TEST_CASE("fields of a canonical text answer as fields do") {
  const std::string text =
      R"({"a":"words","b":7,"c":true,"d":null,"e":["x","y"],"f":{"g":1},"h":[{"i":2},{"i":3}]})";
  canonical_scan scan;
  const auto ask = [](auto& f) {
    const std::string a = f.text("a", 5);
    const auto none = f.optional_text("zz");
    const auto b = f.integer("b", 7, 7);
    const bool c = f.boolean("c");
    f.null("d");
    const auto e = f.texts("e", 2, 2);
    const bool child = f.child("f") != nullptr;
    const auto h = f.children("h", 1, 2).size();
    return std::make_tuple(a, none.has_value(), b, c, e, child, h, f.has("b"), f.has("zz"));
  };
  const value tree = parse(text).value();
  fields one(tree, "");
  canonical_fields other(*scan.scan(text, {}));
  CHECK(ask(one) == ask(other));
  CHECK_FALSE(one.finish().has_value());
  CHECK_FALSE(other.finish());
}

TEST_CASE("fields of a canonical text fail wherever fields refuse") {
  struct asked {
    const char* text;
    bool (*by)(fields&);
    void (*at_once)(canonical_fields&);
  };
#define ASK(text, question)                                                                        \
  asked {                                                                                          \
    text,                                                                                          \
        [](fields& f) {                                                                            \
          (void)f.question;                                                                        \
          return f.finish().has_value();                                                           \
        },                                                                                         \
        [](canonical_fields& f) { (void)f.question; }                                              \
  }
  for (const asked& q : {
           ASK(R"({"a":1})", text("a")),
           ASK(R"({"a":""})", text("a")),
           ASK(R"({"a":"123456"})", text("a", 5)),
           ASK("{\"a\":\"\x7F\"}", text("a")),
           ASK(R"({"a":"\n"})", text("a")),
           ASK(R"({})", text("a")),
           ASK(R"({"a":"x","b":1})", text("a")),
           ASK(R"({"a":8})", integer("a", 0, 7)),
           ASK(R"({"a":"8"})", integer("a", 0, 9)),
           ASK(R"({"a":null})", optional_integer("a", 0, 9)),
           ASK(R"({"a":0})", boolean("a")),
           ASK(R"({"a":0})", null("a")),
           ASK(R"({"a":"x"})", choice("a", {"y"})),
           ASK(R"({"a":["x",""]})", texts("a", 0, 9)),
           ASK(R"({"a":["x",1]})", texts("a", 0, 9)),
           ASK(R"({"a":["x"]})", texts("a", 2, 9)),
           ASK(R"({"a":[]})", child("a")),
           ASK(R"({"a":[]})", nullable_child("a")),
           ASK(R"({"a":{}})", children("a", 0, 9)),
           ASK(R"({"a":[{}]})", children("a", 2, 9)),
           ASK(R"([])", has("a")),
       }) {
    CAPTURE(q.text);
    const value tree = parse(q.text).value();
    fields one(tree, "");
    CHECK(q.by(one));
    canonical_scan scan;
    canonical_fields other(*scan.scan(q.text, {}));
    q.at_once(other);
    CHECK(other.finish());
  }
#undef ASK
}
