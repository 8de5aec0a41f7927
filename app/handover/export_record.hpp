// Hands over a finished record: its files (hand_over_file.hpp) written, synced and read back.
// File names carry the kit number and nothing of the person; another test's file is never replaced.
#pragma once

#include "app/handover/hand_over_file.hpp"
#include "app/handover/written_together.hpp"

#include <string>
#include <vector>

namespace qb::handover {

// Writes into `folder`, making it where there is none. The same record again replaces its own
// files, and so it does those in `ours`, which were written a moment ago and may be sealed by now;
// where a file of that name belongs to another record, or cannot be told apart because it is
// sealed, a number is added to ours. Of a test that was called off and not planned again there is
// the log alone.
[[nodiscard]] result<exported_files> export_record(disk& device, const std::string& folder,
                                                   const std::vector<event>& events,
                                                   const export_options& o,
                                                   const std::vector<std::string>& ours = {});

} // namespace qb::handover
