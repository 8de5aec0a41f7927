// What `quarterbreath-lab kit-code` prints, and what it refuses.
#include "app/lab/commands/commands.hpp"
#include "core/base/json.hpp"
#include "core/protocol/kit_code.hpp"

#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <sstream>

namespace qb::lab {

namespace {

using Catch::Contains;

struct printer {
  kit_code_options o;
  std::string out;
  std::string err;

  printer() {
    o.assets = repository() + "/assets";
    o.protocol = "lactulose-10g";
    o.profile = "fenwick-vale";
    o.expires = "2027-12-31";
    o.serial = "2c7h";
  }
  int run() {
    out = err = "";
    return make_kit_codes(o, {[this](const std::string& text) { out += text; },
                              [this](const std::string& text) { err += text; }});
  }
  // Refused, with nothing printed; answers the complaint.
  std::string refused() {
    CHECK(run() == 2);
    CHECK(out.empty());
    return err;
  }
};

} // namespace

TEST_CASE("one kit code is one line: code, kit number, protocol, last day") {
  printer p;
  REQUIRE(p.run() == 0);
  std::istringstream words(p.out);
  std::string code, number, protocol, expires, more;
  words >> code >> number >> protocol >> expires;
  CHECK_FALSE(words >> more);
  CHECK(number == "FV-2C7H");
  CHECK(protocol == "lactulose-10g");
  CHECK(expires == "2027-12-31");
  const auto read = read_kit_code(code);
  REQUIRE(read.has_value());
  CHECK(kit_number_of(*read) == number);
  CHECK(read->protocol_letters == "W2");
  CHECK(date_text(read->expires) == expires);
}

TEST_CASE("many kits have serials that follow each other, and no two codes are the same") {
  printer p;
  p.o.serial.clear();
  p.o.first = "2ZZY";
  p.o.count = 700;
  REQUIRE(p.run() == 0);
  std::set<std::string> seen;
  std::istringstream lines(p.out);
  std::uint32_t serial = *read_kit_serial("2ZZY");
  for (std::string line; std::getline(lines, line); ++serial) {
    const auto read = read_kit_code(line.substr(0, line.find(' ')));
    REQUIRE(read.has_value());
    CHECK(read->serial == kit_serial_text(serial));
    seen.insert(kit_code_text(*read));
  }
  CHECK(seen.size() == 700);
}

TEST_CASE("kit codes for scripts say the same as the lines") {
  printer p;
  p.o.format = output_format::json;
  REQUIRE(p.run() == 0);
  CHECK_THAT(p.out, Contains("\"kit_number\": \"FV-2C7H\""));
  CHECK_THAT(p.out, Contains("\"protocol\": \"lactulose-10g\""));
  CHECK_THAT(p.out, Contains("\"expires\": \"2027-12-31\""));
  CHECK(json::parse(p.out).has_value());
}

TEST_CASE("no code is made of an unknown test, laboratory, day or serial") {
  printer p;
  SECTION("test") {
    p.o.protocol = "lactulose-11g";
    CHECK_THAT(p.refused(), Contains("\"lactulose-11g\", expected one of: "));
  }
  SECTION("laboratory") {
    p.o.profile = "nobody";
    CHECK_THAT(p.refused(), Contains("\"nobody\", expected one of: fenwick-vale"));
  }
  SECTION("day") {
    for (const char* day : {"2027-02-29", "31.12.2027", "2024-12-31", "2073-02-14", ""}) {
      p.o.expires = day;
      CHECK_THAT(p.refused(), Contains("--expires: found \"" + std::string(day) + "\""));
    }
  }
  SECTION("serial") {
    for (const char* serial : {"2C7", "2C7HH", "2C7O"}) {
      p.o.serial = serial;
      CHECK_THAT(p.refused(), Contains("--serial: found \"" + std::string(serial) + "\""));
    }
  }
}

TEST_CASE("either one serial, or a first one and a count that there are serials for") {
  printer p;
  SECTION("both") {
    p.o.first = "2222";
    CHECK_THAT(p.refused(), Contains("--first as well"));
  }
  SECTION("neither") {
    p.o.serial.clear();
    CHECK_THAT(p.refused(), Contains("neither --serial nor --first"));
  }
  SECTION("a count without a first") {
    p.o.count = 3;
    CHECK_THAT(p.refused(), Contains("--count"));
  }
  SECTION("a first without a count") {
    p.o.serial.clear();
    p.o.first = "2222";
    CHECK_THAT(p.refused(), Contains("--count: found no count"));
  }
  SECTION("too many") {
    p.o.serial.clear();
    p.o.first = "ZZZY";
    for (const long long count : {0LL, -1LL, 3LL, 5000000000LL}) {
      p.o.count = count;
      CHECK_THAT(p.refused(), Contains("expected 1 to 2"));
    }
    p.o.count = 2;
    CHECK(p.run() == 0);
  }
}

} // namespace qb::lab
