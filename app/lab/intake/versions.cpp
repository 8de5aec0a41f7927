// Reading them, asking the one function, and moving rows to where its answer has them.
#include "app/lab/intake/versions.hpp"

#include "core/receiving/readings.hpp"
#include "core/record/codec.hpp"
#include "core/report/same_test.hpp"

#include <algorithm>
#include <sstream>

namespace qb::lab {

namespace {

result<read_log_result> read_kept(const std::string& body, const read_log_result* known) {
  if (known != nullptr) return *known;
  auto log = read_log(body);
  if (log) return log;
  return tl::unexpected(refusal{refusal_kind::machine, "", "a kept log",
                                "a damaged text (" + sentence(log.error()) + ")",
                                "the log as it was taken in"});
}

// A signature of an earlier store names a number of events: it belongs to the bytes that it holds
// for, or else to those that counted.
kept_version* version_of(const kept_signature& s, test_versions& in) {
  kept_version* out = nullptr;
  for (kept_version& v : in.all) {
    if (!s.digest.empty()) {
      if (v.digest == s.digest) return &v;
      continue;
    }
    if (static_cast<std::int64_t>(v.log.events.size()) != s.events) continue;
    if (evidence_of(signed_log_of(v.bytes, v.log), s.text).state != signature_state::bad) return &v;
    if (out == nullptr) out = &v;
  }
  return out;
}

std::vector<std::string> words_between_spaces(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> out;
  for (std::string word; in >> word;)
    out.push_back(word);
  return out;
}

} // namespace

log_row log_row_of(std::string text, const read_log_result& log, const state& s) {
  log_row row;
  row.test_id = test_id_of(log);
  row.events = static_cast<std::int64_t>(log.events.size());
  row.head = log.head;
  row.kit_number = s.person ? kit_key(s.person->kit_number) : "";
  row.rehearsal = is_rehearsal(log);
  row.matches = log.mismatches.empty();
  if (s.test && s.planned) {
    row.protocol = s.test->id;
    row.tubes = static_cast<std::int64_t>(s.samples.size());
    row.filled = std::count_if(s.samples.begin(), s.samples.end(),
                               [](const sample_state& t) { return t.taken.has_value(); });
    row.started = rfc3339_utc(s.grid ? s.grid->anchor.wall : s.planned->what.start);
  } else if (s.grid) {
    row.started = rfc3339_utc(s.grid->anchor.wall);
  }
  row.body = std::move(text);
  for (const event& e : log.events) {
    if (const auto* first = std::get_if<opened>(&e.what)) row.shared.push_back(first->profile_text);
    if (const auto* plan = std::get_if<plan_made>(&e.what))
      row.shared.push_back(plan->protocol_text);
  }
  return row;
}

result<test_versions> load_versions(const lab_store& store, const std::string& test_id,
                                    const read_log_result* known) {
  test_versions out;
  const auto rows = store.versions_of(test_id);
  if (!rows) return tl::unexpected(rows.error());
  const auto asides = store.set_aside_of(test_id);
  if (!asides) return tl::unexpected(asides.error());
  const auto signatures = store.signatures_of(test_id);
  if (!signatures) return tl::unexpected(signatures.error());
  std::vector<std::string> bodies;
  for (const log_row& row : *rows)
    bodies.push_back(row.body);
  out.counted = bodies.size();
  bodies.insert(bodies.end(), asides->begin(), asides->end());
  for (std::string& body : bodies) {
    auto log = read_kept(body, bodies.size() == 1 ? known : nullptr);
    if (!log) return tl::unexpected(log.error());
    std::string digest = sha256_hex(body);
    out.all.push_back({std::move(digest), std::move(body), std::move(*log), {}});
  }
  for (const kept_signature& s : *signatures)
    if (kept_version* of = version_of(s, out)) of->signatures.push_back(s.text);
  const auto choices = store.choices_of(test_id);
  if (!choices) return tl::unexpected(choices.error());
  for (const log_choice_row& c : *choices)
    out.choices.push_back({c.digest, words_between_spaces(c.seen), c.by, c.reason});
  return out;
}

result<provenance> provenance_in(const lab_store& store, const std::string& test_id,
                                 const read_log_result* known) {
  const auto versions = load_versions(store, test_id, known);
  if (!versions) return tl::unexpected(versions.error());
  if (versions->all.empty())
    return tl::unexpected(refusal{refusal_kind::missing, "", "", "no log of that test", "one"});
  return provenance_of(versions->all, versions->choices);
}

result<void> settle_versions(lab_store& store, const std::string& test_id) {
  const auto versions = load_versions(store, test_id);
  if (!versions) return tl::unexpected(versions.error());
  if (versions->all.size() < 2) return {};
  const provenance told = provenance_of(versions->all, versions->choices);
  std::vector<version_row> count;
  std::vector<version_row> aside;
  for (std::size_t i = 0; i < versions->all.size(); ++i) {
    const bool is_in = i < versions->counted;
    const bool belongs = std::find(told.story.begin(), told.story.end(), i) != told.story.end();
    if (is_in == belongs) continue;
    const kept_version& v = versions->all[i];
    (belongs ? count : aside)
        .push_back({log_row_of(v.bytes, v.log, fold_events(v.log.events)), v.digest});
  }
  if (count.empty() && aside.empty()) return {};
  return store.move_versions(count, aside);
}

result<std::vector<seal::named_key>> keys_of_test(const lab_store& store,
                                                  const std::string& test_id) {
  const auto told = provenance_in(store, test_id);
  if (!told) return tl::unexpected(told.error());
  std::vector<seal::named_key> out;
  for (const signature_evidence& e : told->each) {
    const auto key = seal::read_public_key(e.key);
    if (holds(e) && key) out.push_back(seal::named(key->key));
  }
  return out;
}

} // namespace qb::lab
