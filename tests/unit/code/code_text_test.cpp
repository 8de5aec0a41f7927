// Splitting, joining, and that nothing which was changed passes for a code.
#include "core/code/base45.hpp"
#include "core/code/code_text.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::code;

namespace {

std::string content_of(std::size_t size, int seed = 1) {
  std::string out;
  for (std::size_t i = 0; i < size; ++i)
    out += static_cast<char>(i * 31 + i / 7 + static_cast<std::size_t>(seed) * 101);
  return out;
}

std::string lines(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& t : texts)
    out += t + "\n";
  return out;
}

} // namespace

TEST_CASE("the check is CRC-16/IBM-3740, whose published check value is 29B1") {
  CHECK(crc16("123456789") == 0x29B1);
}

TEST_CASE("contents of every length come back, in codes of at most 320 characters") {
  for (std::size_t size = 1; size <= 450; ++size) {
    const std::string content = content_of(size);
    const auto texts = code_texts(content).value();
    CHECK(texts.size() == (size + 201) / 202);
    for (const std::string& text : texts) {
      CHECK(text.size() <= most_code_characters);
      CHECK(text.find_first_not_of(base45_alphabet) == std::string::npos);
      CHECK(text.back() != ' ');
    }
    const auto read = read_codes(lines(texts));
    CHECK(read.refused.empty());
    CHECK(read.contents == std::vector<std::string>{content});
  }
  CHECK(code_texts(content_of(202UL * 9)).value().size() == 9);
  CHECK_FALSE(code_texts(content_of(202UL * 9 + 1)).has_value());
  CHECK_FALSE(code_texts("").has_value());
}

TEST_CASE("order, repeats, empty lines, spaces and carriage returns are no matter") {
  const std::string content = content_of(500);
  const auto t = code_texts(content).value();
  REQUIRE(t.size() == 3);
  const auto read = read_codes("\n  " + t[2] + " \r\n" + t[0] + "\r\n\n" + t[2] + "\n\t" + t[1]);
  CHECK(read.refused.empty());
  CHECK(read.contents == std::vector<std::string>{content});
}

TEST_CASE("two results in one scan are both read") {
  const auto a = code_texts(content_of(300, 1)).value();
  const auto b = code_texts(content_of(300, 2)).value();
  const auto read = read_codes(lines({a[0], b[1], b[0], a[1]}));
  CHECK(read.refused.empty());
  CHECK(read.contents == std::vector<std::string>{content_of(300, 1), content_of(300, 2)});
}

TEST_CASE("a part that is missing is named") {
  const auto t = code_texts(content_of(500)).value();
  const auto one = read_codes(lines({t[0], t[2]}));
  REQUIRE(one.refused.size() == 1);
  CHECK(one.contents.empty());
  CHECK(sentence(one.refused[0]) ==
        "line 1: found code 2 of 3 is missing, expected all codes of one sheet or screen");
  CHECK(read_codes(t[1]).refused.at(0).found == "codes 1, 3 of 3 are missing");
}

TEST_CASE("parts of two results are not joined, and that is said") {
  const auto a = code_texts(content_of(300, 1)).value();
  const auto b = code_texts(content_of(300, 2)).value();
  const auto read = read_codes(lines({a[0], b[1]}));
  CHECK(read.contents.empty());
  REQUIRE(read.refused.size() == 2);
  CHECK(read.refused[0].found == "code 2 of 2 is missing");
  CHECK(read.refused[1].found == "code 1 of 2 is missing");
  CHECK(read.refused[0].expected.find("of 2 different results") != std::string::npos);
}

TEST_CASE("every change of one character is refused") {
  // Every place of the first of two codes, and at it every byte that is not the right one.
  const auto t = code_texts(content_of(300)).value();
  REQUIRE(read_codes(lines(t)).contents.size() == 1); // else the rest would prove nothing
  std::size_t passed = 0;
  std::size_t unheard = 0;
  for (std::size_t at = 0; at < t[0].size(); ++at) {
    for (int byte = 0; byte < 256; ++byte) {
      std::string changed = t[0];
      changed[at] = static_cast<char>(byte);
      if (changed == t[0]) continue;
      const auto read = read_codes(lines({changed, t[1]}));
      passed += read.contents.size();
      unheard += read.refused.empty() ? 1U : 0U;
    }
  }
  CHECK(passed == 0);
  CHECK(unheard == 0);
}

TEST_CASE("a lost, doubled or swapped character is refused") {
  const auto t = code_texts(content_of(120)).value();
  std::size_t passed = 0;
  for (std::size_t at = 0; at < t[0].size(); ++at) {
    std::string lost = t[0];
    lost.erase(at, 1);
    std::string twice = t[0];
    twice.insert(at, 1, twice[at]);
    passed += read_codes(lost).contents.size() + read_codes(twice).contents.size();
    if (at + 1 == t[0].size() || t[0][at] == t[0][at + 1]) continue;
    std::string swapped = t[0];
    std::swap(swapped[at], swapped[at + 1]);
    passed += read_codes(swapped).contents.size();
  }
  CHECK(passed == 0);
}

TEST_CASE("small letters, other texts, a newer version and nothing are told apart") {
  const std::string text = code_texts(content_of(120)).value()[0];
  std::string small = text;
  std::transform(small.begin(), small.end(), small.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  CHECK(read_codes(small).refused.at(0).found == "small letters");
  CHECK(read_codes(small).refused.at(0).expected.find("keyboard layout") != std::string::npos);
  CHECK(read_codes("FV2C-7HM2-3N4Q").refused.at(0).found == "another text");
  CHECK(read_codes("QB2" + text.substr(3)).refused.at(0).kind == refusal_kind::newer);
  CHECK(read_codes(" \n\n").refused.at(0).found == "no code");
  CHECK(read_codes("QB1").refused.at(0).found == "3 characters");
}

TEST_CASE("scanned text is told from a log by its first line") {
  CHECK(looks_scanned("\n  QB111"));
  CHECK(looks_scanned("qb111"));
  CHECK_FALSE(looks_scanned("{\"events\":[]}"));
  CHECK_FALSE(looks_scanned(""));
  CHECK_FALSE(looks_scanned("{\nQB111"));
}
