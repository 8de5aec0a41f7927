// Hexadecimal digits: the test vectors of RFC 4648, section 10 (base16, there in capitals).
#include "core/base/hex.hpp"

#include "core/base/big_endian.hpp"

#include <catch2/catch.hpp>

using namespace qb;

TEST_CASE("bytes are written as hexadecimal digits and read back") {
  CHECK(hex_of("").empty());
  CHECK(hex_of("f") == "66");
  CHECK(hex_of("foobar") == "666f6f626172");
  CHECK(bytes_of_hex("666F6F626172") == "foobar");
  CHECK(bytes_of_hex("666f6f626172") == "foobar");
  CHECK(bytes_of_hex("").value().empty());
  std::string all;
  for (int i = 0; i < 256; ++i)
    all += static_cast<char>(i);
  CHECK(bytes_of_hex(hex_of(all)) == all);
}

TEST_CASE("what is no whole pair of digits is no bytes") {
  for (const char* bad : {"6", "666", "zz", "66 6f", "66:6f", "6g", "-1", " 66", "66\n"})
    CHECK_FALSE(bytes_of_hex(bad).has_value());
}

TEST_CASE("a number in four bytes has its highest first, and comes back") {
  CHECK(four_bytes(0x01020304U) == std::string("\x01\x02\x03\x04"));
  for (const std::uint64_t n : {0ULL, 1ULL, 255ULL, 65536ULL, 4294967295ULL})
    CHECK(big_endian(four_bytes(n)) == n);
  CHECK(big_endian("") == 0);
}
