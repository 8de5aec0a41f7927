// Which kit a typed or scanned line names, and which tubes a maker's codes stand for.
#pragma once

#include "app/lab/desk.hpp"
#include "app/lab/receive_words.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// A refusal about the kit that was named.
[[nodiscard]] refusal no_kit(std::string found, std::string expected);

// One word that is a kit's number or code, and neither a test's id nor a tube's code.
[[nodiscard]] bool is_kit(const desk& at, const tube_codes& codes, const std::string& text);

// The number, and of a kit code the test that it names. Refuses another laboratory's kit.
[[nodiscard]] result<std::string> kit_number_in(const desk& at, const std::string& text,
                                                std::string& protocol);

// Each code's tube is here; where any was scanned, those that were not are missing. Refuses a tube
// of another kit.
[[nodiscard]] std::optional<refusal> add_codes(const box_words& w, const tube_codes& codes,
                                               const std::string& kit,
                                               std::vector<received_tube>& tubes);

} // namespace qb::lab
