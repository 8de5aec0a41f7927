// What the rack shows of one tube. Apart from the rack so that the page's strip can hold one.
// These are the patient's words for it, not the session's state: the view translates.
#pragma once

namespace qb {

// `next` is the one to blow now; `late` is filled, after its time.
enum class tube_mark { unused, empty, next, filled, late, missed };

} // namespace qb
