// The strict reader of codes, and what is shipped.
#include "core/fhir/codes.hpp"
#include "tests/unit/fhir/made_bundle.hpp"

#include <catch2/catch.hpp>

namespace qb::fhir {

namespace {

using Catch::Contains;

const char* const good = R"({
  "format": "quarterbreath-codes", "version": 1, "system": "http://codes.example",
  "title": "Some", "licence": "Free",
  "codes": [
    {"code": "A-1", "display": "One", "source": "Read there", "uses": ["symptom.pain"]},
    {"code": "A-2", "display": "Two", "source": "Read there", "uses": ["gas.h2", "gas.ch4"]}
  ]
})";

std::string refused(const std::string& text) {
  const auto read = read_code_file(text);
  return read ? "" : sentence(read.error());
}

std::string with(const std::string& from, const std::string& to) {
  return changed(good, from, to);
}

} // namespace

TEST_CASE("a code is found by what it is used for, and what is not listed is not found") {
  const code_list all = code_list::of({read_code_file(good).value()}).value();
  REQUIRE(all.find("gas.ch4") != nullptr);
  CHECK(all.find("gas.ch4")->code == "A-2");
  CHECK(all.find("gas.ch4")->system == "http://codes.example");
  CHECK(all.find("gas.ch4")->display == "Two");
  CHECK(all.find("symptom.tiredness") == nullptr);
}

TEST_CASE("a file of codes is read strictly, and the place of a fault is named") {
  CHECK_THAT(refused(with("\"licence\": \"Free\",", "")), Contains("licence"));
  CHECK_THAT(refused(with("\"title\"", "\"titel\"")), Contains("titel") || Contains("title"));
  CHECK_THAT(refused(with("http://codes.example", "codes")), Contains("an address"));
  CHECK_THAT(refused(with("http://codes.example", "http://a.example b")),
             Contains("without spaces"));
  CHECK_THAT(refused(with("\"A-1\"", "\"A 1\"")), Contains("codes[0]") && Contains("ASCII"));
  CHECK_THAT(refused(with("\"A-2\"", "\"A-1\"")), Contains("codes[1]") && Contains("twice"));
  CHECK_THAT(refused(with("gas.h2", "symptom.pain")), Contains("each use once"));
  CHECK_THAT(refused(with("symptom.pain", "pain")), Contains("KIND.NAME"));
  CHECK_THAT(refused(with("symptom.pain", "Symptom.pain")), Contains("KIND.NAME"));
  CHECK_THAT(refused(with("\"version\": 1", "\"version\": 2")), Contains("newer"));
  CHECK(refused(good).empty());
}

TEST_CASE("over all files a system and a use stand once") {
  const code_file one = read_code_file(good).value();
  code_file other = one;
  CHECK(code_list::of({one, other}).error().found == "http://codes.example twice");
  other.system = "http://other.example";
  CHECK_THAT(code_list::of({one, other}).error().found, Contains("in two files"));
  other.codes.clear();
  CHECK(code_list::of({one, other}).has_value());
}

TEST_CASE("the shipped codes are those that were read in their sources, and no other") {
  // The whole list, so that a code cannot slip in: each was read in the source named beside it.
  const std::vector<std::string> read{"breath-carbon-dioxide",
                                      "breath-hydrogen",
                                      "breath-methane",
                                      "record-mismatch",
                                      "rehearsal",
                                      "for-trying",
                                      "EXG",
                                      "74788-1",
                                      "74790-7",
                                      "74789-9",
                                      "50584-2",
                                      "119336008",
                                      "116289008",
                                      "21522001",
                                      "422587007",
                                      "308698004",
                                      "62315008",
                                      "51197009",
                                      "413681009",
                                      "[ppm]",
                                      "g"};
  std::vector<std::string> shipped;
  for (const code_file& file : shipped_code_files()) {
    CHECK(file.licence.size() > 10);
    for (const code_file::entry& one : file.codes)
      shipped.push_back(one.what.code);
  }
  CHECK_THAT(shipped, Catch::UnorderedEquals(read));
  CHECK(shipped_codes().find("specimen.breath")->code == "119336008");
  CHECK(shipped_codes().find("symptom.nausea")->display == "Nausea");
  CHECK(shipped_codes().find("unit.ppm")->code == "[ppm]");
}

} // namespace qb::fhir
