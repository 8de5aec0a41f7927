// Signature files: what holds, and what must not.
// Debian's minisign checks ours, and ours checks minisign's, in tests/outside/run_sealed.
#include "core/seal/minisign.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::seal;
using Catch::Contains;

namespace {

signing_key key_of(unsigned char fill) {
  secret<32> seed;
  seed.bytes.fill(fill);
  return signing_key(seed);
}

const std::string log_text = R"({"format":"quarterbreath-log"})";

std::string signed_log(const std::string& comment = "kit:FV-2071") {
  return sign_file(log_text, key_of(3), comment);
}

// Whether the text is a signature of `bytes` by key 3.
bool holds(const std::string& text, const std::string& bytes = log_text, unsigned char key = 3) {
  const auto read = read_signature(text);
  return read && check_signature(bytes, *read, named(key_of(key).open_half())).has_value();
}

} // namespace

TEST_CASE("a signature holds for its bytes and its key, and for no others") {
  CHECK(holds(signed_log()));
  CHECK_FALSE(holds(signed_log(), log_text + " "));
  CHECK_FALSE(holds(signed_log(), ""));
  CHECK_FALSE(holds(signed_log(), log_text, 4));
  const auto read = read_signature(signed_log()).value();
  CHECK(read.trusted_comment == "kit:FV-2071");
  CHECK_THAT(sentence(check_signature(log_text, read, named(key_of(4).open_half())).error()),
             Contains("found the key " + fingerprint(named(key_of(3).open_half()).id)));
  named_key other = named(key_of(4).open_half());
  other.id = read.id; // another key under the same name
  CHECK_THAT(sentence(check_signature(log_text, read, other).error()), Contains("other bytes"));
}

TEST_CASE("of a signature file only the untrusted comment may change") {
  const std::string whole = signed_log();
  const std::size_t signed_from = whole.find('\n') + 1;
  for (std::size_t at = signed_from; at < whole.size(); ++at) {
    for (const int bit : {1, 2, 4, 8, 16, 32, 64, 128}) {
      std::string other = whole;
      other[at] = static_cast<char>(other[at] ^ bit);
      INFO("byte " << at << ", bit " << bit);
      REQUIRE_FALSE(holds(other));
    }
  }
  CHECK(holds("untrusted comment: anything\n" + whole.substr(signed_from)));
}

TEST_CASE("a signature file is four lines and no more") {
  const std::string whole = signed_log();
  CHECK_FALSE(holds(whole + "\n"));
  CHECK_FALSE(holds(whole + whole));
  CHECK_FALSE(holds("x" + whole));
  for (std::size_t size = 0; size < whole.size(); ++size)
    REQUIRE_FALSE(holds(whole.substr(0, size)));
  CHECK_THAT(sentence(read_signature("hello").error()), Contains("the four lines"));
  CHECK_FALSE(read_signature("untrusted comment: " + std::string(20000, 'x') + whole));
}

TEST_CASE("the older form without a hash is refused by name") {
  std::string old = signed_log();
  const std::size_t at = old.find('\n') + 1;
  old.replace(at, 4, "RWQ" + old.substr(at + 3, 1)); // "ED" in base64 is "RUQ", "Ed" is "RWQ"
  CHECK_THAT(sentence(read_signature(old).error()), Contains("another algorithm"));
}

TEST_CASE("a public key is read as a line and as a file, and nothing else is one") {
  const named_key key = named(key_of(3).open_half());
  const std::string text = public_key_text(key);
  CHECK(text.substr(0, 2) == "RW");
  CHECK(text.size() == 56);
  for (const std::string& form : {text, text + "\n", "untrusted comment: a key\n" + text + "\n"}) {
    const auto read = read_public_key(form);
    REQUIRE(read);
    CHECK(read->id == key.id);
    CHECK(read->key == key.key);
  }
  CHECK_FALSE(read_public_key(""));
  CHECK_FALSE(read_public_key("untrusted comment: a key"));
  CHECK_FALSE(read_public_key(text + " "));
  CHECK_FALSE(read_public_key(text.substr(0, 52)));
  CHECK_FALSE(read_public_key("RU" + text.substr(2)));
  CHECK(fingerprint(key.id).size() == 16);
}
