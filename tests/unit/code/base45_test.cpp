// Base45 against the vectors of RFC 9285 and every length and byte.
// tests/outside/run_code holds it against a second implementation.
#include "core/code/base45.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::code;

TEST_CASE("Base45 gives the examples of RFC 9285, section 4.3 and 4.4") {
  CHECK(base45("AB") == "BB8");
  CHECK(base45("Hello!!") == "%69 VD92EX0");
  CHECK(base45("base-45") == "UJCLQE7W581");
  CHECK(read_base45("QED8WEX0").value() == "ietf!");
  CHECK(base45("").empty());
  CHECK(read_base45("").value().empty());
}

TEST_CASE("all bytes at all lengths come back from Base45") {
  std::string bytes;
  for (int i = 0; i < 600; ++i) {
    CHECK(read_base45(base45(bytes)).value() == bytes);
    bytes += static_cast<char>(i * 7 + i / 256);
  }
}

TEST_CASE("what Base45 cannot have written is refused with its place") {
  CHECK(read_base45("FGW").value() == "\xFF\xFF"); // the greatest pair, RFC 9285 section 6
  CHECK(read_base45("GGW").error().found == "a group beyond its bytes");
  CHECK(read_base45(":::").error().where == "character 1");
  CHECK(read_base45("BB8::").error().where == "character 4"); // 2024 is no single byte
  CHECK(read_base45("BB8A").error().found == "a single character");
  for (const char* other : {"bb8", "BB_", "BB\n", "B\xC3\xA9"})
    CHECK(read_base45(other).error().found == "a character Base45 has not");
}
