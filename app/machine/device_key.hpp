// The key this device signs its exports with: the file `device.key` in the data folder.
// It proves no more than 'unchanged since export by whoever held this device', so it is made here,
// asks nothing of the person, and never leaves the folder.
#pragma once

#include "app/machine/disk.hpp"
#include "core/base/result.hpp"
#include "core/seal/secret.hpp"

#include <string>

namespace qb::inline machines {

// The key's seed. Where there is no file one is drawn from the system's chance and is on the disk
// (mode 0600, synced) when this returns. A damaged file is refused and left as it is: a new key is
// only made once somebody has moved the old one away.
[[nodiscard]] result<seal::secret<32>> device_seed(disk& device, const std::string& folder);

// Drawn from the system, for sealing one file.
[[nodiscard]] seal::secret<64> drawn_bytes();

} // namespace qb::inline machines
