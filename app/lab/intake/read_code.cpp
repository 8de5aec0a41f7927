// The rules of taking in codes, beside those of logs.
#include "app/lab/intake/read_code.hpp"

#include "core/base/hex.hpp"
#include "core/code/code_text.hpp"
#include "core/code/result_of_events.hpp"
#include "core/receiving/readings.hpp"
#include "core/report/same_test.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

log_row row_of(const code::packed_result& r, const std::string& content) {
  log_row row;
  row.test_id = r.test_id;
  row.events = static_cast<std::int64_t>(r.events);
  row.head = hex_of(r.head_tail);
  row.kit_number = kit_key(r.kit_number);
  row.protocol = r.protocol_id;
  row.started = rfc3339_utc(r.zero);
  row.rehearsal = r.rehearsal;
  row.filled = std::count_if(r.samples.begin(), r.samples.end(),
                             [](const code::packed_sample& t) { return t.taken.has_value(); });
  row.tubes = static_cast<std::int64_t>(r.samples.size());
  row.body = hex_of(content);
  return row;
}

tl::unexpected<refusal> disagrees(const std::vector<std::string>& differences,
                                  const char* expected) {
  std::string found;
  for (const std::string& one : differences)
    found += (found.empty() ? "" : "; ") + one;
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code and log", found, expected});
}

result<read_log_result> kept_log(const log_row& row) {
  auto log = read_log(row.body);
  if (log) return log;
  return tl::unexpected(refusal{refusal_kind::machine, "", "the kept log of this test",
                                "a damaged text (" + sentence(log.error()) + ")",
                                "the log as it was taken in"});
}

// Against the log that is kept, if one is: whether it says all that the code does.
result<bool> recorded_by_log(const lab_store& store, const code::packed_result& r) {
  const auto logs = store.find(which_tests::of_test_id, r.test_id);
  if (!logs) return tl::unexpected(logs.error());
  if (logs->empty()) return false;
  const auto log = kept_log(logs->front());
  if (!log) return tl::unexpected(log.error());
  const code::comparison c = code::compare_with_log(r, log->events);
  if (!c.differences.empty())
    return disagrees(c.differences, "the same as the kept log; the code was set aside");
  return !c.log_is_older;
}

// Against the code that is kept of the same test.
result<taken_in> against_kept(const log_row* kept, const code::packed_result& next) {
  if (kept == nullptr) return taken_in::fresh;
  const auto before = kept_code(*kept);
  if (!before) return tl::unexpected(before.error());
  if (before->events < next.events) return taken_in::grown;
  if (before->events > next.events) return taken_in::older;
  const auto differing = differences(next, *before);
  if (differing.empty()) return taken_in::same;
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code",
                                "another result than the one kept for this test",
                                "the same; the second was set aside"});
}

result<taken_log> take_in_one(lab_store& store, const std::string& content,
                              const take_in_options& o) {
  const auto r = code::unpack(content);
  if (!r) return tl::unexpected(r.error());
  if (r->rehearsal && !o.rehearsals)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code", "practice",
                                  "a real test (import --rehearsals takes practice too)"});
  taken_in what = taken_in::fresh;
  const log_row row = row_of(*r, content);
  const auto stored = store.put_code(row, [&](const log_row* kept) -> result<bool> {
    if (kept == nullptr && o.ask_kit && !row.rehearsal)
      if (const auto no = o.ask_kit(row.kit_number)) return tl::unexpected(*no);
    const auto told = recorded_by_log(store, *r);
    if (!told) return tl::unexpected(told.error());
    const auto compared = against_kept(kept, *r);
    if (!compared) return tl::unexpected(compared.error());
    // What the log says already is nothing new; the code is kept beside it all the same.
    what = *told ? taken_in::same : *compared;
    return *compared == taken_in::fresh || *compared == taken_in::grown;
  });
  if (!stored) return tl::unexpected(stored.error());
  return taken_log{what, r->rehearsal};
}

} // namespace

taken_codes take_in_codes(lab_store& store, const std::string& text, const take_in_options& o) {
  code::scanned_codes scanned = code::read_codes(text);
  taken_codes out{{}, std::move(scanned.refused)};
  for (const std::string& content : scanned.contents) {
    const auto taken = take_in_one(store, content, o);
    if (taken) {
      out.taken.push_back(*taken);
    } else {
      out.refused.push_back(taken.error());
    }
  }
  return out;
}

result<void> hold_against_code(const lab_store& store, const read_log_result& log) {
  const auto kept = store.find_codes(which_tests::of_test_id, test_id_of(log));
  if (!kept) return tl::unexpected(kept.error());
  for (const log_row& row : *kept) {
    const auto code = kept_code(row);
    if (!code) return tl::unexpected(code.error());
    const code::comparison c = code::compare_with_log(*code, log.events);
    if (!c.differences.empty())
      return disagrees(c.differences,
                       "the same as the result that came by code; the log was set aside");
  }
  return {};
}

result<code::packed_result> kept_code(const log_row& row) {
  const auto damaged = [](const std::string& what) {
    return tl::unexpected(refusal{refusal_kind::machine, "", "a kept code",
                                  "damaged bytes (" + what + ")", "the result as it was taken in"});
  };
  const auto bytes = bytes_of_hex(row.body);
  if (!bytes) return damaged("no hexadecimal digits");
  auto r = code::unpack(*bytes);
  if (!r) return damaged(sentence(r.error()));
  return r;
}

} // namespace qb::lab
