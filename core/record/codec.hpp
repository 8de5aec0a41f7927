// One event as JSON and back. The journal's rows and the timing log use this same form.
//
// An event is an object with these fields, in its canonical form (RFC 8785) when it is kept:
//   seq    whole number from 1, without gaps
//   kind   what happened, one of the names in codec_kinds.cpp
//   at     the clocks: wall (RFC 3339 UTC), boot_ms and boot (only where there is a boot clock),
//          zone (IANA name), offset_s (local minus UTC the device showed), synchronised
//   data   the fact's own fields, by kind
// Example (the second event of a test):
//   {"at":{"boot":"3f0c","boot_ms":5400000,"offset_s":3600,"synchronised":true,
//   "wall":"2027-04-06T06:30:00.250Z","zone":"Europe/London"},
//   "data":{"sample":4},"kind":"tube-closed","seq":2}
// Beside it stands its hash: SHA-256, in lower-case hexadecimal, of the previous event's hash (64
// zeros before the first), a line end, and the canonical form. So an edit shows where it was made.
#pragma once

#include "core/base/canonical_text.hpp"
#include "core/base/json.hpp"
#include "core/record/frozen_rules.hpp"
#include "core/session/event.hpp"

#include <string>
#include <string_view>

namespace qb::inline records {

// The kind's name of a fact: "tube-closed".
[[nodiscard]] std::string_view kind_name(const payload& p);

// The event's object, without a hash. Its instants must lie in the years RFC 3339 can write.
[[nodiscard]] json::value encode_event(const event& e);

// Refuses what is not an event in today's form, with line and field. `place` is where it stands.
[[nodiscard]] result<event> decode_event(const json::value& v, const std::string& place);
// The same by whoever reads many events and remembers their rules.
[[nodiscard]] result<event> decode_event(const json::value& v, const std::string& place,
                                         frozen_rules& known);

// One that stands with its hash in a canonical text; nothing where it is not in today's form.
struct canonical_event {
  event what;
  std::string_view hash;
};
[[nodiscard]] std::optional<canonical_event> decode_event(const json::spot& v, frozen_rules& known);

// The hash before the first event.
[[nodiscard]] std::string chain_start();

// The hash of an event whose canonical form is `body`, after the event whose hash is `previous`.
[[nodiscard]] std::string chain_next(const std::string& previous, std::string_view body);

// Whether the text is written as those two are, whatever it is a hash of.
[[nodiscard]] bool is_hash(std::string_view text);

// SHA-256 in lower-case hexadecimal.
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

} // namespace qb::inline records
