// A row sealed by itself: what opens it, what does not, and what of a damaged one can be had.
#include "core/seal/sealed_row.hpp"

#include "core/seal/bytes.hpp"

#include <catch2/catch.hpp>
#include <numeric>

using namespace qb;
using namespace qb::seal;

namespace {

constexpr const char* text = "{\"kind\":\"person\",\"name\":\"Maren Oakhollow\"}";

secret<32> key_of(unsigned char first) {
  secret<32> out;
  std::iota(out.bytes.begin(), out.bytes.end(), first);
  return out;
}

row_nonce nonce_of(unsigned char first) {
  row_nonce out{};
  std::iota(out.begin(), out.end(), first);
  return out;
}

std::string sealed() {
  return seal_row(text, "event 3", key_of(1), nonce_of(100));
}

std::string flipped(std::string bytes, std::size_t at, unsigned by) {
  bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ by);
  return bytes;
}

} // namespace

TEST_CASE("a sealed row opens at its place with its key, and nowhere else") {
  CHECK(open_row(sealed(), "event 3", key_of(1)) == text);
  CHECK_FALSE(open_row(sealed(), "event 4", key_of(1)));
  CHECK_FALSE(open_row(sealed(), "draft 3", key_of(1)));
  CHECK_FALSE(open_row(sealed(), "event 3", key_of(2)));
  CHECK(open_row(seal_row("", "draft x", key_of(1), nonce_of(7)), "draft x", key_of(1)) == "");
}

TEST_CASE("no word of a row is in its seal, and the same row twice is not the same") {
  CHECK(sealed().find("Maren") == std::string::npos);
  CHECK(sealed() != seal_row(text, "event 3", key_of(1), nonce_of(101)));
}

TEST_CASE("a row with any bit wrong, or cut off, does not open") {
  for (std::size_t at = 0; at < sealed().size(); ++at) {
    for (unsigned bit = 0; bit < 8; ++bit)
      CHECK_FALSE(open_row(flipped(sealed(), at, 1U << bit), "event 3", key_of(1)));
    CHECK_FALSE(open_row(sealed().substr(0, at), "event 3", key_of(1)));
  }
}

TEST_CASE("one wrong byte of the nonce is put right, two are not") {
  for (std::size_t at = 0; at < sizeof(row_nonce); ++at)
    CHECK(open_with_nonce_mended(flipped(sealed(), at, 0x5A), "event 3", key_of(1)) == text);
  const std::string two = flipped(flipped(sealed(), 0, 1), 1, 1);
  CHECK_FALSE(open_with_nonce_mended(two, "event 3", key_of(1)));
  CHECK_FALSE(open_with_nonce_mended("", "event 3", key_of(1)));
}

TEST_CASE("without asking the tag a wrong byte is wrong at its own place alone") {
  CHECK(unproved_row(sealed(), key_of(1)) == text);
  const std::size_t first = sizeof(row_nonce);
  for (std::size_t at = 0; at < std::string(text).size(); ++at)
    CHECK(unproved_row(flipped(sealed(), first + at, 0x21), key_of(1)) == flipped(text, at, 0x21));
  CHECK(unproved_row(sealed().substr(0, first), key_of(1)).empty());
}

TEST_CASE("a row is sealed as the draft of XChaCha20-Poly1305 has it (its appendix A.3.1)") {
  const std::string words = "Ladies and Gentlemen of the class of '99: If I could offer you only "
                            "one tip for the future, sunscreen would be it.";
  const std::string place{"\x50\x51\x52\x53\xc0\xc1\xc2\xc3\xc4\xc5\xc6\xc7", 12};
  const std::string out = seal_row(words, place, key_of(0x80), nonce_of(0x40));
  const std::string begins{"\xbd\x6d\x17\x9d\x3e\x83\xd4\x3b\x95\x76\x57\x94\x93\xc0\xe9\x39", 16};
  const std::string tag{"\xc0\x87\x59\x24\xc1\xc7\x98\x79\x47\xde\xaf\xd8\x78\x0a\xcf\x49", 16};
  CHECK(out.substr(sizeof(row_nonce), begins.size()) == begins);
  CHECK(out.substr(out.size() - tag.size()) == tag);
}
