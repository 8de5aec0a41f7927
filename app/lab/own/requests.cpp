// The command `requests`: a list, whole or not at all.
#include "app/lab/context/requests.hpp"
#include "app/lab/intake/inputs.hpp"
#include "app/lab/own/own_commands.hpp"
#include "app/machine/files.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

result<request_columns> read_columns(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto columns = read_request_columns(*text);
  if (!columns) return tl::unexpected(in_file(columns.error(), path));
  return columns;
}

result<std::vector<requested>> read_list(const std::string& text, const std::string& columns) {
  if (columns.empty()) return read_service_requests(text);
  const auto read = read_columns(columns);
  if (!read) return tl::unexpected(read.error());
  return read_request_table(text, *read);
}

} // namespace

int check_request_columns(const std::vector<std::string>& files, const console& to) {
  int status = 0;
  for (const std::string& path : files) {
    const auto read = read_columns(path);
    to.out(read ? path + ": ok\n" : fmt::format("{}: refused: {}\n", path, sentence(read.error())));
    if (!read) status = std::max(status, exit_status(read.error()));
  }
  return status;
}

int take_requests(const shared_options& shared, const lab_context_options& options,
                  const requests_options& o, const console& to) {
  const auto text = o.file == "-" ? read_stream(options.standard_input) : read_file(o.file);
  if (!text) return say_no(text.error(), to);
  const auto list = read_list(*text, o.columns);
  if (!list) return say_no(in_file(list.error(), o.file), to);
  const auto at = lab_context::open(shared, options, true);
  if (!at) return say_no(at.error(), to);
  const auto by = named_person(*at, work_act::take_requests);
  if (!by) return say_no(by.error(), to);
  const auto asker = kit_asker::open(shared.store, options.not_issued);
  if (!asker) return say_no(asker.error(), to);
  const auto before = load_requests(at->laboratory(), "");
  if (!before) return say_no(before.error(), to);
  std::vector<requested_row> rows;
  std::size_t changed = 0;
  for (const requested& one : *list) {
    if (const auto no = asker->ask(one.kit)) return say_no(in_file(*no, o.file), to);
    const auto was = before->find(one.kit);
    if (was != before->end() && is_same(was->second, one)) continue;
    changed += was != before->end() ? 1 : 0;
    rows.push_back(row_of(one, sha256_hex(*text), *by, rfc3339_utc(at->now())));
  }
  auto db = laboratory_store::open(shared.store);
  if (!db) return say_no(db.error(), to);
  if (const auto kept = db->put(rows); !kept) return say_no(kept.error(), to);
  to.out(fmt::format("{} new, {} told anew, {} already there\n", rows.size() - changed, changed,
                     list->size() - rows.size()));
  return 0;
}

} // namespace qb::lab
