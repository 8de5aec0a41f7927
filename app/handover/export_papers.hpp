// Writes what is printed before a test: labels for the tubes, and the empty sheet for a pen.
// File names carry the kit number and nothing of the person; another test's file is never replaced.
#pragma once

#include "app/handover/written_together.hpp"
#include "core/session/state.hpp"
#include "core/sheet/label_sheet.hpp"
#include "core/time/zone.hpp"

namespace qb::handover {

// Writes `.labels.pdf` and `.empty-sheet.pdf` into `folder`, making it where there is none, each
// synced and read back. `s` has a person and a plan; `place` is the zone of that plan. The same
// test again replaces its own files; where a file of that name is another's, a number is added.
[[nodiscard]] result<exported_files> export_papers(disk& device, const std::string& folder,
                                                   const state& s, const label_sheet& labels,
                                                   const zone& place, instant made_at);

} // namespace qb::handover
