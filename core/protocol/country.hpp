// Which pairs of letters name a country.
// A slip here ("UK") would print an emergency number beside a country that no device knows.
#pragma once

#include <string_view>

namespace qb::inline protocols {

// Whether ISO 3166-1 assigns those two capital letters.
[[nodiscard]] bool is_country(std::string_view code);

} // namespace qb::inline protocols
