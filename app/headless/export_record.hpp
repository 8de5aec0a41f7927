// Hands over a finished record: the timing log, the sample rows as CSV, sheet and labels as PDF.
// File names carry the kit number and nothing of the person; another test's file is never replaced.
#pragma once

#include "core/session/event.hpp"
#include "core/time/zone.hpp"

#include <string>
#include <vector>

namespace qb {

// The files that were written, in full, each synced and read back.
struct exported_files {
  std::vector<std::string> paths;
};

// Writes into `folder`, making it where there is none. The same record again replaces its own
// files; where a file of that name belongs to another record, a number is added to ours. Of a test
// that was called off and not planned again there is the log alone.
[[nodiscard]] result<exported_files> export_record(const std::string& folder,
                                                   const std::vector<event>& events,
                                                   const std::string& program, const zone& z);

// "quarterbreath-KIT" with every character outside letters, digits and hyphens left out; with
// "practice-" in front for a rehearsal.
[[nodiscard]] std::string export_stem(const std::string& kit_number, bool rehearsal);

} // namespace qb
