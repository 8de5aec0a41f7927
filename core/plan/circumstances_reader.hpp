// The strict reader of what a person told for a plan; the contract is
// assets/schema/told.schema.json. For `quarterbreath earliest`, so that scripts can ask for the
// earliest start too.
//
// {"format": "quarterbreath-told", "version": 1,
//  "washouts": {"antibiotics": {"answer": "last-on", "on": "2027-03-01"},
//               "laxatives": {"answer": "cannot-stop", "agreed": true}},
//  "moments": {"fast": "2027-04-05 19:30"},
//  "home": [{"weekdays": [1, 2, 3], "from": "06:00", "to": "13:00"}],
//  "away": ["2027-04-12"],
//  "awake": {"from": "06:00", "to": "23:00"},
//  "kit_expires": "2027-09-30",
//  "answers": {"ask-diabetes": "no", "ask-pregnancy": "unsure"},
//  "birth_date": "1957-03-27"}
//
// Every part but format and version may be left out. Keys of washouts, moments and answers are rule
// ids of a protocol; answers are those of `washout_key`, with "on" for last-on and until, and only
// for them. Weekdays are 1 Monday to 7 Sunday; "to" may be "24:00"; hours whose "to" is before
// their "from" go on over midnight.
#pragma once

#include "core/plan/earliest.hpp"

#include <string_view>

namespace qb::inline plans {

// Reads a told file's text; moments are civil times in the zone, or RFC 3339. Refuses with line and
// field: unknown fields, answers, days or hours that are none, a moment that clocks jump over or
// show twice (then as RFC 3339).
[[nodiscard]] result<circumstances> read_circumstances(std::string_view text, const zone& z);

// A moment as people and scripts write it: "2027-04-05 19:30" in the zone, or RFC 3339 with Z or an
// offset, "2027-04-05T19:30:00+01:00"; seconds are rounded up to the minute. Refuses anything else,
// and a civil time that does not exist or happens twice in the zone.
[[nodiscard]] result<instant> read_moment(std::string_view text, const zone& z);

} // namespace qb::inline plans
