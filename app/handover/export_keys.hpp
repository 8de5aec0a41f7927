// What an export signs and seals with.
// An export must never fail for a bad key: then it goes unsigned, and says why.
#pragma once

#include "app/machine/disk.hpp"

#include "core/code/result_of_events.hpp"
#include "core/seal/signing.hpp"

#include <optional>
#include <string>

namespace qb::handover {

// The keys and the chance of one export: drawn anew for each, since `drawn` seals what it writes.
struct export_keys {
  std::optional<seal::signing_key> signing; // nothing: the log goes unsigned
  std::string why_unsigned;                 // then the reason, without any path
  seal::secret<64> drawn;                   // chance; each file is sealed with its own part
};

// This device's key, made where there is none yet, and chance from the system.
[[nodiscard]] export_keys device_keys(disk& device, const std::string& data_folder);

// Keys that everybody knows, for a script played through: its files prove nothing, and the same
// script gives the same bytes.
[[nodiscard]] export_keys practice_keys();

// The seal of a result by code, for paper and screen alike, with the key that also signs the log.
// Signs with those keys, which must outlive it; no seal where there is no key to sign with.
[[nodiscard]] code::packed_signer code_signer(const export_keys& keys);

} // namespace qb::handover
