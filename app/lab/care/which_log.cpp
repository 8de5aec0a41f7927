// The command `which-log`.
#include "app/lab/care/care.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/intake/evidence.hpp"
#include "app/lab/intake/versions.hpp"
#include "core/receiving/readings.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr std::size_t shown_digits = 12; // of a digest, enough to tell versions apart

refusal no_log(const char* where, std::string found, std::string expected,
               refusal_kind kind = refusal_kind::missing) {
  return {kind, "", where, std::move(found), std::move(expected)};
}

// The one test that is meant.
result<log_row> test_named(const lab_store& store, const std::string& kit_or_test) {
  auto rows = store.find(which_tests::of_kit_number, kit_key(kit_or_test));
  if (rows && rows->empty()) rows = store.find(which_tests::of_test_id, kit_or_test);
  if (!rows) return tl::unexpected(rows.error());
  if (rows->size() == 1) return rows->front();
  if (rows->empty())
    return tl::unexpected(no_log("KIT|TEST", "no log of it", "a test that list shows"));
  std::string ids;
  for (const log_row& row : *rows)
    ids += (ids.empty() ? "" : ", ") + row.test_id;
  return tl::unexpected(no_log("KIT|TEST", "several tests of that kit", "the id of one: " + ids,
                               refusal_kind::ambiguous));
}

void tell(const shared_options& shared, const log_row& test, const test_versions& all,
          const provenance& told, const console& to) {
  json::array list;
  std::string text =
      fmt::format("{}  test {}\n", printable(test.kit_number), printable(test.test_id));
  for (std::size_t i = 0; i < all.all.size(); ++i) {
    const kept_version& v = all.all[i];
    const bool counts = i == told.counts;
    list.push_back(json::object{{"log", v.digest},
                                {"events", static_cast<std::int64_t>(v.log.events.size())},
                                {"counts", counts},
                                {"signature", evidence_json(told.each[i])}});
    text +=
        fmt::format("{} {}  {} events  {}\n", counts ? "*" : " ", v.digest.substr(0, shown_digits),
                    v.log.events.size(), printable(evidence_text(told.each[i])));
  }
  for (const version_choice& c : all.choices)
    text += fmt::format("  {} said {}: {}\n", printable(c.by), c.digest.substr(0, shown_digits),
                        printable(c.reason));
  to.out(shared.format == output_format::json
             ? json::pretty(json::object{
                   {"kit", test.kit_number}, {"test", test.test_id}, {"versions", list}})
             : text);
}

result<void> choose(lab_context& at, const log_row& test, const test_versions& all,
                    const which_log_options& o) {
  const auto by = named_person(at, work_act::settle);
  if (!by) return tl::unexpected(by.error());
  if (auto why = reason_given(o.reason); !why) return why;
  log_choice_row row{test.test_id, {}, {}, *by, o.reason, rfc3339_utc(at.now())};
  std::size_t meant = 0;
  for (const kept_version& v : all.all) {
    row.seen += (row.seen.empty() ? "" : " ") + v.digest;
    if (v.digest.compare(0, o.log.size(), o.log) != 0) continue;
    ++meant;
    row.digest = v.digest;
  }
  if (meant != 1)
    return tl::unexpected(no_log("--log", fmt::format("{} logs that begin so", meant),
                                 "the beginning of one, as which-log shows them",
                                 refusal_kind::out_of_range));
  if (auto kept = at.logs().choose_version(row); !kept) return kept;
  return settle_versions(at.logs(), test.test_id);
}

} // namespace

int which_log(const shared_options& shared, const lab_context_options& options,
              const which_log_options& o, const console& to) {
  auto at = lab_context::open(shared, options, false);
  if (!at) return say_no(at.error(), to);
  const auto test = test_named(at->logs(), o.kit_or_test);
  if (!test) return say_no(test.error(), to);
  auto all = load_versions(at->logs(), test->test_id);
  if (!all) return say_no(in_file(all.error(), shared.store), to);
  if (!o.log.empty()) {
    if (const auto done = choose(*at, *test, *all, o); !done) return say_no(done.error(), to);
    all = load_versions(at->logs(), test->test_id);
    if (!all) return say_no(in_file(all.error(), shared.store), to);
  }
  tell(shared, *test, *all, provenance_of(all->all, all->choices), to);
  return 0;
}

} // namespace qb::lab
