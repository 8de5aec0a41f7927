// The commands that only read: list and show.
#include "app/lab/commands.hpp"
#include "app/lab/report_json.hpp"
#include "app/lab/report_text.hpp"
#include "core/store/lab_store.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

result<lab_store> open_for_reading(const shared_options& shared) {
  auto store = lab_store::open(shared.store);
  if (store || store.error().kind != refusal_kind::missing) return store;
  return tl::unexpected(refusal{refusal_kind::missing, shared.store, "", "no store",
                                "one made by quarterbreath-lab import"});
}

// A kept log was read strictly when it was taken in; if it cannot be read now the file is damaged.
result<report> kept_report(const log_row& row, const shared_options& shared) {
  const auto log = read_log(row.body);
  if (log) return report_of(*log, shared.zones, shared.own);
  return tl::unexpected(refusal{refusal_kind::machine, shared.store, "a kept log",
                                "a damaged text (" + sentence(log.error()) + ")",
                                "the log as it was taken in"});
}

} // namespace

int list_tests(const shared_options& shared, const console& to) {
  const auto store = open_for_reading(shared);
  if (!store) return say_no(store.error(), to);
  const auto rows = store->list();
  if (!rows) return say_no(rows.error(), to);
  if (shared.format == output_format::text) {
    to.out(list_text(*rows));
    return 0;
  }
  json::array tests;
  for (const log_row& row : *rows)
    tests.push_back(row_json(row));
  to.out(json::pretty(json::object{{"tests", std::move(tests)}}));
  return 0;
}

int show_tests(const shared_options& shared, const std::string& kit_or_test, const console& to) {
  const auto store = open_for_reading(shared);
  if (!store) return say_no(store.error(), to);
  auto rows = store->find(which_tests::of_kit_number, kit_or_test);
  if (rows && rows->empty()) rows = store->find(which_tests::of_test_id, kit_or_test);
  if (!rows) return say_no(rows.error(), to);
  if (rows->empty())
    return say_no({refusal_kind::missing, shared.store, "", "no test of that kit number or id",
                   "one that quarterbreath-lab list shows"},
                  to);
  json::array tests;
  std::string text;
  for (const log_row& row : *rows) {
    const auto r = kept_report(row, shared);
    if (!r) return say_no(r.error(), to);
    if (shared.format == output_format::json) tests.push_back(report_json(*r));
    if (shared.format == output_format::text) text += (text.empty() ? "" : "\n") + report_text(*r);
  }
  to.out(shared.format == output_format::json ? json::pretty(json::object{{"tests", tests}})
                                              : text);
  return 0;
}

} // namespace qb::lab
