// A reader's key in its file: what opens it, and what does not.
#include "core/seal/sealed_seed.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::seal;

namespace {

secret<32> seed_of(unsigned char fill) {
  secret<32> out;
  out.bytes.fill(fill);
  return out;
}

std::string sealed(const std::string& words = "correct and long", unsigned char fill = 3) {
  secret<64> chance;
  chance.bytes.fill(9);
  return seal_seed(seed_of(fill), words, chance, least_cost()).value();
}

} // namespace

TEST_CASE("a sealed key is opened by its passphrase and by no other") {
  const std::string file = sealed();
  CHECK(open_seed(file, "correct and long")->bytes == seed_of(3).bytes);
  for (const char* other : {"", "correct and lon", "Correct and long", "correct and long "})
    CHECK_FALSE(open_seed(file, other).has_value());
  CHECK(public_key_text(key_of_sealed_seed(file).value()) ==
        public_key_text(named(signing_key(seed_of(3)).open_half())));
}

TEST_CASE("neither seed nor passphrase stands in the file") {
  const std::string file = sealed();
  CHECK(file.find("correct") == file.npos);
  CHECK(file.find(std::string(8, '\x03')) == file.npos);
  CHECK(sealed("other words, long", 3) != file);
}

TEST_CASE("a sealed key of which any byte was changed is not opened") {
  const std::string file = sealed();
  for (std::size_t at = 0; at + 1 < file.size(); ++at) {
    std::string other = file;
    other[at] = other[at] == 'A' ? 'B' : 'A';
    INFO("byte " << at);
    REQUIRE_FALSE(open_seed(other, "correct and long").has_value());
  }
}

TEST_CASE("a sealed key that asks for more than a machine has is refused before it is tried") {
  for (const char* cost : {"\"memory_kib\":99999999", "\"memory_kib\":0", "\"memory_kib\":-1"}) {
    std::string file = sealed();
    const std::size_t at = file.find("\"memory_kib\":");
    file.replace(at, file.find(',', at) - at, cost);
    CHECK_FALSE(open_seed(file, "correct and long").has_value());
  }
}
