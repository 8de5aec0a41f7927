// The parts of a protocol file that speak to the patient: windows, washouts, questions.
// Apart from the rest, because they change more often than doses and grids do.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/protocol/rule_reader.hpp"

namespace qb::inline protocols {

inline constexpr std::size_t most_rules = 24; // of any one list of a protocol
inline constexpr std::size_t long_text = 600;

// The object "preparation": windows and washouts.
void read_preparation(const json::value& v, protocol& out, json::fields& up, rule_reader& rules);

// The lists "cautions" and "morning" of the whole file's fields.
void read_questions(json::fields& f, protocol& out, rule_reader& rules);

} // namespace qb::inline protocols
