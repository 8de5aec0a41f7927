// Sealing to a laboratory's key: what opens, and everything that must not.
// Debian's age reads and writes the same form in tests/outside/run_sealed.
#include "core/seal/age.hpp"

#include "core/seal/bytes.hpp"
#include "tests/unit/seal/recipient_text.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::seal;
using Catch::Contains;
using seal::test::recipient_text;

namespace {

constexpr std::size_t piece = 65536;
constexpr std::size_t tag = 16;

identity identity_of(unsigned char fill) {
  identity out;
  out.scalar.bytes.fill(fill);
  return out;
}

sealing_chance chance_of(unsigned char fill) {
  secret<64> bytes;
  for (std::size_t i = 0; i < bytes.bytes.size(); ++i)
    bytes.bytes[i] = static_cast<unsigned char>(fill + i);
  return chance_from(bytes);
}

std::string text_of_size(std::size_t size) {
  std::string out;
  for (std::size_t i = 0; i < size; ++i)
    out += static_cast<char>('a' + i % 26);
  return out;
}

std::string sealed(const std::string& plain) {
  return seal_to(recipient_of(identity_of(1)), plain, chance_of(40)).value();
}

result<std::string> opened_age(const std::string& file) {
  return open_sealed(file, {identity_of(1)});
}

std::string why(const std::string& file) {
  const auto no = opened_age(file);
  return no ? "opened" : sentence(no.error());
}

// The file with one line of its head replaced.
std::string with_line(const std::string& file, std::size_t number, const std::string& line) {
  std::size_t from = 0;
  for (std::size_t i = 1; i < number; ++i)
    from = file.find('\n', from) + 1;
  std::string out = file;
  return out.replace(from, file.find('\n', from) - from, line);
}

} // namespace

TEST_CASE("what is sealed opens again, at every size around a piece") {
  for (const std::size_t size :
       {std::size_t{0}, std::size_t{1}, std::size_t{179}, piece - 1, piece, piece + 1,
        2 * piece - 1, 2 * piece, 2 * piece + 1, std::size_t{200000}}) {
    const std::string plain = text_of_size(size);
    const std::string file = sealed(plain);
    CHECK((size < 20 || file.find(plain.substr(0, 20)) == std::string::npos));
    CHECK(opened_age(file).value() == plain);
  }
}

TEST_CASE("sealing draws nothing: the same chance gives the same file, another another") {
  CHECK(sealed("a log") == sealed("a log"));
  CHECK(sealed("a log") != seal_to(recipient_of(identity_of(1)), "a log", chance_of(41)).value());
}

TEST_CASE("the same draw for another text gives other keys") {
  const secret<64> drawn;
  const sealing_chance one = chance_for(drawn, "a log");
  const sealing_chance other = chance_for(drawn, "another log");
  CHECK(one.file_key.bytes == chance_for(drawn, "a log").file_key.bytes);
  CHECK(one.file_key.bytes != other.file_key.bytes);
  CHECK(one.share.bytes != other.share.bytes);
  CHECK(one.nonce != other.nonce);
}

TEST_CASE("one of several identities is enough, and another's does not open") {
  const std::string file = sealed("a log");
  CHECK(open_sealed(file, {identity_of(2), identity_of(1)}).value() == "a log");
  CHECK_THAT(sentence(open_sealed(file, {identity_of(2)}).error()),
             Contains("found a file sealed to another key"));
  CHECK_THAT(sentence(open_sealed(file, {}).error()), Contains("an identity that opens it"));
}

TEST_CASE("no byte of a sealed file can be changed") {
  const std::string file = sealed(text_of_size(100));
  REQUIRE(file.size() > 290);
  for (std::size_t at = 0; at < file.size(); ++at) {
    for (const int bit : {1, 2, 4, 8, 16, 32, 64, 128}) {
      std::string other = file;
      other[at] = static_cast<char>(other[at] ^ bit);
      INFO("byte " << at << ", bit " << bit);
      REQUIRE_FALSE(opened_age(other));
    }
  }
}

TEST_CASE("no byte of a sealed file can be left out, and none added") {
  const std::string file = sealed(text_of_size(100));
  for (std::size_t at = 0; at < file.size(); ++at) {
    INFO("byte " << at);
    REQUIRE_FALSE(opened_age(file.substr(0, at)));
    std::string other = file;
    other.erase(at, 1);
    REQUIRE_FALSE(opened_age(other));
  }
  CHECK_FALSE(opened_age(file + "x"));
  CHECK_FALSE(opened_age(file + std::string(1, '\0')));
  CHECK_FALSE(opened_age(file + file));
}

TEST_CASE("a file that was cut between two pieces does not open") {
  const std::string file = sealed(text_of_size(3 * piece));
  for (std::size_t whole = 1; whole <= 2; ++whole) {
    const std::size_t head = file.size() - 3 * (piece + tag);
    CHECK_THAT(why(file.substr(0, head + whole * (piece + tag))),
               Contains("bytes that were changed, cut off or added"));
  }
}

TEST_CASE("pieces cannot change places") {
  const std::string file = sealed(text_of_size(3 * piece));
  const std::size_t head = file.size() - 3 * (piece + tag);
  std::string other = file.substr(0, head);
  other += file.substr(head + piece + tag, piece + tag) + file.substr(head, piece + tag);
  other += file.substr(head + 2 * (piece + tag));
  CHECK_FALSE(opened_age(other));
}

