// The rows of the warehouse's tables: RFC 4180, CRLF ends, UTF-8, made formula-safe.
//
// tests.csv  kit, test_id, protocol, rehearsal, record ("log", "code", "paper", "none"),
// precision_s
//            (1 by a clock, 60 by hand), tested, tube_1_closed, drink_start, drink_end, tubes,
//            taken, arrived, due, identifiers, to_review, concluded ("no", "yes", "again": more
//            came after the conclusion), mark (of the profile: an invented laboratory's, another's)
// tubes.csv  kit, test_id, protocol, rehearsal, tube, due, closed, how, late_s, standing, present,
//            lid, label, h2_ppm, ch4_ppm, co2_pct, h2_corrected_ppm, ch4_corrected_ppm,
//            co2_reference_pct, measured_at, reading ("first", "chosen", "open": several, none
//            chosen; empty: none)
// Instants are RFC 3339 UTC; a paper sheet's are its day and minute without a zone.
#pragma once

#include "app/lab/context/case_file.hpp"

#include <string>

namespace qb::lab {

// The first row of tests.csv, with its end of line, and one row of it.
[[nodiscard]] std::string tests_header();
// `facts` are those of the day's list.
[[nodiscard]] std::string test_row(const lab_context& at, const kit_facts& facts,
                                   const known_kit& known);

[[nodiscard]] std::string tubes_header();
// One row a tube that the record or the box has.
[[nodiscard]] std::string tube_rows(const lab_context& at, const received_kit& received,
                                    const known_kit& known);

} // namespace qb::lab
