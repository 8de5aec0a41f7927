// The laboratory's kit code: which kit, which laboratory, which test, and until when it may be
// used. Printed on the box, so that nobody has to know the name of their sugar; a check character
// finds what was misread.
//
// Twelve characters of `kit_alphabet`, printed in three groups of four: FV2C-7HW2-4K6D.
//   1 to 2    the laboratory (its profile's kit_letters)
//   3 to 6    the kit's serial
//   7 to 8    the test (its protocol's kit_letters)
//   9 to 11   the last day it may be used: days after 2025-01-01, base 26, greatest place first
//   12        check character: ISO/IEC 7064, hybrid system MOD 27,26, over the 26 characters in the
//             order of kit_alphabet
#pragma once

#include "core/base/result.hpp"
#include "core/time/civil.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace qb::inline protocols {

// What a kit code says. Every text is of characters of `kit_alphabet`.
struct kit_code {
  std::string laboratory_letters; // 2
  std::string serial;             // 4
  std::string protocol_letters;   // 2
  civil_date expires{};           // the last day it may be used, that day included
};

inline constexpr std::size_t kit_code_length = 12;
inline constexpr std::size_t kit_serial_length = 4;
inline constexpr std::size_t kit_serials = 26UL * 26 * 26 * 26; // that many there are

// The days a code can hold.
[[nodiscard]] civil_date first_kit_day();
[[nodiscard]] civil_date last_kit_day();

// What is wrong with a code as it was typed.
struct kit_code_fault {
  enum class kind {
    never_used, // a character that no kit code has: `found`
    too_short,  // of `characters`
    too_long,
    wrong_check, // one character is not right, or two are swapped
  };
  kind what{kind::never_used};
  std::size_t characters{0}; // typed, without spaces and hyphens
  std::string found;         // the character as it was typed, a small letter as a capital
};

// The first thing wrong with it, or nothing. Small letters, spaces and hyphens, or none, are fine.
[[nodiscard]] std::optional<kit_code_fault> fault_of_kit_code(std::string_view typed);

// The same as a refusal in English; else what the code says. Whether laboratory and test are known
// is the caller's to look up.
[[nodiscard]] result<kit_code> read_kit_code(std::string_view typed);

// "FV2C-7HW2-4K6D". The texts and the day must be such as a code can hold.
[[nodiscard]] std::string kit_code_text(const kit_code& code);

// The kit's own part: "FV-2C7H".
[[nodiscard]] std::string kit_number_of(const kit_code& code);

// The serial of that number, 0 to kit_serials - 1, and back; small letters are read as capitals.
[[nodiscard]] std::string kit_serial_text(std::uint32_t number);
[[nodiscard]] result<std::uint32_t> read_kit_serial(std::string_view text);

} // namespace qb::inline protocols
