// SHA-1 against the examples of its standard, UUIDs against another implementation's.
#include "core/fhir/uuid.hpp"

#include <catch2/catch.hpp>
#include <fmt/core.h>

namespace qb::fhir {

namespace {

std::string hex(std::string_view bytes) {
  std::string out;
  for (const std::uint8_t b : sha1(bytes))
    out += fmt::format("{:02x}", b);
  return out;
}

} // namespace

TEST_CASE("SHA-1 gives the digests of the examples of FIPS 180") {
  CHECK(hex("") == "da39a3ee5e6b4b0d3255bfef95601890afd80709");
  CHECK(hex("abc") == "a9993e364706816aba3e25717850c26c9cd0d89d");
  CHECK(hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "84983e441c3bd26ebaae4aa1f95129e5e54670f1");
  CHECK(hex(std::string(1000000, 'a')) == "34aa973cd4c4daa4f61eeb2bdbad27316534016f");
}

TEST_CASE("SHA-1 takes every length around the end of a block") {
  // By Python's hashlib, of so many times the letter x.
  CHECK(hex(std::string(55, 'x')) == "cef734ba81a024479e09eb5a75b6ddae62e6abf1");
  CHECK(hex(std::string(56, 'x')) == "901305367c259952f4e7af8323f480d59f81335b");
  CHECK(hex(std::string(63, 'x')) == "0ddc4e0cccd9a12850deb5abb0853a4425559fec");
  CHECK(hex(std::string(64, 'x')) == "bb2fa3ee7afb9f54c6dfb5d021f14b1ffe40c163");
  CHECK(hex(std::string(65, 'x')) == "78c741ddc482e4cdf8c474a0876347a0905b6233");
}

TEST_CASE("a UUID of a URL is the one that Python's uuid module makes") {
  CHECK(uuid_of_url("https://quarterbreath.invalid/test/test-1/tube/4") ==
        "d506b2cc-ca52-5038-8257-f8f1e5449fb9");
  CHECK(uuid_of_url("") == "1b4db7eb-4057-5ddf-91e0-36dec72071f5");
}

} // namespace qb::fhir
