// SQL for each question. A damaged page ends one question, and the next is asked all the same.
#include "app/store/store_check.hpp"

#include "app/store/database.hpp"
#include "app/store/lab_store.hpp"
#include "app/store/rule_copies.hpp"
#include "app/store/statement.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>
#include <iterator>

namespace qb::inline store {

namespace {

constexpr store::file_rules rules{store::access::read,
                                  lab_patience,
                                  "",
                                  "a laboratory's store",
                                  "another command that holds the store",
                                  "one command at a time",
                                  "a disk that can be read"};

// What hangs on a test, and what on a kit.
constexpr std::array of_tests{"signature", "log_signature", "log_aside", "log_choice",
                              "log_packed"};
constexpr std::array of_kits{"bench_tube",       "bench_choice", "bench_override",
                             "bench_conclusion", "bench_issued", "bench_signature"};
// Where a kit can be known from.
constexpr std::array<std::pair<const char*, const char*>, 6> known_kits{{{"log", "kit_number"},
                                                                         {"code", "kit_number"},
                                                                         {"bench_arrival", "kit"},
                                                                         {"bench_scan", "kit"},
                                                                         {"bench_paper", "kit"},
                                                                         {"bench_reading", "kit"}}};

class looking {
public:
  explicit looking(store::database db) : db_(std::move(db)) {}

  store_state run() {
    each("PRAGMA integrity_check", [&](const statement& s) {
      if (s.text(0) != "ok") out_.damage.push_back(s.text(0));
    });
    each("SELECT type, name FROM sqlite_schema WHERE type <> 'index' ORDER BY type, name",
         [&](const statement& s) { schema(s.text(0), s.text(1)); });
    if (has("log_packed"))
      for (std::string& line : store::damaged_rules(db_))
        out_.damage.push_back(std::move(line));
    if (has("log"))
      for (const char* table : of_tests)
        if (has(table)) orphans(table, "test_id", "SELECT test_id FROM log");
    const std::string known = all_kits();
    for (const char* table : of_kits)
      if (!known.empty() && has(table)) orphans(table, "kit", known);
    return std::move(out_);
  }

private:
  template <typename F>
  void each(const std::string& sql, F take) {
    statement ask = db_.prepare(sql);
    if (!ask.each_row([&] { take(ask); })) out_.damage.push_back(db_.failed("reading").found);
  }

  void schema(const std::string& type, const std::string& name) {
    const auto& ours = tables_of_ours;
    const bool own =
        type == "table" && std::find(std::begin(ours), std::end(ours), name) != std::end(ours);
    if (own)
      tables_.push_back(name);
    else
      out_.foreign.push_back(type + " " + name);
  }

  [[nodiscard]] bool has(const std::string& table) const {
    return std::find(tables_.begin(), tables_.end(), table) != tables_.end();
  }

  [[nodiscard]] std::string all_kits() const {
    std::string out;
    for (const auto& [table, column] : known_kits)
      if (has(table))
        out += fmt::format("{}SELECT {} FROM {}", out.empty() ? "" : " UNION ", column, table);
    return out;
  }

  void orphans(const char* table, const char* column, const std::string& known) {
    each(fmt::format("SELECT {0}, count(*) FROM {1} WHERE {0} NOT IN ({2}) GROUP BY {0}", column,
                     table, known),
         [&](const statement& s) {
           out_.orphans.push_back({table, s.text(0), s.integer(1)});
         });
  }

  store::database db_;
  std::vector<std::string> tables_;
  store_state out_;
};

} // namespace

result<store_state> state_of_store(const std::string& path) {
  auto db = store::database::open(path, rules);
  if (!db) return tl::unexpected(db.error());
  if (auto no = no_to_lab_format(*db)) return tl::unexpected(*no);
  return looking(std::move(*db)).run();
}

} // namespace qb::inline store
