// Counting characters up to the word.
#include "core/receiving/typed_place.hpp"

#include "core/base/text.hpp"

#include <fmt/core.h>

namespace qb {

std::string typed_place(std::string_view part, std::string_view line, std::string_view word) {
  constexpr std::string_view plain = "0123456789-:./@!+?";
  const auto before = static_cast<std::size_t>(word.data() - line.data());
  const std::string place =
      fmt::format("{}, column {}", part, character_count(line.substr(0, before)) + 1);
  const bool repeated = !word.empty() && word.find_first_not_of(plain) == word.npos;
  return repeated ? fmt::format("{}, \"{}\"", place, word) : place;
}

} // namespace qb
