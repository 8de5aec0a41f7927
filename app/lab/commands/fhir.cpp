// The command `fhir`: one kept test as a FHIR bundle, printed or written to a file.
#include "app/lab/commands/commands.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/output.hpp"
#include "app/store/lab_store.hpp"
#include "core/fhir/bundle.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal not_one(const shared_options& shared, std::string found, std::string expected,
                refusal_kind kind) {
  return {kind, shared.store, "", std::move(found), std::move(expected)};
}

// The one test that is meant: of that kit number, or else of that id.
result<log_row> the_test(const lab_store& store, const shared_options& shared,
                         const std::string& kit_or_test) {
  auto rows = store.find(which_tests::of_kit_number, kit_or_test);
  if (rows && rows->empty()) rows = store.find(which_tests::of_test_id, kit_or_test);
  if (!rows) return tl::unexpected(rows.error());
  if (rows->size() == 1) return rows->front();
  if (rows->empty())
    return tl::unexpected(not_one(shared, "no log of that kit number or test id",
                                  "one that quarterbreath-lab list shows, by its log",
                                  refusal_kind::missing));
  std::string ids;
  for (const log_row& row : *rows)
    ids += (ids.empty() ? "" : ", ") + row.test_id;
  return tl::unexpected(not_one(shared, fmt::format("{} tests of that kit", rows->size()),
                                "the id of one of them: " + ids, refusal_kind::ambiguous));
}

// A kept log was read strictly when it was taken in; if it cannot be read now the file is damaged.
result<read_log_result> kept_log(const log_row& row, const shared_options& shared) {
  auto log = read_log(row.body);
  if (log) return log;
  return tl::unexpected(refusal{refusal_kind::machine, shared.store, "a kept log",
                                "a damaged text (" + sentence(log.error()) + ")",
                                "the log as it was taken in"});
}

result<std::string> bundle_for(const shared_options& shared, const fhir_options& o) {
  const auto codes = load_codes(o.assets);
  if (!codes) return tl::unexpected(codes.error());
  const auto store = lab_store::open(shared.store);
  if (!store) return tl::unexpected(store.error());
  const auto row = the_test(*store, shared, o.kit_or_test);
  if (!row) return tl::unexpected(row.error());
  const auto log = kept_log(*row, shared);
  if (!log) return tl::unexpected(log.error());
  const report told = report_of(*log, shared.zones, shared.own);
  return fhir::bundle_text(*log, told, *codes, {o.with_name, o.rehearsals});
}

} // namespace

int write_fhir(const shared_options& shared, const fhir_options& o, const console& to) {
  const auto text = bundle_for(shared, o);
  if (!text) return say_no(text.error(), to);
  if (o.out == "-") {
    to.out(*text);
    return 0;
  }
  const auto written = write_outputs({{o.out, *text}}, {shared.store, {}, o.replace});
  if (!written) return say_no(written.error(), to);
  return 0;
}

} // namespace qb::lab
