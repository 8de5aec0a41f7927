// Lists of what was asked for: by columns that are described, and by FHIR.
#include "core/receiving/requested.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using Catch::Contains;

namespace {

constexpr const char* described =
    R"({"format":"quarterbreath-request-columns","version":1,"kit":"Box","name":"Patient",)"
    R"("birth_date":"Born","hospital_number":"No","day":"DD.MM.YYYY"})";

request_columns columns() {
  return read_request_columns(described).value();
}

std::string refused(const std::string& table) {
  const auto read = read_request_table(table, columns());
  return read ? "taken" : sentence(read.error());
}

constexpr const char* bundle = R"({"resourceType":"Bundle","type":"collection","entry":[
  {"fullUrl":"urn:uuid:1","resource":{"resourceType":"Patient","id":"p1",
    "identifier":[{"value":"H-77"}],"name":[{"given":["Odile"],"family":"Marchbank"}],
    "birthDate":"1948-05-17"}},
  {"resource":{"resourceType":"ServiceRequest","status":"active","intent":"order",
    "identifier":[{"value":"O-1"}],"subject":{"reference":"urn:uuid:1"},
    "specimen":[{"identifier":{"value":"fv 2c7h"}}]}}]})";

} // namespace

TEST_CASE("a table of requests is read by the columns that its description names") {
  const auto list = read_request_table("Ward;BOX;Patient;Born;No\n3;fv 2c7h;Odile "
                                       "Marchbank;17.05.1948;H-77\n",
                                       columns());
  REQUIRE(list.has_value());
  REQUIRE(list->size() == 1);
  CHECK(list->front().kit == "FV-2C7H");
  CHECK(list->front().name == "Odile Marchbank");
  CHECK(date_text(*list->front().birth_date) == "1948-05-17");
  CHECK(list->front().hospital_number == "H-77");
  CHECK(list->front().order_number.empty());
}

TEST_CASE("a table of requests is refused whole, with its line and nothing of a person") {
  const std::string head = "Box,Patient,Born,No\nFV-2C7H,Odile,17.05.1948,1\n";
  CHECK_THAT(refused(head + "x y z,Odile,,\n"), Contains("line 3, kit"));
  CHECK_THAT(refused(head + "FV-2C7J,Odile,1948-05-17,\n"), Contains("line 3, birth date"));
  CHECK_THAT(refused(head + "FV-2C7J,Odile,31.02.1948,\n"), Contains("line 3, birth date"));
  CHECK_THAT(refused(head + "fv 2c7h,Odile,,\n"), Contains("a kit that stands above"));
  CHECK_THAT(refused(head + "FV-2C7J,,,\n"), Contains("a kit and nothing else"));
  CHECK_THAT(refused("Box,Patient,No\nFV-2C7H,Odile,1\n"), Contains("no column \"Born\""));
  for (const char* row : {"x y z,Odile,,\n", "FV-2C7J,Odile,1948-05-17,\n"})
    CHECK_FALSE(Contains("Odile").match(refused(head + row)));
}

TEST_CASE("a description of columns has each field once, and no other") {
  CHECK_FALSE(read_request_columns("{}").has_value());
  std::string twice = described;
  twice.replace(twice.find("\"Born\""), 6, "\"box\"");
  CHECK_THAT(sentence(read_request_columns(twice).error()), Contains("another field's"));
  std::string more = described;
  more.insert(1, "\"ward\":\"W\",");
  CHECK_FALSE(read_request_columns(more).has_value());
}

TEST_CASE("ServiceRequests are read with the patients of their bundle") {
  const auto list = read_service_requests(bundle);
  REQUIRE(list.has_value());
  const requested& one = list->front();
  CHECK(one.kit == "FV-2C7H");
  CHECK(one.name == "Odile Marchbank");
  CHECK(date_text(*one.birth_date) == "1948-05-17");
  CHECK(one.hospital_number == "H-77");
  CHECK(one.order_number == "O-1");
}

TEST_CASE("a ServiceRequest without a kit, or whose patient is not there, is refused") {
  std::string text = bundle;
  text.replace(text.find("fv 2c7h"), 7, "nothing");
  CHECK_THAT(sentence(read_service_requests(text).error()), Contains("no kit number"));
  text = bundle;
  text.replace(text.find("\"urn:uuid:1\"}"), 13, "\"urn:uuid:2\"}");
  CHECK_THAT(sentence(read_service_requests(text).error()), Contains("not in this file"));
  text = bundle;
  text.replace(text.find("1948-05-17"), 10, "1948-05");
  CHECK_THAT(sentence(read_service_requests(text).error()), Contains("no whole day"));
  CHECK_FALSE(read_service_requests("{\"resourceType\":\"Patient\"}").has_value());
  CHECK_FALSE(read_service_requests("[]").has_value());
}
