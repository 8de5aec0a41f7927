// Results that came by code: scanned text into the store, and held against the log when it comes.
// A code is a summary only; what it and a log both tell must be the same, or neither is
// overwritten.
#pragma once

#include "app/lab/intake/take_in.hpp"
#include "app/store/lab_store.hpp"
#include "core/code/packed_result.hpp"
#include "core/record/log.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// What became of scanned text: each result once, what was refused one refusal each.
struct taken_codes {
  std::vector<taken_log> taken;
  std::vector<refusal> refused;
};

// Takes in all whole results of the text. Refuses what is no good code (with its line), a part that
// is missing, practice unless it is asked for, and a result that disagrees with the kept log or the
// kept code of its test, saying what differs.
[[nodiscard]] taken_codes take_in_codes(lab_store& store, const std::string& text,
                                        const take_in_options& o);

// Refuses a log that disagrees with the result kept by code of its test, saying what differs. A log
// that ends before the code was made says nothing against it.
[[nodiscard]] result<void> hold_against_code(const lab_store& store, const read_log_result& log);

// The packed result of a kept row; refuses (as `machine`) a row that cannot be read any more.
[[nodiscard]] result<code::packed_result> kept_code(const log_row& row);

} // namespace qb::lab
