// FHIR's JSON: nothing empty, decimals as measured.
#include "core/fhir/without_empty.hpp"

#include <catch2/catch.hpp>

namespace qb::fhir {

namespace {

using json::array;
using json::object;
using json::value;

std::string written(const value& v) {
  return json::one_line(without_empty(v));
}

} // namespace

TEST_CASE("what is empty is left out of a FHIR resource, and zero and no are not empty") {
  CHECK(written(object{{"words", ""},
                       {"list", array{}},
                       {"object", object{}},
                       {"null", value()},
                       {"zero", 0},
                       {"no", false}}) == "{\"zero\":0,\"no\":false}\n");
  CHECK(written(array{value(), "", 0, "x"}) == "[0,\"x\"]\n");
}

TEST_CASE("what held only empty things is left out with them, however deep") {
  CHECK(written(object{{"a", array{object{{"b", array{"", value()}}}}}, {"c", 1}}) ==
        "{\"c\":1}\n");
  CHECK(written(object{{"a", array{object{{"b", ""}, {"c", "x"}}, object{}}}}) ==
        "{\"a\":[{\"c\":\"x\"}]}\n");
}

TEST_CASE("a measured decimal keeps its digits in a FHIR resource") {
  CHECK(written(object{{"value", json::decimal{"12.50"}}, {"none", json::decimal{"0.0"}}}) ==
        "{\"value\":12.50,\"none\":0.0}\n");
}

} // namespace qb::fhir
