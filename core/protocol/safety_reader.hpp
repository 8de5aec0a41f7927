// The parts of a protocol file that keep the patient safe during the test and after it: warning
// signs, when symptoms are scored, what is expected and what is not, how to blow.
// Apart from preparation and questions, because nothing here is asked before the day.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/protocol/rule_reader.hpp"

namespace qb::inline protocols {

// Reads them from the whole file's fields; of a text of version 1, takes what it means by silence.
// The scale of symptoms must have been read.
void read_safety(json::fields& f, protocol& out, rule_reader& rules);

} // namespace qb::inline protocols
