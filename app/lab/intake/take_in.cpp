// The rules of an import.
#include "app/lab/intake/take_in.hpp"

#include "app/lab/intake/read_code.hpp"
#include "app/lab/intake/versions.hpp"
#include "core/record/codec.hpp"
#include "core/report/report.hpp"
#include "core/report/same_test.hpp"

#include <algorithm>
#include <cstring>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// Compares with the kept log, which was read strictly when it was taken in. `differs` is told where
// the two contradict each other.
result<taken_in> compare(const log_row* kept, const read_log_result& next, log_reader& reader,
                         std::optional<refusal>& differs) {
  if (kept == nullptr) return taken_in::fresh;
  const auto before = reader.read(kept->body);
  if (!before)
    return tl::unexpected(refusal{refusal_kind::machine, "", "the kept log of this test",
                                  "a damaged text (" + sentence(before.error()) + ")",
                                  "the log as it was taken in"});
  const log_comparison c = compare_logs(before->log, next);
  switch (c.what) {
  case log_relation::same: return taken_in::same;
  case log_relation::older: return taken_in::older;
  case log_relation::grown: return taken_in::grown;
  case log_relation::contradicts:
    differs = refusal{refusal_kind::out_of_range, "", place_in_log(*c.first), c.first->next,
                      c.first->kept + " as in the log kept for this test"};
    return taken_in::aside;
  }
  QB_BELIEVE(false);
  return taken_in::same;
}

bool wrongly_signed(const signature_evidence& e) {
  return e.state == signature_state::bad || e.state == signature_state::another;
}

// What is here now, after a version came that was not put into the table of logs by itself, or came
// with a signature.
result<void> keep_beside(lab_store& store, const log_row& row, const take_in_options& o,
                         const signature_evidence& evidence, bool stored) {
  if (stored && !o.signature) return {};
  const std::string digest = sha256_hex(row.body);
  if (!stored) {
    const auto versions = store.versions_of(row.test_id);
    if (!versions) return tl::unexpected(versions.error());
    const bool here = std::any_of(versions->begin(), versions->end(),
                                  [&](const log_row& v) { return v.body == row.body; });
    if (!here)
      if (auto done = store.set_aside(row, digest); !done) return done;
  }
  if (!o.signature) return {};
  const std::string print = wrongly_signed(evidence) ? std::string() : evidence.fingerprint;
  return store.keep_signature({row.test_id, 0, digest, print, *o.signature});
}

// All of them, each where it belongs. Of a test that was not known there is this one alone.
result<test_versions> versions_after(lab_store& store, log_row row, read_log_result log,
                                     taken_in what, const take_in_options& o) {
  if (what != taken_in::fresh) {
    if (const auto settled = settle_versions(store, row.test_id); !settled)
      return tl::unexpected(settled.error());
    return load_versions(store, row.test_id, &log);
  }
  test_versions out;
  out.all.push_back({{}, std::move(row.body), std::move(log), {}});
  if (o.signature) out.all.front().signatures.push_back(*o.signature);
  return out;
}

// The end of a line about a version that contradicts another.
std::string which_counts(bool this_one) {
  return this_one ? "; this one is better signed and counts, and the other was set aside"
                  : "; this one was set aside";
}

} // namespace

result<taken_log> take_in(lab_store& store, log_reader& reader, std::string text,
                          const take_in_options& o) {
  auto read = reader.read(text);
  if (!read) return tl::unexpected(read.error());
  read_log_result& log = read->log;
  if (is_rehearsal(log) && !o.rehearsals)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "rehearsal", "practice",
                                  "a real test (import --rehearsals takes practice too)"});
  const signature_evidence evidence = evidence_of(signed_log_of(text, log), o.signature);
  log_row row = log_row_of(std::move(text), log, read->folded);
  if (!read->folded.person || row.protocol.empty())
    return tl::unexpected(refusal{refusal_kind::missing, "", "events",
                                  read->folded.person ? "no plan" : "no kit number",
                                  "a log with a person and a plan"});
  taken_in what = taken_in::fresh;
  std::optional<refusal> differs;
  const auto stored = store.put(row, [&](const log_row* kept) -> result<bool> {
    if (kept == nullptr && o.ask_kit && !row.rehearsal)
      if (const auto no = o.ask_kit(row.kit_number)) return tl::unexpected(*no);
    const auto compared = compare(kept, log, reader, differs);
    if (!compared) return tl::unexpected(compared.error());
    what = *compared;
    if (what == taken_in::aside) return false;
    if (const auto agrees = hold_against_code(store, log); !agrees)
      return tl::unexpected(agrees.error());
    if (what == taken_in::grown && wrongly_signed(evidence)) {
      what = taken_in::aside;
      differs = refusal{refusal_kind::out_of_range, "", "signature", evidence.why_bad,
                        "one that holds, of a record that grew"};
      return false;
    }
    return what == taken_in::fresh || what == taken_in::grown;
  });
  if (!stored) return tl::unexpected(stored.error());
  if (const auto kept = keep_beside(store, row, o, evidence, *stored); !kept)
    return tl::unexpected(kept.error());
  taken_log done{what, row.rehearsal, evidence.state, row.kit_number, mismatch_words(log), differs,
                 {}};
  const std::string brought = differs ? row.body : std::string();
  const auto versions = versions_after(store, std::move(row), std::move(log), what, o);
  if (!versions) return tl::unexpected(versions.error());
  provenance told = provenance_of(versions->all, versions->choices);
  if (done.differs)
    done.differs->expected += which_counts(versions->all[told.counts].bytes == brought);
  done.provenance = std::move(told.findings);
  return done;
}

result<std::optional<taken_log>> passed_as_known(const lab_store& store, const std::string& text,
                                                 const take_in_options& o) {
  constexpr std::string_view named = "\"test_id\":\"";
  if (o.signature) return std::nullopt;
  // By the search that is fast where the first letter is everywhere.
  const void* at = ::memmem(text.data(), text.size(), named.data(), named.size());
  if (at == nullptr) return std::nullopt;
  const auto from =
      static_cast<std::size_t>(static_cast<const char*>(at) - text.data()) + named.size();
  const auto row = store.only_version(text.substr(from, text.find('"', from) - from));
  if (!row) return tl::unexpected(row.error());
  const bool known =
      *row && (*row)->body == text && (*row)->matches && (o.rehearsals || !(*row)->rehearsal);
  if (!known) return std::nullopt;
  return taken_log{
      taken_in::same, (*row)->rehearsal, signature_state::none, (*row)->kit_number, {}, {}, {}};
}

} // namespace qb::lab
