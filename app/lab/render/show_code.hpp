// Results that came by code, as `show` writes them for people and for scripts: what the code says
// and no more.
//
// JSON of one: test_id, kit_number, protocol, rehearsal, source ("code"), events, head_tail,
// protocol_digest, time_zero, utc_offset_s, findings
// (app/lab/render/finding_json.hpp: the rule alone), drink {start, end, how, all_of_it, kept},
// signed_by (a key's id in hexadecimal, or null), seal (app/lab/intake/code_seal.hpp), and tubes:
// number, closed, how, elapsed_s (after time zero), repeated, to_be_repeated, corrected, scores
// (null where skipped); after (scores that belong to no tube): when ("after-last", "later"), given,
// elapsed_s, corrected, scores. Instants are local time with its offset, in RFC 3339. A code knows
// neither names of symptoms nor due times; those are the protocol's.
#pragma once

#include "app/lab/intake/code_seal.hpp"
#include "core/base/json.hpp"
#include "core/code/packed_result.hpp"

#include <string>

namespace qb::lab {

// What every result by code is marked with.
inline constexpr const char* code_mark = "FROM THE CODE: a summary only, the log has not come";

// One result by code, for scripts and for people.
[[nodiscard]] json::value show_code_json(const code::packed_result& r, const seal_evidence& seal);
[[nodiscard]] std::string show_code_text(const code::packed_result& r, const seal_evidence& seal);

} // namespace qb::lab
