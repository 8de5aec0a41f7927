// The rules of an import.
#include "app/lab/take_in.hpp"

#include "core/lab/same_test.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

log_row row_of(const std::string& text, const report& r) {
  log_row row;
  row.test_id = r.test_id;
  row.events = static_cast<std::int64_t>(r.events);
  row.head = r.head;
  row.kit_number = r.kit_number;
  row.protocol = r.protocol_id;
  const auto started = r.anchor ? r.anchor : r.planned_start;
  row.started = started ? rfc3339_utc(*started) : "";
  row.rehearsal = r.rehearsal;
  row.matches = r.matches_itself;
  row.filled = std::count_if(r.tubes.begin(), r.tubes.end(),
                             [](const report_tube& t) { return t.closed.has_value(); });
  row.tubes = static_cast<std::int64_t>(r.tubes.size());
  row.body = text;
  return row;
}

// Compares with the kept log, which was read strictly when it was taken in.
result<taken_in> compare(const log_row* kept, const read_log_result& next) {
  if (kept == nullptr) return taken_in::fresh;
  const auto before = read_log(kept->body);
  if (!before)
    return tl::unexpected(refusal{refusal_kind::machine, "", "the kept log of this test",
                                  "a damaged text (" + sentence(before.error()) + ")",
                                  "the log as it was taken in"});
  const log_comparison c = compare_logs(*before, next);
  switch (c.what) {
  case log_relation::same: return taken_in::same;
  case log_relation::older: return taken_in::older;
  case log_relation::grown: return taken_in::grown;
  case log_relation::contradicts:
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", fmt::format("event {}", c.seq),
                                  "another than in the log kept for this test",
                                  "the same events, with or without more after them"});
  }
  QB_BELIEVE(false);
  return taken_in::same;
}

} // namespace

result<taken_log> take_in(lab_store& store, const std::string& text, const take_in_options& o) {
  const auto log = read_log(text);
  if (!log) return tl::unexpected(log.error());
  if (is_rehearsal(*log) && !o.rehearsals)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "rehearsal", "practice",
                                  "a real test (import --rehearsals takes practice too)"});
  const report r = report_of(*log, o.zones);
  if (r.kit_number.empty() || r.protocol_id.empty())
    return tl::unexpected(refusal{refusal_kind::missing, "", "events",
                                  r.kit_number.empty() ? "no kit number" : "no plan",
                                  "a log with a person and a plan"});
  taken_in what = taken_in::fresh;
  const auto stored = store.put(row_of(text, r), [&](const log_row* kept) -> result<bool> {
    const auto compared = compare(kept, *log);
    if (!compared) return tl::unexpected(compared.error());
    what = *compared;
    return what == taken_in::fresh || what == taken_in::grown;
  });
  if (!stored) return tl::unexpected(stored.error());
  return taken_log{what, r.rehearsal};
}

} // namespace qb::lab