TEST_CASE("an empty last piece after a full one is refused, as the form asks") {
  // Refused by its length, before its code is looked at; one whose code fits is made by another
  // hand in tests/outside/run_sealed.
  const std::string file = sealed(text_of_size(2 * piece));
  const std::size_t head = file.size() - 2 * (piece + tag);
  CHECK_THAT(why(file.substr(0, head + piece + tag + tag)),
             Contains("piece 2: found an empty piece after a full one"));
}

TEST_CASE("a head in any other form is refused with its line") {
  const std::string file = sealed("a log");
  const std::string share = file.substr(file.find("X25519") + 7, 43);
  CHECK_THAT(why(with_line(file, 1, "age-encryption.org/v2")),
             Contains("another version") && Contains("age-encryption.org/v1"));
  CHECK(opened_age(with_line(file, 1, "age-encryption.org/v2")).error().kind ==
        refusal_kind::newer);
  CHECK_THAT(why("%PDF-1.5"), Contains("head, line 1: found something else"));
  CHECK_THAT(why("-----BEGIN AGE ENCRYPTED FILE-----\n"), Contains("without -a"));
  CHECK_THAT(why(with_line(file, 2, "-> X25519")), Contains("X25519 stanza of another form"));
  CHECK_THAT(why(with_line(file, 2, "-> X25519 " + share + " more")),
             Contains("X25519 stanza of another form"));
  CHECK_THAT(why(with_line(file, 2, "-> X25519 " + share + "=")),
             Contains("X25519 stanza of another form"));
  CHECK_THAT(why(with_line(file, 2, "->  X25519 " + share)), Contains("line 2"));
  CHECK_THAT(why(with_line(file, 2, "-> X25519 " + share + " ")), Contains("line 2"));
  CHECK_THAT(why(with_line(file, 2, "-> X25519 " + share + "\r")), Contains("line 2"));
  CHECK_THAT(why(with_line(file, 2, "nothing")), Contains("belongs to no recipient"));
  CHECK_THAT(why(with_line(file, 4, "---")), Contains("line 4"));
  CHECK_THAT(why(with_line(file, 4, "--- " + std::string(43, 'A'))),
             Contains("a head that was changed"));
  CHECK_THAT(why(with_line(file, 4, "--- AAAA")), Contains("not base64 of its length"));
}

TEST_CASE("a share that hides nothing is refused, in a file and as a recipient") {
  const std::string file = sealed("a log");
  CHECK_THAT(why(with_line(file, 2, "-> X25519 " + std::string(43, 'A'))),
             Contains("share that hides nothing"));
  CHECK_THAT(sentence(seal_to(recipient{}, "a log", chance_of(1)).error()),
             Contains("recipient: found a key that hides nothing"));
}

TEST_CASE("recipients of other kinds are passed over; a password stands alone") {
  const std::string file = sealed("a log");
  // The code no longer fits, which is the refusal that comes after the stanzas were read.
  const auto with = [&](const std::string& stanza) {
    return with_line(file, 2, stanza + file.substr(file.find("-> "), 53));
  };
  CHECK_THAT(why(with("-> other-kind 1 2\n\n")), Contains("a head that was changed"));
  CHECK_THAT(why(with("-> grease\n" + std::string(64, 'A') + "\n\n")),
             Contains("a head that was changed"));
  CHECK_THAT(why(with("-> grease\n" + std::string(65, 'A') + "\n")),
             Contains("lines of another length"));
  CHECK_THAT(why(with("-> grease\nAB\n")), Contains("body that is not base64"));
  CHECK_THAT(why(with("-> scrypt " + std::string(22, 'A') + " 18\n" + std::string(43, 'A') + "\n")),
             Contains("a password beside other recipients"));
}

TEST_CASE("a head without an end is not read on for ever") {
  std::string file = "age-encryption.org/v1\n";
  for (int i = 0; i < 3000; ++i)
    file += "-> other-kind and its arguments\n\n";
  CHECK_THAT(why(file), Contains("no end of the head within 64 KiB"));
}

TEST_CASE("an identity file is read as age-keygen writes it, and no message holds a key") {
  const std::string key = "AGE-SECRET-KEY-1QQQSYQCYQ5RQWZQFPG9SCRGWPUGPZYSNZS23V9CCRYDPK8QARC0SWN";
  CHECK_FALSE(read_identity(key)); // a wrong checksum
  CHECK(sentence(read_identity(key).error()).find("QQQSYQ") == std::string::npos);
  const auto no = read_identity_file("# created: today\n\nnot a key\n");
  CHECK_THAT(sentence(no.error()), Contains("line 3"));
  CHECK_THAT(sentence(read_identity_file("# nothing\n").error()), Contains("no identity"));
}

TEST_CASE("a recipient is written as it is read, and keys of other kinds are refused") {
  const std::string text = recipient_text(recipient_of(identity_of(9)));
  CHECK(text.substr(0, 4) == "age1");
  CHECK(text.size() == 62);
  CHECK(recipient_text(read_recipient(text).value()) == text);
  std::string large = text;
  for (char& c : large)
    c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  CHECK_FALSE(read_recipient(large)); // the form has recipients in small letters only
  CHECK_THAT(sentence(read_recipient("a12uel5l").error()), Contains("a key of another kind"));
  CHECK_THAT(sentence(read_identity(text).error()), Contains("a key of another kind"));
}
