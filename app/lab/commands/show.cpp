// The commands that only read: list and show.
#include "app/lab/commands/commands.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/context/signed_conclusion.hpp"
#include "app/lab/intake/read_code.hpp"
#include "app/lab/intake/versions.hpp"
#include "app/lab/render/show_code.hpp"
#include "app/lab/render/show_json.hpp"
#include "app/lab/render/show_text.hpp"
#include "app/store/lab_store.hpp"
#include "core/receiving/readings.hpp"
#include "core/receiving/whose.hpp"

#include <algorithm>
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
struct kept_log {
  read_log_result log;
  report told;
};
result<kept_log> kept_report(const log_row& row, const shared_options& shared) {
  auto log = read_log(row.body);
  if (log) {
    report told = report_of(*log, shared.zones, shared.own);
    return kept_log{std::move(*log), std::move(told)};
  }
  return tl::unexpected(refusal{refusal_kind::machine, shared.store, "a kept log",
                                "a damaged text (" + sentence(log.error()) + ")",
                                "the log as it was taken in"});
}

// Results that came by code whose log has not come, or only an older one.
std::vector<log_row> still_by_code(const std::vector<log_row>& codes,
                                   const std::vector<log_row>& logs) {
  std::vector<log_row> out;
  for (const log_row& code : codes) {
    const bool told = std::any_of(logs.begin(), logs.end(), [&](const log_row& log) {
      return log.test_id == code.test_id && log.events >= code.events;
    });
    if (!told) out.push_back(code);
  }
  return out;
}

// Logs and codes of one question.
struct found_tests {
  std::vector<log_row> logs;
  std::vector<log_row> codes;
};

result<found_tests> find_tests(const lab_store& store, which_tests which, const std::string& id) {
  auto logs = store.find(which, id);
  if (!logs) return tl::unexpected(logs.error());
  auto codes = store.find_codes(which, id);
  if (!codes) return tl::unexpected(codes.error());
  std::vector<log_row> open = still_by_code(*codes, *logs);
  return found_tests{std::move(*logs), std::move(open)};
}

// That several tests bear the number, before each is shown.
std::string several_line(const std::string& kit, const found_tests& found) {
  std::string ids;
  int count = 0;
  for (const auto* rows : {&found.logs, &found.codes}) {
    for (const log_row& row : *rows) {
      const bool log_too =
          row.by_code && std::any_of(found.logs.begin(), found.logs.end(), [&](const log_row& log) {
            return log.test_id == row.test_id;
          });
      if (row.rehearsal || log_too) continue;
      ids += (ids.empty() ? "" : ", ") + printable(row.test_id);
      ++count;
    }
  }
  if (count < 2) return {};
  return fmt::format("{} tests bear the kit number {}: {}. Whose its box and readings are:\n"
                     "quarterbreath-lab assign {}\n\n",
                     count, printable(kit), ids, printable(kit));
}

// A log or code as a test that rows may be of.
result<known_test> known_of(const log_row& row, const shared_options& shared) {
  known_test out;
  out.id = row.test_id;
  out.practice = row.rehearsal;
  out.from = row.by_code ? known_by::code : known_by::log;
  if (row.by_code) return out;
  const auto r = kept_report(row, shared);
  if (!r) return tl::unexpected(r.error());
  out.who.name = r->told.name;
  out.who.birth_date = r->told.birth_date;
  out.day = recorded_tubes_of(r->told).tested;
  return out;
}

bool is_in(const found_tests& found, const std::string& id) {
  const auto same = [&](const log_row& row) { return row.test_id == id; };
  return std::any_of(found.logs.begin(), found.logs.end(), same) ||
         std::any_of(found.codes.begin(), found.codes.end(), same);
}

