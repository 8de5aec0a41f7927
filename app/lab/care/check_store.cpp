// The commands `check` and `backup`.
#include "app/store/store_check.hpp"

#include "app/lab/care/care.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/intake/evidence.hpp"
#include "app/lab/intake/read_code.hpp"
#include "app/lab/intake/versions.hpp"
#include "app/machine/files.hpp"
#include "core/report/same_test.hpp"

#include <fmt/core.h>
#include <set>

namespace qb::lab {

namespace {

// One thing that is not as it should be.
struct fault {
  std::string what; // "damage", "foreign", "orphan", "log", "signature", "code", "receiving"
  std::string kit;
  std::string words;
};

struct checked_store {
  std::int64_t tests{0};
  std::int64_t versions{0};
  std::int64_t kits{0};
  std::vector<std::string> notes;
  std::vector<fault> amiss;
};

class checker {
public:
  explicit checker(const shared_options& shared) : shared_(shared) {}

  result<checked_store> run() {
    const auto state = state_of_store(shared_.store);
    if (!state) return tl::unexpected(state.error());
    for (const std::string& line : state->damage)
      say("damage", "", line);
    for (const std::string& name : state->foreign)
      say("foreign", "", "a " + name + " that this program did not make");
    for (const orphan_rows& o : state->orphans)
      say("orphan", o.of,
          fmt::format("{} row{} of {} whose test or kit is nowhere else", o.rows,
                      o.rows == 1 ? "" : "s", o.table));
    who_may_read();
    const auto store = lab_store::open(shared_.store);
    if (store) {
      logs(*store);
      codes(*store);
      receiving();
    } else if (state->foreign.empty()) { // else it is refused for what was named
      say("damage", "", sentence(store.error()));
    }
    return std::move(out_);
  }

private:
  void say(const char* what, const std::string& kit, std::string words) {
    out_.amiss.push_back({what, kit, std::move(words)});
  }

  void who_may_read() {
    if (is_open_to_others(shared_.store))
      out_.notes.emplace_back("others than its owner may read the store (chmod 600 closes it)");
  }

  void logs(const lab_store& store) {
    const auto rows = store.list();
    if (!rows) return say("damage", "", sentence(rows.error()));
    for (const log_row& row : *rows) {
      ++out_.tests;
      kits_.insert(row.kit_number);
      const auto versions = store.versions_of(row.test_id);
      if (!versions) {
        say("damage", row.kit_number, sentence(versions.error()));
        continue;
      }
      bool good = true;
      for (const log_row& v : *versions)
        good = one_log(v) && good;
      if (good) signatures(store, row);
    }
  }

  bool one_log(const log_row& row) {
    ++out_.versions;
    const auto log = read_log(row.body);
    if (!log) {
      say("log", row.kit_number, "a log that cannot be read: " + sentence(log.error()));
      return false;
    }
    if (!log->mismatches.empty())
      say("log", row.kit_number,
          fmt::format("the log of {} events does not match its own record", row.events));
    const bool same = test_id_of(*log) == row.test_id && log->head == row.head &&
                      static_cast<std::int64_t>(log->events.size()) == row.events;
    if (!same) say("log", row.kit_number, "the row beside a log says other than the log");
    return true;
  }

  void signatures(const lab_store& store, const log_row& row) {
    const auto all = load_versions(store, row.test_id);
    if (!all) return say("log", row.kit_number, sentence(all.error()));
    const provenance told = provenance_of(all->all, all->choices);
    out_.versions += static_cast<std::int64_t>(all->all.size() - all->counted);
    if (told.counts >= all->counted)
      say("log", row.kit_number, "another version counts than the rules say: import it again");
    for (const finding& f : told.findings)
      if (f.weight != consequence::note) say("signature", row.kit_number, f.words);
  }

  void codes(const lab_store& store) {
    const auto rows = store.list_codes();
    if (!rows) return say("damage", "", sentence(rows.error()));
    for (const log_row& row : *rows) {
      kits_.insert(row.kit_number);
      const auto found = store.find_codes(which_tests::of_test_id, row.test_id);
      if (!found || found->empty() || !kept_code(found->front()))
        say("code", row.kit_number, "a code that cannot be read");
    }
  }

  void receiving() {
    const auto store = receiving_store::open(shared_.store);
    if (!store) return say("damage", "", sentence(store.error()));
    const auto all = store->find("");
    if (!all) return say("damage", "", sentence(all.error()));
    const auto add = [&](const auto& rows) {
      for (const auto& row : rows)
        kits_.insert(row.kit);
    };
    add(all->arrivals);
    add(all->tubes);
    add(all->papers);
    add(all->readings);
    for (const std::string& kit : kits_)
      if (const auto one = load_rows(*store, kit, {}); !one)
        say("receiving", kit, sentence(one.error()));
    out_.kits = static_cast<std::int64_t>(kits_.size());
  }

  const shared_options& shared_;
  std::set<std::string> kits_;
  checked_store out_;
};

// Damage is the machine's fault; the rest is a refusal.
int status_of(const checked_store& c) {
  int status = 0;
  for (const fault& f : c.amiss) {
    const bool machine = f.what == "damage" || f.what == "receiving" || f.what == "code";
    status = status == 1 || machine ? 1 : 2;
  }
  return status;
}

json::value check_json(const std::string& path, const checked_store& c) {
  json::array amiss;
  for (const fault& f : c.amiss)
    amiss.push_back(
        json::object{{"what", f.what}, {"kit", json::text_or_null(f.kit)}, {"words", f.words}});
  return json::object{{"store", path},
                      {"tests", c.tests},
                      {"versions", c.versions},
                      {"kits", c.kits},
                      {"notes", json::list_of(c.notes)},
                      {"amiss", std::move(amiss)}};
}

int tell(const shared_options& shared, const checked_store& c, const console& to) {
  if (shared.format == output_format::json) {
    to.out(json::pretty(check_json(shared.store, c)));
    return status_of(c);
  }
  std::string text =
      fmt::format("{}: {} test{} by log, {} version{}, {} kit{}\n", printable(shared.store),
                  c.tests, c.tests == 1 ? "" : "s", c.versions, c.versions == 1 ? "" : "s", c.kits,
                  c.kits == 1 ? "" : "s");
  for (const std::string& note : c.notes)
    text += "note: " + note + "\n";
  for (const fault& f : c.amiss)
    text += fmt::format("! {}{}: {}\n", f.what, f.kit.empty() ? "" : " " + printable(f.kit),
                        printable(f.words));
  to.out(text + (c.amiss.empty() ? "nothing amiss\n"
                                 : fmt::format("{} thing{} amiss\n", c.amiss.size(),
                                               c.amiss.size() == 1 ? "" : "s")));
  return status_of(c);
}

} // namespace

int check_store(const shared_options& shared, const console& to) {
  const auto checked = checker(shared).run();
  return checked ? tell(shared, *checked, to) : say_no(checked.error(), to);
}

int back_up(const shared_options& shared, const std::string& file, const console& to) {
  const auto store = lab_store::open(shared.store);
  if (!store) return say_no(store.error(), to);
  if (const auto copied = store->copy_to(file); !copied) return say_no(copied.error(), to);
  shared_options copy = shared;
  copy.store = file;
  return check_store(copy, to);
}

} // namespace qb::lab
