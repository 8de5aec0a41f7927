// Kit codes: what they say, how they are typed, and which mistakes the check character finds.
#include "core/protocol/kit_code.hpp"

#include "core/protocol/kit_alphabet.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <utility>

using namespace qb;
using kind = kit_code_fault::kind;

namespace {

constexpr const char* whole = "FV2C-7HW2-4K6D";

civil_date day(const char* text) {
  return *parse_date(text);
}

std::string without_hyphens(std::string text) {
  text.erase(std::remove(text.begin(), text.end(), '-'), text.end());
  return text;
}

// Codes all over what codes can say, the same in every run.
std::vector<std::string> some_codes(std::size_t count) {
  std::mt19937 chance(2025);
  const auto letters = [&](std::size_t n) {
    std::string out;
    while (out.size() < n)
      out += kit_alphabet[chance() % kit_alphabet.size()];
    return out;
  };
  std::vector<std::string> out;
  const auto days = static_cast<std::uint32_t>(
      (std::chrono::sys_days(last_kit_day()) - std::chrono::sys_days(first_kit_day())).count() + 1);
  while (out.size() < count) {
    const auto n = static_cast<int>(chance() % days);
    const civil_date expires = plus_days(first_kit_day(), std::chrono::days{n});
    out.push_back(kit_code_text({letters(2), letters(4), letters(2), expires}));
  }
  return out;
}

std::optional<kind> fault_kind(const std::string& typed) {
  const auto no = fault_of_kit_code(typed);
  if (!no) return std::nullopt;
  return no->what;
}

} // namespace

TEST_CASE("a kit code says laboratory, kit, test and the last day it may be used") {
  const auto read = read_kit_code(whole);
  REQUIRE(read.has_value());
  CHECK(read->laboratory_letters == "FV");
  CHECK(read->serial == "2C7H");
  CHECK(read->protocol_letters == "W2");
  CHECK(date_text(read->expires) == "2029-09-16");
  CHECK(kit_number_of(*read) == "FV-2C7H");
  CHECK(kit_code_text(*read) == whole);
}

TEST_CASE("no two characters of the alphabet are the same, and none is easily mistaken") {
  for (const char c : kit_alphabet)
    CHECK(std::count(kit_alphabet.begin(), kit_alphabet.end(), c) == 1);
  for (const char c : std::string("0O1IL5S8BU"))
    CHECK(kit_alphabet.find(c) == std::string_view::npos);
}

TEST_CASE("small letters, spaces, hyphens of any kind, or none are read alike") {
  for (const char* typed :
       {"fv2c-7hw2-4k6d", "FV2C7HW24K6D", " FV2C 7HW2 4K6D ", "F V 2 C - 7 H W 2 - 4 K 6 D",
        "FV2C\xE2\x80\x93"
        "7HW2\xE2\x80\x91"
        "4K6D",
        "fv2c\xC2\xA0"
        "7hw24K6D"}) {
    INFO(typed);
    const auto read = read_kit_code(typed);
    REQUIRE(read.has_value());
    CHECK(kit_code_text(*read) == whole);
  }
}

TEST_CASE("what is wrong with a code is said, the plainest mistake first") {
  CHECK(fault_kind(whole) == std::nullopt);
  const auto no = fault_of_kit_code("FV2C-7HW2-4K");
  REQUIRE(no.has_value());
  CHECK(no->what == kind::too_short);
  CHECK(no->characters == 10);
  CHECK(fault_kind("") == kind::too_short);
  CHECK(fault_of_kit_code("FV2C-7HW2-4K6DD")->what == kind::too_long);
  CHECK(fault_of_kit_code("FV2C-7HW2-4K6DD")->characters == 13);
  CHECK(fault_kind("FV2C-7HW2-4K6E") == kind::wrong_check);
  CHECK(fault_kind("VF2C-7HW2-4K6D") == kind::wrong_check);
  for (const auto& [typed, found] :
       std::vector<std::pair<std::string, std::string>>{{"FV2C-7HW2-4Ko", "O"},
                                                        {"fv2c-7hw2-0", "0"},
                                                        {"FV2C-7HWé-4K6D", "é"},
                                                        {"FV2C_7HW2", "_"},
                                                        {"\xFF"
                                                         "FV2C",
                                                         "\xFF"}}) {
    const auto strange = fault_of_kit_code(typed);
    REQUIRE(strange.has_value());
    CHECK(strange->what == kind::never_used);
    CHECK(strange->found == found);
  }
}

TEST_CASE("a refusal of a kit code says what was found and what is expected") {
  const auto said = [](const char* typed) { return sentence(read_kit_code(typed).error()); };
  CHECK(said("FV2C").find("found 4, expected 12 characters") != std::string::npos);
  CHECK(said("FV2C-7HW2-4K6O").find("there is no O in a kit code") != std::string::npos);
  CHECK(said("FV2C-7HW2-4K6E").find("one character is not right, or two are swapped") !=
        std::string::npos);
}

TEST_CASE("every code that is written is read back as it was") {
  for (const std::string& code : some_codes(3000)) {
    const auto read = read_kit_code(code);
    REQUIRE(read.has_value());
    CHECK(kit_code_text(*read) == code);
  }
  for (const civil_date expires : {first_kit_day(), last_kit_day(), day("2028-02-29")}) {
    const auto read = read_kit_code(kit_code_text({"FV", "2222", "W2", expires}));
    REQUIRE(read.has_value());
    CHECK(read->expires == expires);
  }
  CHECK(date_text(first_kit_day()) == "2025-01-01");
  CHECK(date_text(last_kit_day()) == "2073-02-13");
}

// ISO/IEC 7064: a hybrid system finds every single substitution.
TEST_CASE("one wrong character is always found, whichever and wherever") {
  std::size_t tried = 0;
  for (const std::string& code : some_codes(40)) {
    const std::string right = without_hyphens(code);
    for (std::size_t at = 0; at < right.size(); ++at) {
      for (const char c : kit_alphabet) {
        std::string wrong = right;
        wrong[at] = c;
        if (wrong == right) continue;
        ++tried;
        if (fault_kind(wrong) != kind::wrong_check) FAIL(wrong << " passes for " << right);
      }
    }
  }
  CHECK(tried == 40 * kit_code_length * 25);
}

TEST_CASE("two neighbours swapped are found in all but one of 300 cases") {
  std::size_t tried = 0;
  std::size_t missed = 0;
  for (const std::string& code : some_codes(2000)) {
    const std::string right = without_hyphens(code);
    for (std::size_t at = 0; at + 1 < right.size(); ++at) {
      std::string wrong = right;
      std::swap(wrong[at], wrong[at + 1]);
      if (wrong == right) continue;
      ++tried;
      missed += fault_kind(wrong) ? 0U : 1U;
    }
  }
  // Of the same codes in every run: 69 swaps pass, one in 306.
  CHECK(tried == 21150);
  CHECK(missed == 69);
}

TEST_CASE("serials count through all that there are") {
  CHECK(kit_serial_text(0) == "2222");
  CHECK(kit_serial_text(1) == "2223");
  CHECK(kit_serial_text(kit_serials - 1) == "ZZZZ");
  for (const std::uint32_t n : {0U, 25U, 26U, 70000U, 456975U})
    CHECK(*read_kit_serial(kit_serial_text(n)) == n);
  CHECK(*read_kit_serial("2c7h") == *read_kit_serial("2C7H"));
  for (const char* wrong : {"", "2C7", "2C7HH", "2C7O", "2C-7"})
    CHECK_FALSE(read_kit_serial(wrong).has_value());
}