// What was concluded last of each of them, by whom and how it is signed.
result<std::string> concluded_lines(const shared_options& shared, const lab_store& store,
                                    const found_tests& shown) {
  const log_row& one = shown.logs.empty() ? shown.codes.front() : shown.logs.front();
  const auto all = find_tests(store, which_tests::of_kit_number, one.kit_number);
  if (!all) return tl::unexpected(all.error());
  std::vector<known_test> known;
  std::vector<std::string> ids;
  for (const auto* rows : {&all->logs, &all->codes})
    for (const log_row& row : *rows) {
      if (std::find(ids.begin(), ids.end(), row.test_id) != ids.end()) continue;
      auto test = known_of(row, shared);
      if (!test) return tl::unexpected(test.error());
      known.push_back(std::move(*test));
      ids.push_back(row.test_id);
    }
  const auto received = receiving_store::open(shared.store);
  if (!received) return tl::unexpected(received.error());
  const auto rows = load_rows(*received, one.kit_number, ids);
  if (!rows) return tl::unexpected(rows.error());
  const auto own = load_own_laboratory(shared.store);
  if (!own) return tl::unexpected(own.error());
  std::string out;
  for (const test_rows& t : whose(*rows, known).tests) {
    if (t.rows.conclusions.empty() || !is_in(shown, t.test.id)) continue;
    const auto line = concluded_line(*received, *own, t.rows.conclusions.back());
    if (!line) return line;
    out += (known.size() > 1 ? printable(t.test.id) + ": " : "") + *line;
  }
  return out;
}

} // namespace

int list_tests(const shared_options& shared, const console& to) {
  const auto store = open_for_reading(shared);
  if (!store) return say_no(store.error(), to);
  auto rows = store->list();
  if (!rows) return say_no(rows.error(), to);
  const auto all_codes = store->list_codes();
  if (!all_codes) return say_no(all_codes.error(), to);
  const std::vector<log_row> by_code = still_by_code(*all_codes, *rows);
  if (shared.format == output_format::text) {
    rows->insert(rows->end(), by_code.begin(), by_code.end());
    to.out(list_text(*rows));
    return 0;
  }
  json::array tests;
  for (const log_row& row : *rows)
    tests.push_back(list_json(row));
  json::array codes;
  for (const log_row& row : by_code)
    codes.push_back(list_json(row));
  to.out(json::pretty(json::object{{"tests", std::move(tests)}, {"codes", std::move(codes)}}));
  return 0;
}

int show_tests(const shared_options& shared, const std::string& kit_or_test, const console& to) {
  const auto store = open_for_reading(shared);
  if (!store) return say_no(store.error(), to);
  auto found = find_tests(*store, which_tests::of_kit_number, kit_key(kit_or_test));
  if (found && found->logs.empty() && found->codes.empty())
    found = find_tests(*store, which_tests::of_test_id, kit_or_test);
  if (!found) return say_no(found.error(), to);
  if (found->logs.empty() && found->codes.empty())
    return say_no({refusal_kind::missing, shared.store, "", "no test of that kit number or id",
                   "one that list shows; a kit on paper alone is shown by report and judge"},
                  to);
  json::array tests;
  json::array codes;
  std::string text = several_line(kit_or_test, *found);
  for (const log_row& row : found->logs) {
    auto r = kept_report(row, shared);
    if (!r) return say_no(r.error(), to);
    const auto from = provenance_in(*store, row.test_id, &r->log);
    if (!from) return say_no(in_file(from.error(), shared.store), to);
    r->told.findings.insert(r->told.findings.end(), from->findings.begin(), from->findings.end());
    const signature_evidence& evidence = from->signature();
    const auto beside = code_beside_of(*store, row.test_id, r->log);
    if (!beside) return say_no(in_file(beside.error(), shared.store), to);
    if (shared.format == output_format::json)
      tests.push_back(show_json(r->told, evidence, *beside));
    if (shared.format == output_format::text)
      text += (text.empty() ? "" : "\n") + show_text(r->told, evidence, *beside);
  }
  for (const log_row& row : found->codes) {
    const auto r = kept_code(row);
    if (!r) return say_no(in_file(r.error(), shared.store), to);
    const auto seal = seal_evidence_of(*store, *r);
    if (!seal) return say_no(in_file(seal.error(), shared.store), to);
    codes.push_back(show_code_json(*r, *seal));
    text += (text.empty() ? "" : "\n") + show_code_text(*r, *seal);
  }
  const auto concluded = concluded_lines(shared, *store, *found);
  if (!concluded) return say_no(concluded.error(), to);
  text += *concluded;
  to.out(shared.format == output_format::json
             ? json::pretty(json::object{{"tests", tests}, {"codes", codes}})
             : text);
  return 0;
}

} // namespace qb::lab
