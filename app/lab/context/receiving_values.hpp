// The values of receiving in and out of the store: each row of text as what it means, and back.
// What a row cannot mean is a damaged store, never a guess.
#pragma once

#include "app/store/receiving_store.hpp"
#include "core/receiving/received.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// Everything kept of that kit number; empty lists where there is nothing. The tubes are those of
// the last box entry that has any. Refuses (as `machine`) a row that cannot be read any more.
[[nodiscard]] result<received_kit> load_received(const receiving_store& store,
                                                 const std::string& kit);

// The same of all kits that have anything, by kit number.
[[nodiscard]] result<std::vector<received_kit>> load_all_received(const receiving_store& store);

// What is kept of each: the row from which `load_received` makes the same value again.
[[nodiscard]] arrival_row row_of(const arrival& a);
[[nodiscard]] tube_row row_of(const received_tube& t, const std::string& kit);
[[nodiscard]] paper_row row_of(const paper_record& p);
[[nodiscard]] reading_row row_of(const gas_reading& r, instant taken_in, const std::string& file);
[[nodiscard]] choice_row row_of(const reading_choice& c, const std::string& kit);
[[nodiscard]] override_row row_of(const override_of& o);
[[nodiscard]] conclusion_row row_of(const conclusion& c);

} // namespace qb::lab
