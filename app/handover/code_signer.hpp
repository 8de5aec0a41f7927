// The seal of a result by code, with the key that also signs the log.
// Paper and screen ask here, so that both codes are the same.
#pragma once

#include "app/handover/export_keys.hpp"
#include "core/code/result_of_events.hpp"

namespace qb::handover {

// Signs with those keys, which must outlive it; no seal where there is no key to sign with.
[[nodiscard]] code::packed_signer code_signer(const export_keys& keys);

} // namespace qb::handover
