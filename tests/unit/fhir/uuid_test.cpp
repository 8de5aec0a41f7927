// UUIDs of names against another implementation's.
#include "core/fhir/uuid.hpp"

#include <catch2/catch.hpp>

namespace qb::fhir {

TEST_CASE("a UUID of a URL is the one that Python's uuid module makes") {
  CHECK(uuid_of_url("https://quarterbreath.invalid/test/test-1/tube/4") ==
        "d506b2cc-ca52-5038-8257-f8f1e5449fb9");
  CHECK(uuid_of_url("") == "1b4db7eb-4057-5ddf-91e0-36dec72071f5");
}

TEST_CASE("a UUID of a URL takes every length around the end of a block of SHA-1") {
  // By Python's uuid module, of so many times the letter x; the namespace adds 16 bytes.
  CHECK(uuid_of_url(std::string(39, 'x')) == "f4eaee1e-e483-528b-88bd-6b8932ab6e2b");
  CHECK(uuid_of_url(std::string(40, 'x')) == "f562c38a-a8fe-5cdd-b523-6f30cfb54847");
  CHECK(uuid_of_url(std::string(47, 'x')) == "b18474ae-5fc6-5d04-aa24-a5be94234955");
  CHECK(uuid_of_url(std::string(48, 'x')) == "8fa6ffa9-9280-5899-a2d8-b082ccdf6380");
  CHECK(uuid_of_url(std::string(49, 'x')) == "a7ea6783-dd62-55d7-b23b-9acadffca469");
  CHECK(uuid_of_url(std::string(1000, 'x')) == "68491f23-75a7-557d-943b-00881c13ae1e");
}

TEST_CASE("a UUID is made of the name alone, also where more text follows it") {
  const std::string_view longer = "https://quarterbreath.invalid/test/test-1/tube/4/more";
  CHECK(uuid_of_url(longer.substr(0, longer.size() - 5)) == "d506b2cc-ca52-5038-8257-f8f1e5449fb9");
}

} // namespace qb::fhir
