// FHIR's JSON: nothing empty, decimals as measured.
#include "core/base/json.hpp"
#include "core/fhir/tree.hpp"

#include <catch2/catch.hpp>

namespace qb::fhir {

TEST_CASE("what is empty is left out of a FHIR tree, and zero and no are not empty") {
  tree t;
  t.set("words", "").set("list", list{}).set("object", tree());
  t.set("of-empty", list{tree(), tree("")}).set("zero", 0).set("no", false);
  CHECK(t.json() == "{\n  \"zero\": 0,\n  \"no\": false\n}\n");
}

TEST_CASE("a measured decimal keeps its digits, and texts are escaped as JSON has it") {
  tree t = tree::of({{"value", decimal{"12.50"}}, {"text", "a \"b\"\n\\"}});
  CHECK(t.json() == "{\n  \"value\": 12.50,\n  \"text\": \"a \\\"b\\\"\\n\\\\\"\n}\n");
}

TEST_CASE("members keep their order, and nested lists are written whole") {
  tree t = tree::of({{"b", 1}, {"a", list{tree("x"), tree::of({{"c", true}})}}});
  CHECK(t.json() ==
        "{\n  \"b\": 1,\n  \"a\": [\n    \"x\",\n    {\n      \"c\": true\n    }\n  ]\n}\n");
  const auto read = json::parse(t.json());
  REQUIRE(read.has_value());
  CHECK(*read->find("b")->integer() == 1);
  CHECK(t.find("a") != nullptr);
  CHECK(t.find("c") == nullptr);
}

} // namespace qb::fhir
