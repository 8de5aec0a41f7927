// Reading, checking and writing kit codes.
#include "core/protocol/kit_code.hpp"

#include "core/base/text.hpp"

#include "core/protocol/kit_alphabet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline protocols {

namespace {

constexpr std::uint32_t base = 26;
static_assert(kit_alphabet.size() == base);

constexpr std::size_t group = 4;
constexpr std::size_t letters = 2;     // of laboratory and of test
constexpr std::size_t days_length = 3; // of the last day
constexpr int days_most = 26 * 26 * 26 - 1;

std::uint32_t value_of(char c) {
  const auto at = kit_alphabet.find(c);
  QB_BELIEVE(at != std::string_view::npos);
  return static_cast<std::uint32_t>(at);
}

std::uint32_t number_of(std::string_view text) {
  std::uint32_t out = 0;
  for (const char c : text)
    out = out * base + value_of(c);
  return out;
}

std::string text_of(std::uint32_t number, std::size_t length) {
  std::string out(length, kit_alphabet.front());
  for (std::size_t i = length; i-- > 0; number /= base)
    out[i] = kit_alphabet[number % base];
  QB_BELIEVE(number == 0);
  return out;
}

bool all_of_alphabet(std::string_view text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return kit_alphabet.find(c) != std::string_view::npos; });
}

// ISO/IEC 7064, hybrid systems, modulus M = 26: from P = M, for each character
// S = (P + value) mod M with 0 standing for M, then P = 2 S mod (M + 1).
// Answers P after the last character.
std::uint32_t product_after(std::string_view characters) {
  std::uint32_t p = base;
  for (const char c : characters) {
    const std::uint32_t sum = (p + value_of(c)) % base;
    p = 2 * (sum == 0 ? base : sum) % (base + 1);
  }
  return p;
}

// The check character makes the last sum 1 (mod M).
char check_character(std::string_view before) {
  return kit_alphabet[(base + 1 - product_after(before) % base) % base];
}

char capital(char c) {
  return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}

// Between the groups: a space or a hyphen, of whichever length it was typed or scanned.
bool only_separates(std::string_view character) {
  static constexpr std::string_view separators[] = {
      " ", "-", "\t", "\xC2\xA0", "\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x93", "\xE2\x88\x92"};
  return std::find(std::begin(separators), std::end(separators), character) != std::end(separators);
}

// The characters that count, as capitals; and the first that no code has.
struct taken_apart {
  std::string characters;
  std::size_t count{0};
  std::string never_used;
};

taken_apart take_apart(std::string_view typed) {
  taken_apart out;
  for (const std::string& one : characters(typed)) {
    if (only_separates(one)) continue;
    ++out.count;
    std::string character = one;
    if (character.size() == 1) character.front() = capital(character.front());
    if (character.size() == 1 && all_of_alphabet(character)) {
      out.characters += character;
    } else if (out.never_used.empty()) {
      out.never_used = character;
    }
  }
  return out;
}

using kind = kit_code_fault::kind;

std::string expected_of(const kit_code_fault& no) {
  switch (no.what) {
  case kind::never_used:
    return fmt::format("characters of {}: there is no {} in a kit code", kit_alphabet, no.found);
  case kind::too_short:
  case kind::too_long: return fmt::format("{} characters", kit_code_length);
  case kind::wrong_check:
    return "the code as it is printed: one character is not right, "
           "or two are swapped";
  }
  QB_BELIEVE(false);
  return {};
}

} // namespace

civil_date first_kit_day() {
  return std::chrono::year{2025} / std::chrono::January / 1;
}

civil_date last_kit_day() {
  return plus_days(first_kit_day(), std::chrono::days{days_most});
}

std::optional<kit_code_fault> fault_of_kit_code(std::string_view typed) {
  const taken_apart t = take_apart(typed);
  if (!t.never_used.empty()) return kit_code_fault{kind::never_used, t.count, t.never_used};
  if (t.count < kit_code_length) return kit_code_fault{kind::too_short, t.count, {}};
  if (t.count > kit_code_length) return kit_code_fault{kind::too_long, t.count, {}};
  const std::string_view before = std::string_view(t.characters).substr(0, kit_code_length - 1);
  if (t.characters.back() != check_character(before))
    return kit_code_fault{kind::wrong_check, t.count, {}};
  return std::nullopt;
}

result<kit_code> read_kit_code(std::string_view typed) {
  if (const auto no = fault_of_kit_code(typed)) {
    const bool length = no->what == kind::too_short || no->what == kind::too_long;
    return tl::unexpected(refusal{refusal_kind::malformed, "", "kit code",
                                  length ? fmt::format("{}", no->characters) : no->found,
                                  expected_of(*no)});
  }
  const std::string all = take_apart(typed).characters;
  kit_code out;
  std::size_t at = 0;
  const auto next = [&](std::size_t length) {
    at += length;
    return all.substr(at - length, length);
  };
  out.laboratory_letters = next(letters);
  out.serial = next(kit_serial_length);
  out.protocol_letters = next(letters);
  const auto days = static_cast<int>(number_of(next(days_length)));
  out.expires = plus_days(first_kit_day(), std::chrono::days{days});
  return out;
}

std::string kit_code_text(const kit_code& code) {
  QB_BELIEVE(code.laboratory_letters.size() == letters && all_of_alphabet(code.laboratory_letters));
  QB_BELIEVE(code.serial.size() == kit_serial_length && all_of_alphabet(code.serial));
  QB_BELIEVE(code.protocol_letters.size() == letters && all_of_alphabet(code.protocol_letters));
  QB_BELIEVE(code.expires >= first_kit_day() && code.expires <= last_kit_day());
  const auto days =
      (std::chrono::sys_days(code.expires) - std::chrono::sys_days(first_kit_day())).count();
  std::string all = code.laboratory_letters + code.serial + code.protocol_letters +
                    text_of(static_cast<std::uint32_t>(days), days_length);
  all += check_character(all);
  return all.substr(0, group) + "-" + all.substr(group, group) + "-" + all.substr(2 * group);
}

std::string kit_number_of(const kit_code& code) {
  return code.laboratory_letters + "-" + code.serial;
}

std::string kit_serial_text(std::uint32_t number) {
  return text_of(number, kit_serial_length);
}

result<std::uint32_t> read_kit_serial(std::string_view text) {
  std::string serial(text);
  std::transform(serial.begin(), serial.end(), serial.begin(), capital);
  if (serial.size() == kit_serial_length && all_of_alphabet(serial)) return number_of(serial);
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", "serial", "\"" + std::string(text) + "\"",
              fmt::format("{} characters of {}", kit_serial_length, kit_alphabet)});
}

} // namespace qb::inline protocols
