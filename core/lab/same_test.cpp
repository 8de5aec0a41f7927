// Comparing logs event by event, in their canonical form.
#include "core/lab/same_test.hpp"

#include "core/record/codec.hpp"

#include <algorithm>

namespace qb {

log_comparison compare_logs(const read_log_result& kept, const read_log_result& next) {
  const std::size_t both = std::min(kept.events.size(), next.events.size());
  for (std::size_t i = 0; i < both; ++i) {
    if (json::canonical(encode_event(kept.events[i])) !=
        json::canonical(encode_event(next.events[i])))
      return {log_relation::contradicts, kept.events[i].seq};
  }
  if (next.events.size() > both) return {log_relation::grown, 0};
  if (kept.events.size() > both) return {log_relation::older, 0};
  if (kept.head != next.head) return {log_relation::contradicts, kept.events.back().seq};
  return {log_relation::same, 0};
}

const std::string& test_id_of(const read_log_result& log) {
  const auto* opening = std::get_if<opened>(&log.events.front().what);
  QB_BELIEVE(opening != nullptr); // read_log refuses a log that does not begin so
  return opening->test_id;
}

bool is_rehearsal(const read_log_result& log) {
  const auto* opening = std::get_if<opened>(&log.events.front().what);
  return log.rehearsal || (opening != nullptr && opening->rehearsal);
}

} // namespace qb
