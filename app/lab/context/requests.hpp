// What was asked for, as the store has it: for whoever holds a kit's log, sheet and label against
// it.
#pragma once

#include "app/store/laboratory_store.hpp"
#include "core/receiving/person.hpp"
#include "core/receiving/requested.hpp"

#include <map>
#include <string>

namespace qb::lab {

// By kit, the last that was told of each; of one kit, or of all where that is empty. Refuses (as
// `machine`) a row that cannot be read any more.
[[nodiscard]] result<std::map<std::string, requested>>
load_requests(const laboratory_store& laboratory, const std::string& kit);

// Whom that kit was asked for, to be held against others (core/receiving/person.hpp); of whom
// nothing is told where it was not.
[[nodiscard]] result<told_person> person_asked_for(const laboratory_store& laboratory,
                                                   const std::string& kit);

// Whether the two tell the same.
[[nodiscard]] bool is_same(const requested& a, const requested& b);

// The row from which `load_requests` makes the same again.
[[nodiscard]] requested_row row_of(const requested& r, const std::string& source,
                                   const std::string& by, const std::string& at);

} // namespace qb::lab
