// From a kit number's logs, codes and rows to its tests.
#include "app/lab/context/kit_tests.hpp"

#include "app/lab/context/issued_kits.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/context/requests.hpp"
#include "core/receiving/readings.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <set>

namespace qb::lab {

namespace {

// A test that has a log or code here; nothing is known of practice that nobody asked for.
struct recorded_test {
  known_test test;
  known_kit known;
};

result<recorded_test> recorded_of(const lab_context& at, const log_row& row) {
  recorded_test out;
  out.test.id = row.test_id;
  out.test.from = row.by_code ? known_by::code : known_by::log;
  out.test.practice = row.rehearsal;
  out.test.hidden = row.rehearsal && !at.options().rehearsals;
  if (out.test.hidden) return out;
  auto known = at.known_of(row);
  if (!known) return tl::unexpected(known.error());
  out.known = std::move(*known);
  out.test.who = out.known.who;
  if (out.known.told) out.test.day = out.known.told->tested;
  return out;
}

// Each test once; a code only where its log has not come.
result<std::vector<recorded_test>> records_under(const lab_context& at, const std::string& kit) {
  std::vector<recorded_test> out;
  for (const auto& rows : {at.logs().find(which_tests::of_kit_number, kit),
                           at.logs().find_codes(which_tests::of_kit_number, kit)}) {
    if (!rows) return tl::unexpected(rows.error());
    for (const log_row& row : *rows) {
      if (row.by_code) {
        const auto log = at.logs().find(which_tests::of_test_id, row.test_id);
        if (!log) return tl::unexpected(log.error());
        if (!log->empty()) continue;
      }
      auto one = recorded_of(at, row);
      if (!one) return tl::unexpected(one.error());
      out.push_back(std::move(*one));
    }
  }
  return out;
}

template <typename T>
void leave_out(std::vector<T>& list, const std::set<std::string>& tests) {
  const auto is_out = [&](const T& one) { return tests.count(one.mark.test) != 0; };
  list.erase(std::remove_if(list.begin(), list.end(), is_out), list.end());
}

// Rows of a test whose log bears another kit number by now are found there.
result<void> leave_out_moved(const lab_context& at, const std::vector<std::string>& here,
                             kit_rows& rows) {
  std::set<std::string> others;
  const auto note = [&](const auto& list) {
    for (const auto& one : list)
      if (std::find(here.begin(), here.end(), one.mark.test) == here.end())
        others.insert(one.mark.test);
  };
  note(rows.arrivals), note(rows.scans), note(rows.papers), note(rows.readings);
  note(rows.choices), note(rows.overrides), note(rows.conclusions);
  others.erase("");
  std::set<std::string> moved;
  for (const std::string& id : others) {
    for (const auto& found : {at.logs().find(which_tests::of_test_id, id),
                              at.logs().find_codes(which_tests::of_test_id, id)}) {
      if (!found) return tl::unexpected(found.error());
      if (!found->empty()) moved.insert(id);
    }
  }
  if (moved.empty()) return {};
  leave_out(rows.arrivals, moved), leave_out(rows.scans, moved), leave_out(rows.papers, moved);
  leave_out(rows.choices, moved), leave_out(rows.overrides, moved);
  leave_out(rows.conclusions, moved), leave_out(rows.readings, moved);
  return {};
}

known_kit known_by_sheet(const received_kit& rows) {
  known_kit out;
  if (rows.papers.empty()) return out;
  out.told = recorded_tubes_of(rows.papers.back());
  out.who = rows.papers.back().who;
  return out;
}

// What the laboratory itself knows of a kit number: whom it was asked for, and its lot.
struct known_number {
  told_person asked_for;
  kit_supply supply;
};

result<known_number> known_of_number(const lab_context& at, const std::string& kit) {
  auto asked_for = person_asked_for(at.laboratory(), kit);
  if (!asked_for) return tl::unexpected(asked_for.error());
  auto supply = supply_issued(at.laboratory(), kit);
  if (!supply) return tl::unexpected(supply.error());
  return known_number{std::move(*asked_for), std::move(*supply)};
}

kept_kit sorted(kit_rows rows, std::vector<recorded_test> records, const known_number& number) {
  std::vector<known_test> known;
  for (const recorded_test& r : records)
    known.push_back(r.test);
  kit_file file = whose(rows, known);
  kept_kit out;
  out.kit = rows.kit;
  out.stopped = file.stopped;
  out.owners = std::move(file.owners);
  for (test_rows& t : file.tests) {
    out.only_practice = out.only_practice || t.test.hidden;
    if (t.test.hidden) continue;
    const auto r = std::find_if(records.begin(), records.end(),
                                [&](const recorded_test& one) { return one.test.id == t.test.id; });
    known_kit known_now = r == records.end() ? known_by_sheet(t.rows) : std::move(r->known);
    out.tests.push_back({std::move(t.rows), std::move(known_now)});
  }
  if (out.tests.empty()) {
    out.tests.push_back({std::move(file.nobodys), {}});
  } else {
    out.nobodys = std::move(file.nobodys);
  }
  for (kept_test& t : out.tests) {
    t.known.asked_for = number.asked_for;
    t.known.supply = number.supply;
  }
  out.nobodys.kit = rows.kit;
  out.rows = std::move(rows);
  return out;
}

bool has_anything(const received_kit& r) {
  return !r.arrivals.empty() || !r.scanned.empty() || !r.papers.empty() || !r.readings.empty() ||
         !r.choices.empty() || !r.overrides.empty() || !r.conclusions.empty();
}

std::vector<std::string> ids_of(const std::vector<recorded_test>& records) {
  std::vector<std::string> out;
  for (const recorded_test& r : records)
    out.push_back(r.test.id);
  return out;
}

std::string test_words(const kept_test& t) {
  const std::string day =
      t.known.told && t.known.told->tested ? date_text(*t.known.told->tested) : "no day";
  const char* record = t.known.log ? "log" : t.known.code ? "code" : "sheet";
  return fmt::format("{} of {} by {}", t.received.test, day, record);
}

// "boxes 3, 5; readings 10": what a person may name by its number, and how much of the rest.
std::string rows_words(const received_kit& r) {
  const auto numbers = [](const char* name, const auto& list) {
    std::string out;
    for (const auto& one : list)
      out += fmt::format("{}{}", out.empty() ? "" : ", ", one.mark.entry);
    return out.empty() ? fmt::format("no {}", name) : fmt::format("{} {}", name, out);
  };
  return fmt::format(
      "{}; {}; {} reading{}; {}", numbers("box", r.arrivals), numbers("sheet", r.papers),
      r.readings.size(), r.readings.size() == 1 ? "" : "s",
      r.conclusions.empty() ? "not concluded"
                            : fmt::format("concluded, report {}", r.conclusions.back().number));
}

refusal several(const kept_kit& of) {
  std::string tests;
  for (const kept_test& t : of.tests)
    tests += (tests.empty() ? "" : "; ") + test_words(t);
  return {refusal_kind::ambiguous, "", "kit " + of.kit,
          fmt::format("{} tests of that number: {}", of.tests.size(), tests),
          "--test ID, or a test's id in place of the kit number; show " + of.kit +
              " has them side by side"};
}

} // namespace

result<kept_kit> open_kit(const lab_context& at, const std::string& kit) {
  const auto state = at.received().state_of(kit);
  if (!state) return tl::unexpected(state.error());
  auto records = records_under(at, kit);
  if (!records) return tl::unexpected(records.error());
  const std::vector<std::string> ids = ids_of(*records);
  auto rows = load_rows(at.received(), kit, ids);
  if (!rows) return tl::unexpected(rows.error());
  if (const auto left = leave_out_moved(at, ids, *rows); !left) return tl::unexpected(left.error());
  const auto number = known_of_number(at, kit);
  if (!number) return tl::unexpected(number.error());
  kept_kit out = sorted(std::move(*rows), std::move(*records), *number);
  out.seen = {kit, *state};
  return out;
}

namespace {

bool has_box(const kept_kit& of) {
  return std::any_of(of.tests.begin(), of.tests.end(),
                     [](const kept_test& t) { return !t.received.arrivals.empty(); });
}

// The numbers near that one that sent a record and no box.
result<std::vector<std::string>> waiting_beside(const lab_context& at, const std::string& kit) {
  const auto logs = at.logs().list();
  if (!logs) return tl::unexpected(logs.error());
  const auto codes = at.logs().list_codes();
  if (!codes) return tl::unexpected(codes.error());
  std::set<std::string> beside;
  for (const auto* rows : {&*logs, &*codes})
    for (const log_row& r : *rows)
      if (!r.rehearsal && is_one_slip(r.kit_number, kit)) beside.insert(r.kit_number);
  std::vector<std::string> out;
  for (const std::string& one : beside) {
    const auto other = open_kit(at, one);
    if (!other) return tl::unexpected(other.error());
    if (!has_box(*other)) out.push_back(one);
  }
  return out;
}

} // namespace

result<void> ask_of_new_kit(const lab_context& at, const kept_kit& of, const console& to) {
  const bool here = std::any_of(of.tests.begin(), of.tests.end(), [](const kept_test& t) {
    return t.known.told.has_value() || !t.received.arrivals.empty();
  });
  if (here || of.only_practice) return {};
  const bool on_purpose = at.options().not_issued || at.options().rehearsals;
  const auto asker = kit_asker::open(at.shared().store, on_purpose);
  if (!asker) return tl::unexpected(asker.error());
  if (auto no = asker->ask(of.kit)) return tl::unexpected(std::move(*no));
  if (on_purpose || asker->has_register()) return {};
  const auto waiting = waiting_beside(at, of.kit);
  if (!waiting) return tl::unexpected(waiting.error());
  if (const auto told = told_beside(*waiting, of.kit))
    to.err("quarterbreath-lab: note: " + printable(*told) + "\n");
  return {};
}

result<std::optional<std::string>> kit_of_test(const lab_context& at, const std::string& id) {
  for (const auto& rows : {at.logs().find(which_tests::of_test_id, id),
                           at.logs().find_codes(which_tests::of_test_id, id)}) {
    if (!rows) return tl::unexpected(rows.error());
    if (!rows->empty()) return std::optional(rows->front().kit_number);
  }
  // A sheet's own test has no log: only its rows know it.
  const auto papers = at.received().sheets_of(id);
  if (!papers) return tl::unexpected(papers.error());
  return papers->empty() ? std::nullopt : std::optional(papers->front());
}

result<std::size_t> which_test(const lab_context& at, const kept_kit& of, const std::string& id) {
  const std::string& wanted = id.empty() ? at.options().test : id;
  if (wanted.empty() && of.tests.size() > 1) return tl::unexpected(several(of));
  if (wanted.empty()) return std::size_t{0};
  for (std::size_t i = 0; i < of.tests.size(); ++i)
    if (of.tests[i].received.test == wanted || short_test_id(of.tests[i].received.test) == wanted)
      return i;
  return tl::unexpected(refusal{refusal_kind::missing, "", "--test",
                                "no test of that id under kit " + of.kit, several(of).found});
}

result<named_test> find_test(const lab_context& at, const std::string& kit_or_test) {
  const std::string kit = kit_key(kit_or_test);
  auto of = open_kit(at, kit);
  if (!of) return tl::unexpected(of.error());
  const kept_test& first = of->tests.front();
  std::string id;
  if (of->tests.size() == 1 && !first.known.told && !has_anything(first.received)) {
    const auto there = kit_of_test(at, kit_or_test);
    if (!there) return tl::unexpected(there.error());
    if (there->has_value()) {
      of = open_kit(at, **there);
      if (!of) return tl::unexpected(of.error());
      id = kit_or_test;
      if (of->only_practice && of->tests.size() == 1 && of->tests.front().received.test != id)
        return named_test{std::move(*of), 0};
    }
  }
  const auto which = which_test(at, *of, id);
  if (!which) return tl::unexpected(which.error());
  return named_test{std::move(*of), *which};
}

result<reasoned_deed> begin_deed(const shared_options& shared, const lab_context_options& o,
                                 work_act act, const std::string& kit, const std::string& reason) {
  auto by = named_person(shared, o, act);
  if (!by) return tl::unexpected(by.error());
  if (const auto why = reason_given(reason); !why) return tl::unexpected(why.error());
  auto at = lab_context::open(shared, o, false);
  if (!at) return tl::unexpected(at.error());
  auto test = find_test(*at, kit);
  if (!test) return tl::unexpected(test.error());
  return reasoned_deed{std::move(*by), std::move(*at), std::move(*test)};
}

namespace {

// Every kit number there is, and where each test stands now.
result<std::map<std::string, std::string>> kits_of_tests(const lab_context& at) {
  std::map<std::string, std::string> out;
  for (const auto& rows : {at.logs().list_codes(), at.logs().list()}) {
    if (!rows) return tl::unexpected(rows.error());
    for (const log_row& row : *rows)
      out[row.test_id] = row.kit_number; // a log's number goes before its code's
  }
  return out;
}

} // namespace

result<std::vector<damaged_kit>>
every_test(const lab_context& at,
           const std::function<result<void>(const kept_kit&, const kept_test&)>& each) {
  const auto numbers = kits_of_tests(at);
  if (!numbers) return tl::unexpected(numbers.error());
  auto all = load_all_rows(at.received(), *numbers);
  if (!all) return tl::unexpected(all.error());
  std::set<std::string> kits;
  for (const auto& [test, kit] : *numbers)
    kits.insert(kit);
  for (const auto& [kit, rows] : *all)
    kits.insert(kit);
  std::vector<damaged_kit> damaged;
  for (const std::string& kit : kits) {
    auto records = records_under(at, kit);
    const auto rows = all->find(kit);
    const auto number = known_of_number(at, kit);
    if (!records || !number || (rows != all->end() && !rows->second)) {
      damaged.push_back({kit, !records  ? records.error()
                              : !number ? number.error()
                                        : rows->second.error()});
      continue;
    }
    kit_rows none;
    none.kit = kit;
    const kept_kit one = sorted(rows == all->end() ? std::move(none) : std::move(*rows->second),
                                std::move(*records), *number);
    for (const kept_test& t : one.tests) {
      if (!t.known.told && !has_anything(t.received)) continue;
      const auto done = each(one, t);
      if (!done && done.error().kind == refusal_kind::machine) {
        damaged.push_back({kit, done.error()});
      } else if (!done) {
        return tl::unexpected(done.error());
      }
    }
  }
  return damaged;
}

std::string came_since_look(const lab_context& at, const kept_kit& before, const refusal& no) {
  if (no.where != more_came) return {};
  const auto now = open_kit(at, before.kit);
  if (!now) return "  " + printable(sentence(now.error())) + "\n";
  std::string out = fmt::format("  kit {} is not as it was when it was looked at:\n", before.kit);
  for (const std::string& one : came_between(before.rows, now->rows))
    out += "    " + printable(one) + "\n";
  for (const kept_test& t : now->tests) {
    const bool known = std::any_of(before.tests.begin(), before.tests.end(), [&](const auto& b) {
      return b.received.test == t.received.test;
    });
    if (!known) out += "    a test came: " + test_words(t) + "\n";
  }
  return out + "  nothing was changed; say it again if it holds still\n";
}

std::string side_by_side(const kept_kit& of) {
  std::string out = fmt::format("{}: {} tests\n", of.kit, of.tests.size());
  for (const std::string& why : of.stopped)
    out += fmt::format("  ! STOPPED: {}\n", why);
  for (const kept_test& t : of.tests)
    out += fmt::format("  {}  {}{}\n    {}\n", test_words(t), printable(person_words(t.known.who)),
                       t.known.rehearsal ? "  PRACTICE - not a test" : "", rows_words(t.received));
  if (has_anything(of.nobodys))
    out += fmt::format("  nobody's\n    {}\n  to say whose: quarterbreath-lab assign {} --test ID "
                       "--by NAME --reason WHY\n",
                       rows_words(of.nobodys), of.kit);
  return out;
}

} // namespace qb::lab
