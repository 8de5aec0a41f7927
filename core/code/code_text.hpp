// A packed result as texts for QR codes, and texts as they are scanned back.
//
// One code is at most 320 characters, all of the QR alphanumeric set, so that it stays readable at
// half a millimetre a module on 40 mm; more content becomes numbered codes. By character:
//   1 to 3   "QB1": a code of ours, version 1 of this frame
//   4, 5     part i of n, each 1 to 9
//   6 to 11  the set: the first 4 bytes of the SHA-256 of the whole content, in Base45; also the
//            check of the whole once its parts are joined
//   then     this part's bytes in Base45 (RFC 9285); an equal share of the content, the last
//   shorter last 4   CRC-16 of all characters before (polynomial 0x1021, start 0xFFFF, no
//   reflection, no
//            final change: "123456789" gives 29B1), in hexadecimal capitals
// The check is of hexadecimal digits so that a text never ends in a space, which a typing scanner
// may lose. It finds every change of one character, and of two beside each other.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace qb::code {

inline constexpr std::size_t most_code_characters = 320;

// The texts of that content, in order. Refuses more than nine codes' worth.
[[nodiscard]] result<std::vector<std::string>> code_texts(std::string_view content);

// CRC-16 as described above.
[[nodiscard]] std::uint16_t crc16(std::string_view text);

// What scanned lines come to.
struct scanned_codes {
  std::vector<std::string> contents; // whole and checked, in the order of their first line
  std::vector<refusal> refused;      // lines that are no good code; sets with a part missing
};

// Reads lines in any order, of one or several results; empty lines, spaces around a line and the
// same code twice are no matter. Whatever else is refused with its line.
[[nodiscard]] scanned_codes read_codes(std::string_view text);

// Whether a text looks as if somebody scanned our codes into it: its first line that is not empty
// begins with our mark, in whatever case.
[[nodiscard]] bool looks_scanned(std::string_view text);

} // namespace qb::code
