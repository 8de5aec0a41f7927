// The characters of kit codes and tube codes: none that is mistaken for another when read from a
// small label (0 O, 1 I L, 5 S, 8 B, U V).
#pragma once

#include <string_view>

namespace qb::inline protocols {

// 26 characters, each once, in the order of their values 0 to 25.
inline constexpr std::string_view kit_alphabet = "234679ACDEFGHJKMNPQRTVWXYZ";

} // namespace qb::inline protocols
