// Writes a plan's reminders: the calendar file and the preparation page.
// File names carry the kit number and nothing of the person; another test's file is never replaced.
#pragma once

#include "app/handover/written_together.hpp"
#include "core/sheet/prepared_plan.hpp"

#include <string>

namespace qb::handover {

// Writes both into `folder`, making it where there is none, each synced and read back. The same
// test again replaces its own files; where a file of that name belongs to another test, a number is
// added to ours. Of a plan that was called off only the calendar is written. `made_at` is the
// moment that both carry.
[[nodiscard]] result<exported_files> export_plan(disk& device, const std::string& folder,
                                                 const prepared_plan& p, const zone& z,
                                                 instant made_at);

// Where `quarterbreath plan` is told to write; an empty path is not written.
struct plan_paths {
  std::string calendar;
  std::string page;
};

// Writes to just these paths. Refuses, before anything is written, a path at which there is a file
// with other bytes: whose it is cannot be known.
[[nodiscard]] result<exported_files> write_plan(disk& device, const plan_paths& paths,
                                                const prepared_plan& p, const zone& z,
                                                instant made_at);

// Writes one file, synced and read back. Refuses a path at which there is a file with other bytes.
[[nodiscard]] result<void> write_where_free(disk& device, const std::string& path,
                                            const std::string& bytes);

} // namespace qb::handover
