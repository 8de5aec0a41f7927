// The case of a log: tubes and minutes from its events.
#include "core/case/case.hpp"

#include "core/case/case_parts.hpp"
#include "core/case/case_substrate.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline cases {

test_case::test_case() = default;
test_case::test_case(const test_case&) = default;
test_case::test_case(test_case&&) noexcept = default;
test_case& test_case::operator=(const test_case&) = default;
test_case& test_case::operator=(test_case&&) noexcept = default;
test_case::~test_case() = default;

namespace {

// Elapsed from the grid's anchor to a moment of the drink.
std::optional<duration> since_anchor(const state& s, const std::optional<noted_moment>& m) {
  if (!s.grid || !m) return std::nullopt;
  // A drink before tube 1 is the anchor itself; one a moment before the pressed closing is before.
  if (m->at.wall < s.grid->anchor.wall && !s.grid->from_drink)
    return m->at.wall - s.grid->anchor.wall;
  return between(s.grid->anchor, m->at).length;
}

std::vector<case_tube> tubes_of(const state& s, const report& told, const case_clock& clock) {
  std::vector<case_tube> out;
  for (const report_tube& t : told.tubes) {
    case_tube tube;
    tube.number = t.number.value();
    if (s.grid) tube.due = t.due;
    tube.closed = t.closed;
    if (t.how) tube.how = words_of(*t.how);
    tube.standing = t.standing;
    tube.late = t.late;
    tube.scores = t.scores;
    tube.comment = t.comment;
    const auto& taken = s.of(t.number).taken;
    if (taken && s.grid) tube.minute = exact::minutes_of(taken->since_anchor - clock.offset);
    out.push_back(std::move(tube));
  }
  return out;
}

} // namespace

result<test_case> case_of(const read_log_result& log, const report& told,
                          const received_kit& received, const case_rules& rules,
                          const std::vector<finding>& receiving_findings) {
  const state s = fold_events(log.events);
  if (!s.test || !s.planned)
    return tl::unexpected(refusal{refusal_kind::missing, "", "the log", "no test that was chosen",
                                  "a log with a test, for readings to belong to"});
  test_case c;
  c.kit = told.kit_number;
  c.log = told;
  c.test = *s.test;
  c.place = told.place;
  c.asked = rules.profile.zero;
  c.drink_start = told.drink_start;
  c.drink_end = told.drink_end;
  const bool drink_first = s.grid && s.grid->from_drink;
  const case_clock clock = case_clock_of(c.asked, drink_first, since_anchor(s, s.drink_start),
                                         since_anchor(s, s.drink_end));
  c.zero = clock.zero;
  const auto drink = since_anchor(s, s.drink_start);
  if (drink) c.drink_minute = exact::minutes_of(*drink - clock.offset);
  c.tubes = tubes_of(s, told, clock);
  for (const report_after& t : told.after)
    c.after.push_back(
        {t.what, t.given, exact::minutes_of(t.elapsed - clock.offset), t.scores, t.comment});
  c.zero_at = zero_instant(c, drink_first ? std::nullopt : told.anchor);
  c.as_of = s.last_reading->wall;
  std::vector<finding> found = told.findings;
  if (!received.papers.empty())
    found.push_back({"paper-beside-log",
                     consequence::note,
                     {},
                     {},
                     {},
                     "a paper sheet was entered too; the times are the log's"});
  add_lost_substrate(lost_substrate(s, rules.profile), found);
  finish_case(received, rules, std::move(found), receiving_findings, c);
  return c;
}

std::optional<int> tube_at(const test_case& c, exact minute) {
  const auto found = std::find_if(c.gases.begin(), c.gases.end(),
                                  [&](const curve_sample& s) { return s.minute == minute; });
  return found == c.gases.end() ? std::nullopt : found->number;
}

} // namespace qb::inline cases
