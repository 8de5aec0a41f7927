// The rules of an import.
#include "app/lab/intake/take_in.hpp"

#include "app/lab/intake/read_code.hpp"
#include "core/receiving/readings.hpp"
#include "core/record/codec.hpp"
#include "core/report/same_test.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

log_row row_of(const std::string& text, const report& r) {
  log_row row;
  row.test_id = r.test_id;
  row.events = static_cast<std::int64_t>(r.events);
  row.head = r.head;
  row.kit_number = kit_key(r.kit_number);
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

// Compares with the kept log, which was read strictly when it was taken in. `differs` is told where
// the two contradict each other.
result<taken_in> compare(const log_row* kept, const read_log_result& next,
                         std::optional<refusal>& differs) {
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
    differs = refusal{refusal_kind::out_of_range, "", place_in_log(*c.first), c.first->next,
                      c.first->kept + " as in the log kept for this test; this one was set aside"};
    return taken_in::aside;
  }
  QB_BELIEVE(false);
  return taken_in::same;
}

// Keeps the signature beside the log whose very bytes it is of. A good one is never replaced by one
// that does not hold.
result<signature_state> keep_evidence(lab_store& store, const log_row& row, const std::string& kept,
                                      const std::optional<std::string>& signature) {
  const signature_evidence next = evidence_of(row.body, signature);
  if (!signature || kept != row.body) return next.state;
  const auto before = store.signature_of(row.test_id, row.events);
  if (!before) return tl::unexpected(before.error());
  if (evidence_of(kept, *before).state == signature_state::good) return next.state;
  const auto done = store.keep_signature(row.test_id, row.events, *signature);
  if (!done) return tl::unexpected(done.error());
  return next.state;
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
  const log_row row = row_of(text, r);
  std::optional<refusal> differs;
  std::string body = text; // as it is kept: the same events may have come in other bytes
  const auto stored = store.put(row, [&](const log_row* kept) -> result<bool> {
    const auto compared = compare(kept, *log, differs);
    if (compared && *compared == taken_in::same) body = kept->body;
    if (compared && *compared == taken_in::older) body.clear();
    if (!compared) return tl::unexpected(compared.error());
    what = *compared;
    if (what == taken_in::aside) return false;
    if (const auto agrees = hold_against_code(store, *log); !agrees)
      return tl::unexpected(agrees.error());
    return what == taken_in::fresh || what == taken_in::grown;
  });
  if (!stored) return tl::unexpected(stored.error());
  if (what == taken_in::aside) {
    // The kept log only grows, so that what contradicted it does so still.
    if (const auto done = store.set_aside(row, sha256_hex(row.body)); !done)
      return tl::unexpected(done.error());
    return taken_log{what, r.rehearsal, signature_state::none, row.kit_number, {}, differs};
  }
  const auto signature = keep_evidence(store, row, body, o.signature);
  if (!signature) return tl::unexpected(signature.error());
  taken_log done{what, r.rehearsal, *signature, row.kit_number, {}, {}};
  for (const finding& f : r.findings)
    if (f.rule == "record-mismatch" && done.mismatch.empty()) done.mismatch = f.words;
  return done;
}

result<std::vector<finding>> findings_aside(const lab_store& store, const read_log_result& kept) {
  const auto texts = store.set_aside_of(test_id_of(kept));
  if (!texts) return tl::unexpected(texts.error());
  std::vector<finding> out;
  for (const std::string& text : *texts) {
    const auto aside = read_log(text);
    if (!aside)
      return tl::unexpected(refusal{refusal_kind::machine, "", "a log that was set aside",
                                    "a damaged text (" + sentence(aside.error()) + ")",
                                    "the log as it came"});
    if (auto one = aside_finding(kept, *aside)) out.push_back(std::move(*one));
  }
  return out;
}

} // namespace qb::lab
