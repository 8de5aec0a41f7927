// A record's files made, then written together.
#include "app/handover/export_record.hpp"

namespace qb::handover {

result<exported_files> export_record(disk& device, const std::string& folder,
                                     const std::vector<event>& events, const export_options& o,
                                     const std::vector<std::string>& ours) {
  const state s = fold_events(events);
  const bool called_off = !s.earlier_plans.empty() && s.earlier_plans.back().called_off;
  if (!s.opening || !s.person || !s.last_reading || (!s.planned && !called_off))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "export", "a test without a plan",
                                  "a test with a person and a plan"});
  const std::string wanted = export_stem(s.person->kit_number, s.rehearsal());
  const auto files = record_files(events, s, wanted, o);
  if (!files) return tl::unexpected(files.error());
  auto out = write_together(device, folder, *files, {wanted, s.opening->test_id, ours});
  if (out) out->why_unsigned = o.keys.why_unsigned;
  return out;
}

} // namespace qb::handover
