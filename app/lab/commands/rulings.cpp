// The commands `assign` and `take-back`: a named person's word on what was entered.
#include "app/lab/commands/day.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "core/receiving/readings.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal no_ruling(const char* where, std::string found, std::string expected) {
  return {refusal_kind::missing, "", where, std::move(found), std::move(expected)};
}

// A ruling with what all of one command have in common.
ruling begun(const lab_context& at, const kept_kit& of, const std::string& by,
             const std::string& reason) {
  ruling out;
  out.kit = of.kit;
  out.by = by;
  out.reason = reason;
  out.at = at.now();
  for (const kept_test& t : of.tests)
    if (!t.received.test.empty()) out.known.push_back(t.received.test);
  return out;
}

result<std::int64_t> keep(lab_context& at, const std::vector<ruling>& all,
                          const std::vector<seen_kit>& seen) {
  std::vector<ruling_row> rows;
  for (const ruling& r : all)
    rows.push_back(row_of(r));
  return at.received().put(rows, seen);
}

const owned_row* row_in(const kept_kit& of, ruled what, std::int64_t entry) {
  for (const owned_row& row : of.owners)
    if (row.what == what && row.entry == entry) return &row;
  return nullptr;
}

// What changes hands: the rows that are named, or all that is nobody's.
result<std::vector<owned_row>> rows_to_assign(const kept_kit& of, const assign_options& o) {
  std::vector<owned_row> out;
  for (const auto& [what, entry] : {std::pair(ruled::box, o.box), std::pair(ruled::sheet, o.sheet),
                                    std::pair(ruled::reading, o.reading)}) {
    if (entry == 0) continue;
    const owned_row* row = row_in(of, what, entry);
    if (row == nullptr || row->away)
      return tl::unexpected(no_ruling(ruled_text(what),
                                      fmt::format("no {} {}", ruled_text(what), entry),
                                      "a number that `show KIT` names"));
    out.push_back(*row);
  }
  if (!out.empty()) return out;
  for (const owned_row& row : of.owners)
    if (row.test.empty() && !row.away) out.push_back(row);
  return out;
}

} // namespace

int assign_rows(const shared_options& shared, const lab_context_options& o,
                const assign_options& options, const console& to) {
  auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto of = open_kit(*at, kit_key(options.kit));
  if (!of) return say_no(of.error(), to);
  if (o.test.empty()) {
    to.out(side_by_side(*of));
    return 0;
  }
  const auto by = named_person(shared, o, work_act::settle);
  if (!by) return say_no(by.error(), to);
  if (const auto why = reason_given(options.reason); !why) return say_no(why.error(), to);
  if (of->tests.front().received.test.empty())
    return say_no(
        no_ruling("KIT", "no test of that kit number", "a kit whose log or sheet is here"), to);
  const auto which = which_test(*at, *of, {});
  if (!which) return say_no(which.error(), to);
  const std::string& test = of->tests[*which].received.test;
  const auto rows = rows_to_assign(*of, options);
  if (!rows) return say_no(rows.error(), to);
  const ruling base = begun(*at, *of, *by, options.reason);
  std::vector<ruling> all{base};
  all.back().test = test;
  for (const owned_row& row : *rows) {
    all.push_back(base);
    all.back().what = row.what;
    all.back().of = row.entry;
    all.back().test = test;
  }
  if (const auto kept = keep(*at, all, {of->seen}); !kept) {
    to.out(came_since_look(*at, *of, kept.error()));
    return say_no(kept.error(), to);
  }
  const auto now = open_kit(*at, of->kit);
  if (!now) return say_no(now.error(), to);
  to.out(fmt::format("{} row{} of {} now of {}, by {}\n", rows->size(),
                     rows->size() == 1 ? " is" : "s are", of->kit, printable(test), *by));
  to.out(side_by_side(*now));
  return 0;
}

