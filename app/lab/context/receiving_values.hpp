// The values of receiving in and out of the store: each row of text as what it means, and back.
// What a row cannot mean is a damaged store, never a guess.
#pragma once

#include "app/store/receiving_store.hpp"
#include "core/receiving/kit_rows.hpp"

#include <map>
#include <string>
#include <vector>

namespace qb::lab {

// Everything kept under that kit number, and of those tests whatever number it was entered under;
// empty lists where there is nothing. Refuses (as `machine`) a row that cannot be read any more.
[[nodiscard]] result<kit_rows> load_rows(const receiving_store& store, const std::string& kit,
                                         const std::vector<std::string>& tests);

// The same of all kits that have anything, by kit number; `kit_of_test` is where each test that has
// a log or code stands now. A row that cannot be read costs its kit alone, and so does a page.
[[nodiscard]] result<std::map<std::string, result<kit_rows>>>
load_all_rows(const receiving_store& store, const std::map<std::string, std::string>& kit_of_test);

// What is kept of each: the row from which `load_rows` makes the same value again. A tube's and a
// choice's kit and test are those they are entered for.
[[nodiscard]] arrival_row row_of(const arrival& a);
[[nodiscard]] tube_row row_of(const received_tube& t, const std::string& kit,
                              const std::string& test);
[[nodiscard]] scan_row row_of(const tube_scan& s, const std::string& by, instant at);
[[nodiscard]] paper_row row_of(const paper_record& p);
[[nodiscard]] reading_row row_of(const gas_reading& r, instant taken_in, const std::string& file);
[[nodiscard]] choice_row row_of(const reading_choice& c, const std::string& kit);
[[nodiscard]] override_row row_of(const override_of& o);
[[nodiscard]] conclusion_row row_of(const conclusion& c);
[[nodiscard]] ruling_row row_of(const ruling& r);

} // namespace qb::lab
