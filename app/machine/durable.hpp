// When what was written to files of our own survives a power cut, as the machine says.
// On a disk that is when the write returns (app/machine/files.hpp, SQLite's FULL). In a browser all
// files of ours are put into its store together, and it says later that they are there.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace qb {

// All that was written before one moment, as a number that grows.
using written_mark = std::int64_t;

// Hands over what was written by now, where that is not done yet.
[[nodiscard]] written_mark all_written();

// Whether all of it survives a power cut.
[[nodiscard]] bool is_durable(written_mark all);

// Why the last of it could not be handed over, until that was tried again with success or the file
// it was about was taken `back_to_durable`.
[[nodiscard]] std::optional<refusal> durable_failure();

// The file at `path`, which nobody has open, as it would be after a power cut now: what was written
// to it and could not be handed over is gone, so that whoever rereads it is told no more than the
// truth. Nothing where every write answers for itself.
void back_to_durable(const std::string& path);

} // namespace qb
