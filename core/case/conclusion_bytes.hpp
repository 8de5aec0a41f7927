// What a reader signs: the conclusion's words, the case they rest on, and the judgement, as bytes
// that anybody can make again and read.
//
// One line of canonical JSON (RFC 8785) with its end:
//   format      "quarterbreath-conclusion", version 1
//   kit, test_id (a sheet's own too), test (the protocol), laboratory (the profile)
//   person      name, birth_date; null where no log is here
//   conclusion  number, kind, words, by, at; reason, lack: null where none was given
//   record      what of the patient's record was here ("log 57 ab12…"), counts of what receiving
//               told, findings ("lid-bad 4 review"), as core/case/conclusion_basis.hpp keeps them
//   set_aside   rule, tube (0: the test), by, reason, of each finding that was
//   tubes       number, minute, h2_ppm, ch4_ppm, as they were judged; decimals as texts
//   judgement   criterion, answer, reason of each; null where nothing was judged
// Numbers with decimals are texts, since a canonical number is a binary fraction.
#pragma once

#include "core/case/case.hpp"
#include "core/case/conclusion_basis.hpp"

#include <string>

namespace qb::inline cases {

// The bytes for that conclusion of the case. The same case and conclusion give the same bytes.
[[nodiscard]] std::string conclusion_bytes(const test_case& c, const received_kit& received,
                                           const std::string& laboratory, const conclusion& entry);

} // namespace qb::inline cases
