// Cutting at what stands between words, and counting characters up to one.
#include "core/receiving/typed_place.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

std::vector<std::string_view> typed_words(std::string_view line, std::string_view between) {
  std::vector<std::string_view> out;
  for (std::size_t at = 0; (at = line.find_first_not_of(between, at)) != line.npos;) {
    const std::size_t end = std::min(line.find_first_of(between, at), line.size());
    out.push_back(line.substr(at, end - at));
    at = end;
  }
  return out;
}

std::string typed_place(std::string_view part, std::string_view line, std::string_view word) {
  constexpr std::string_view plain = "0123456789-:./@!+?";
  const auto before = static_cast<std::size_t>(word.data() - line.data());
  const std::string place =
      fmt::format("{}, column {}", part, character_count(line.substr(0, before)) + 1);
  const bool repeated = !word.empty() && word.find_first_not_of(plain) == word.npos;
  return repeated ? fmt::format("{}, \"{}\"", place, word) : place;
}

} // namespace qb::inline receiving
