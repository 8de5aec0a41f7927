// The command `forget`.
#include "core/report/audit.hpp"

#include "app/lab/commands/day.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "core/receiving/readings.hpp"
#include "core/record/log.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

// What the kit's tests leave: counts by protocol, of tubes 2 and on, as the audit has them.
result<std::vector<forgotten_row>> counts_of(const lab_context& at,
                                             const std::vector<log_row>& logs) {
  audit all;
  for (const log_row& row : logs) {
    if (row.rehearsal) continue; // practice counts nowhere
    const auto log = read_log(row.body);
    if (!log)
      return tl::unexpected(refusal{refusal_kind::machine, at.shared().store, "a kept log",
                                    "a damaged text", "the log as it was taken in"});
    const report told = report_of(*log, at.shared().zones, at.shared().own);
    if (told.matches_itself) all.add(told); // as the audit counts
  }
  std::vector<forgotten_row> out;
  for (const auto& [id, test] : all.tests()) {
    const audit_counts& c = test.later;
    out.push_back({id, test.tests, c.due, c.due - c.missed, c.on_time, c.early, c.late, c.missed});
  }
  return out;
}

} // namespace

int forget_kit(const shared_options& shared, const lab_context_options& o, const std::string& typed,
               bool sure, const console& to) {
  const std::string kit = kit_key(typed);
  auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto logs = at->logs().find(which_tests::of_kit_number, kit);
  if (!logs) return say_no(logs.error(), to);
  const auto codes = at->logs().find_codes(which_tests::of_kit_number, kit);
  if (!codes) return say_no(codes.error(), to);
  const auto received = at->received().find(kit);
  if (!received) return say_no(received.error(), to);
  const std::size_t boxes = received->arrivals.size();
  if (logs->empty() && codes->empty() && boxes == 0 && received->papers.empty() &&
      received->readings.empty() && received->overrides.empty() && received->conclusions.empty())
    return say_no({refusal_kind::missing, shared.store, "KIT", "nothing of that kit",
                   "a kit that quarterbreath-lab worklist --all shows"},
                  to);
  const std::string what =
      fmt::format("logs {}, codes {}, box entries {}, sheets {}, readings {}", logs->size(),
                  codes->size(), boxes, received->papers.size(), received->readings.size());
  if (!sure)
    return say_no({refusal_kind::ambiguous, shared.store, "forget", what,
                   "--sure, since it cannot be taken back"},
                  to);
  const auto counts = counts_of(*at, *logs);
  if (!counts) return say_no(counts.error(), to);
  const auto gone = at->received().forget(kit, *counts);
  if (!gone) return say_no(gone.error(), to);
  to.out(fmt::format("forgotten: {}; counts are left for the audit\n", what));
  return 0;
}

} // namespace qb::lab