namespace {

bool is_of_tube(ruled what) {
  return what == ruled::lid || what == ruled::absence || what == ruled::extra ||
         what == ruled::label;
}

// The box of the test that has its tubes, where one of that number was told so.
std::optional<std::int64_t> box_telling(const received_kit& received, ruled what, int tube) {
  for (const received_tube& t : received.tubes) {
    if (t.sample != tube) continue;
    const bool told = (what == ruled::lid && t.lid == lid_state::bad) ||
                      (what == ruled::absence && !t.present) || what == ruled::extra ||
                      (what == ruled::label && t.label);
    if (told) return t.box;
  }
  return std::nullopt;
}

// Where a reading goes; it is put down in `r`, and what was seen there is answered.
result<std::optional<seen_kit>> target_of(const lab_context& at, const named_test& from,
                                          const take_back_options& o, ruling& r) {
  if (o.to_kit.empty() && o.to_tube == 0) return std::optional<seen_kit>();
  if (r.what != ruled::reading)
    return tl::unexpected(no_ruling("--to", "what is no reading", "a reading, to be moved"));
  const auto there = o.to_kit.empty() ? result<named_test>(from) : find_test(at, o.to_kit);
  if (!there) return tl::unexpected(there.error());
  const kept_test& test = there->test();
  if (!test.known.told && test.received.arrivals.empty())
    return tl::unexpected(no_ruling("--to", "a kit that is not here", "one that is"));
  r.says = row_word::moved;
  r.to_kit = there->of.kit;
  r.test = test.received.test;
  for (const gas_reading& one : from.test().received.readings)
    if (one.mark.entry == r.of) r.to_tube = one.sample;
  if (o.to_tube != 0) r.to_tube = o.to_tube;
  const std::size_t most = test.known.told ? test.known.told->labels.size() : most_tube_number;
  if (r.to_tube < 1 || r.to_tube > static_cast<int>(most))
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "--to-tube",
                                  fmt::format("{}", r.to_tube), fmt::format("1 to {}", most)});
  return std::optional(there->of.seen);
}

// What is taken back, of the test that is named.
result<ruling> ruling_of(const lab_context& at, const named_test& test, const std::string& by,
                         const take_back_options& o) {
  const auto what = read_ruled(o.what);
  if (!what || *what == ruled::kit || *what == ruled::set_aside || *what == ruled::conclusion)
    return tl::unexpected(no_ruling("WHAT", "\"" + o.what + "\"",
                                    "lid, absence, extra, label, reading, choice, sheet, scan or "
                                    "box"));
  ruling out = begun(at, test.of, by, o.reason);
  out.what = *what;
  out.test = test.test().received.test;
  out.says = o.stands ? row_word::stands : row_word::taken_back;
  if (is_of_tube(*what)) {
    out.tube = static_cast<int>(o.number);
    auto box = box_telling(test.test().received, *what, out.tube);
    if (o.stands && !box && !test.test().received.tubes.empty())
      box = test.test().received.tubes.front().box;
    if (!box)
      return tl::unexpected(no_ruling("NUMBER", fmt::format("no {} of tube {}", o.what, o.number),
                                      "a tube of which that was told"));
    out.of = *box;
    return out;
  }
  const owned_row* row = row_in(test.of, *what, o.number);
  if (row == nullptr || (row->test != out.test && row->entered_for != out.test))
    return tl::unexpected(no_ruling("NUMBER",
                                    fmt::format("no {} {} of this test", o.what, o.number),
                                    "a number that `show` or `readings` names"));
  out.of = row->entry;
  return out;
}

} // namespace

int take_back(const shared_options& shared, const lab_context_options& o,
              const take_back_options& options, const console& to) {
  auto deed = begin_deed(shared, o, work_act::settle, options.kit, options.reason);
  if (!deed) return say_no(deed.error(), to);
  auto& [by, at, test] = *deed;
  auto r = ruling_of(at, test, by, options);
  if (!r) return say_no(r.error(), to);
  const auto target = target_of(at, test, options, *r);
  if (!target) return say_no(target.error(), to);
  std::vector<seen_kit> seen{test.of.seen};
  if (*target) seen.push_back(**target);
  if (const auto kept = keep(at, {*r}, seen); !kept) {
    to.out(came_since_look(at, test.of, kept.error()));
    return say_no(kept.error(), to);
  }
  const std::string where =
      r->says == row_word::moved ? fmt::format(" to {} tube {}", r->to_kit, r->to_tube) : "";
  to.out(fmt::format("{} {} {} {}{} by {}; it stays in the store\n", test.of.kit, options.what,
                     options.number, row_word_text(r->says), where, by));
  return 0;
}

} // namespace qb::lab
