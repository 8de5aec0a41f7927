// The keys of rulings.
#include "core/receiving/kit_rows.hpp"

#include <array>
#include <utility>

namespace qb::inline receiving {

namespace {

constexpr std::array ruled_keys{std::pair{ruled::kit, "kit"},
                                std::pair{ruled::box, "box"},
                                std::pair{ruled::sheet, "sheet"},
                                std::pair{ruled::scan, "scan"},
                                std::pair{ruled::reading, "reading"},
                                std::pair{ruled::choice, "choice"},
                                std::pair{ruled::set_aside, "set-aside"},
                                std::pair{ruled::conclusion, "conclusion"},
                                std::pair{ruled::lid, "lid"},
                                std::pair{ruled::absence, "absence"},
                                std::pair{ruled::extra, "extra"},
                                std::pair{ruled::label, "label"}};

constexpr std::array row_word_keys{
    std::pair{row_word::is_of, "is-of"}, std::pair{row_word::taken_back, "taken-back"},
    std::pair{row_word::moved, "moved"}, std::pair{row_word::stands, "stands"}};

template <typename Keys, typename Value>
const char* text_in(const Keys& keys, Value v) {
  for (const auto& [value, key] : keys)
    if (value == v) return key;
  QB_BELIEVE(false);
  return "";
}

template <typename Value, typename Keys>
std::optional<Value> value_in(const Keys& keys, std::string_view text) {
  for (const auto& [value, key] : keys)
    if (text == key) return value;
  return std::nullopt;
}

} // namespace

const char* ruled_text(ruled r) {
  return text_in(ruled_keys, r);
}

std::optional<ruled> read_ruled(std::string_view text) {
  return value_in<ruled>(ruled_keys, text);
}

const char* row_word_text(row_word v) {
  return text_in(row_word_keys, v);
}

std::optional<row_word> read_row_word(std::string_view text) {
  return value_in<row_word>(row_word_keys, text);
}

} // namespace qb::inline receiving
