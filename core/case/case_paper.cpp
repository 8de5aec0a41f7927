// The case of a paper sheet: times a hand wrote, to the minute, on the clock on the wall.
#include "core/case/case.hpp"
#include "core/case/case_parts.hpp"
#include "core/case/case_substrate.hpp"
#include "core/receiving/paper.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline cases {

namespace {

// A sheet's times on one line of minutes, from the midnight before its first.
struct sheet_times {
  std::vector<std::optional<duration>> tubes;
  std::optional<duration> start;
  std::optional<duration> end;
};

sheet_times times_of(const paper_record& sheet) {
  sheet_times out;
  for (const auto& m : paper_clock(sheet))
    out.tubes.push_back(m ? std::optional<duration>(*m) : std::nullopt);
  const auto first = std::find_if(sheet.times.begin(), sheet.times.end(),
                                  [](const auto& m) { return m.has_value(); });
  // A time of the drink half a day before the first tube is one after midnight.
  const auto placed = [&](const std::optional<day_minute>& m) -> std::optional<duration> {
    if (!m) return std::nullopt;
    constexpr std::chrono::days day{1};
    const bool next = sheet.past_midnight && first != sheet.times.end() && **first - *m > day / 2;
    return duration{*m} + (next ? duration{day} : duration{0});
  };
  out.start = placed(sheet.drink.start);
  out.end = placed(sheet.drink.end);
  return out;
}

std::string in_minutes(duration d) {
  return length_in_words(std::chrono::floor<std::chrono::minutes>(d < duration{0} ? -d : d));
}

// A tube of a sheet against the profile's bounds; a time to the minute may be off by one.
tube_standing standing_of(duration late, const sample_bounds& bounds) {
  if (late + paper_precision < -duration{bounds.early}) return tube_standing::early;
  return late <= duration{bounds.on_time} ? tube_standing::on_time : tube_standing::late;
}

void sheet_tube_finding(const case_tube& t, std::vector<finding>& out) {
  if (!sample_number::in_range(t.number)) return;
  const sample_number n(t.number);
  if (t.standing == tube_standing::missed)
    out.push_back({"sample-missed",
                   consequence::review,
                   n,
                   {},
                   {t.number},
                   fmt::format("no time on the sheet for tube {}", t.number)});
  if (t.standing == tube_standing::late || t.standing == tube_standing::early)
    out.push_back({t.standing == tube_standing::late ? "sample-late" : "sample-early",
                   consequence::review,
                   n,
                   {},
                   {t.number},
                   fmt::format("tube {} closed {} {} its time, by the sheet", t.number,
                               in_minutes(*t.late), *t.late > duration{0} ? "after" : "before")});
}

void sheet_order_findings(const std::vector<case_tube>& tubes, std::vector<finding>& out) {
  const case_tube* latest = nullptr;
  for (const case_tube& t : tubes) {
    if (!t.closed) continue;
    if (latest != nullptr && *t.closed < *latest->closed && sample_number::in_range(t.number))
      out.push_back(
          {"sample-out-of-order",
           consequence::review,
           sample_number(t.number),
           {},
           {latest->number, t.number},
           fmt::format("tube {} closed before tube {}, by the sheet", t.number, latest->number)});
    else
      latest = &t;
  }
}

void sheet_drink_findings(const sheet_times& at, const case_clock& clock, const lab_profile& p,
                          std::vector<finding>& out) {
  const auto say = [&](const char* rule, consequence weight, std::string words) {
    out.push_back({rule, weight, {}, {}, {}, std::move(words) + ", by the sheet"});
  };
  if (!at.start) return say("drink-missing", consequence::review, "no start of the drink");
  if (clock.drink_first)
    say("drink-first", consequence::review, "the drink was begun before tube 1");
  else if (!at.tubes.empty() && at.tubes.front() &&
           *at.start - *at.tubes.front() > p.drink.after_tube_1 + paper_precision)
    say("drink-late", consequence::review,
        "drink started " + in_minutes(*at.start - *at.tubes.front()) + " after tube 1");
  if (!at.end) return say("drink-end-missing", consequence::note, "no end of the drink");
  if (*at.end - *at.start > p.drink.drink_within + paper_precision)
    say("drink-slow", consequence::note, "drinking took " + in_minutes(*at.end - *at.start));
}

bool any_given(const paper_after& row) {
  return std::any_of(row.scores.begin(), row.scores.end(), [](const auto& s) { return s; });
}

// Rows A and B, where the test has them and nothing of them was entered.
void sheet_after_findings(const test_case& c, std::vector<finding>& out) {
  for (const score_time t : both_score_times) {
    const auto& rows = c.paper->after;
    const bool given = std::any_of(rows.begin(), rows.end(), [&](const paper_after& row) {
      return row.what == t && any_given(row);
    });
    if (given || !are_asked(c.test, t)) continue;
    out.push_back({"scores-after-missing",
                   consequence::note,
                   {},
                   {},
                   {},
                   fmt::format("no symptoms scored {}, by the sheet", words_of(t))});
  }
}

// Where any score was entered, which tubes lack some; else that none was.
void sheet_score_findings(const test_case& c, std::vector<finding>& out) {
  if (c.paper->scores.empty()) {
    out.push_back({"symptoms-missing",
                   consequence::note,
                   {},
                   {},
                   {},
                   "no scores were entered from the sheet"});
    return;
  }
  for (const case_tube& t : c.tubes) {
    const bool all = std::all_of(t.scores.begin(), t.scores.end(), [](const auto& s) { return s; });
    if (all || !sample_number::in_range(t.number)) continue;
    out.push_back({"symptoms-missing",
                   consequence::note,
                   sample_number(t.number),
                   {},
                   {t.number},
                   fmt::format("symptoms at tube {} not all scored, by the sheet", t.number)});
  }
}

const duration* known(const std::vector<std::optional<duration>>& times, std::size_t i) {
  return i < times.size() && times[i] ? &*times[i] : nullptr;
}

// A sheet with its times on one line, and where minutes count from.
struct placed_sheet {
  sheet_times at;
  case_clock clock;
  std::optional<duration> anchor; // tube 1, or the drink where it came first
};

placed_sheet place(const paper_record& sheet, time_zero asked) {
  placed_sheet out;
  out.at = times_of(sheet);
  const duration* tube_1 = known(out.at.tubes, 0);
  const bool drink_first = out.at.start && (tube_1 == nullptr || *out.at.start < *tube_1);
  if (tube_1 != nullptr) out.anchor = *tube_1;
  if (drink_first) out.anchor = out.at.start;
  const auto since = [&](const std::optional<duration>& m) {
    return m && out.anchor ? std::optional<duration>(*m - *out.anchor) : std::nullopt;
  };
  out.clock = case_clock_of(asked, drink_first, since(out.at.start), since(out.at.end));
  return out;
}

case_tube tube_of(const placed_sheet& p, const test_case& c, std::size_t i, instant midnight,
                  const sample_bounds& bounds) {
  case_tube t;
  t.number = static_cast<int>(i) + 1;
  if (i < c.paper->scores.size()) t.scores = c.paper->scores[i];
  t.scores.resize(c.test.symptoms.size());
  if (p.anchor) t.due = midnight + *p.anchor + c.test.offsets[i];
  const duration* mine = known(p.at.tubes, i);
  t.standing = mine == nullptr ? tube_standing::missed : tube_standing::on_time;
  if (mine == nullptr) return t;
  t.closed = midnight + *mine;
  t.how = "by hand";
  if (!p.anchor) return t;
  t.minute = exact::minutes_of(*mine - *p.anchor - p.clock.offset);
  t.late = *mine - *p.anchor - c.test.offsets[i];
  t.standing = standing_of(*t.late, bounds);
  return t;
}

// Rows A and B: at the time that is written there, else when they were to be given. What was given
// past midnight is after the last tube all the same.
std::vector<case_after> after_of(const placed_sheet& p, const test_case& c, instant midnight) {
  std::vector<case_after> out;
  if (!p.anchor) return out;
  duration last = *p.anchor;
  for (const auto& tube : p.at.tubes)
    last = tube ? std::max(last, *tube) : last;
  for (const paper_after& row : c.paper->after) {
    if (!any_given(row)) continue;
    const symptom_times& times = c.test.symptom_times;
    const bool of_drink = row.what == score_time::later;
    const duration due =
        of_drink ? p.at.start.value_or(*p.anchor) + times.later.value_or(std::chrono::minutes{0})
                 : *p.anchor + c.test.offsets.back() +
                       times.after_last.value_or(std::chrono::minutes{0});
    duration at = row.at ? duration{*row.at} : due;
    while (row.at && at < last)
      at += std::chrono::days{1};
    out.push_back({row.what, midnight + at, exact::minutes_of(at - *p.anchor - p.clock.offset),
                   row.scores, row.at ? "" : "no time is written: as it was to be given"});
    out.back().scores.resize(c.test.symptoms.size());
  }
  return out;
}

} // namespace

test_case case_of(const paper_record& sheet, const protocol& test, const received_kit& received,
                  const case_rules& rules, const std::vector<finding>& receiving_findings) {
  test_case c;
  c.kit = sheet.kit;
  c.paper = sheet;
  c.test = test;
  c.place = zone::fixed("the clock on the wall", std::chrono::seconds{0});
  c.asked = rules.profile.zero;
  c.precision = exact::minutes_of(paper_precision);
  c.as_of = sheet.entered;
  const placed_sheet placed = place(sheet, c.asked);
  const instant midnight{std::chrono::sys_days{sheet.day}};
  if (placed.at.start) c.drink_start = midnight + *placed.at.start;
  if (placed.at.start && placed.anchor)
    c.drink_minute = exact::minutes_of(*placed.at.start - *placed.anchor - placed.clock.offset);
  if (placed.at.end) c.drink_end = midnight + *placed.at.end;
  c.zero = placed.clock.zero;
  std::vector<finding> found{{"paper-times", consequence::note, {}, {}, {}, paper_words}};
  const sample_bounds& bounds = test.bounds ? *test.bounds : rules.profile.bounds;
  for (std::size_t i = 0; i < test.samples(); ++i) {
    c.tubes.push_back(tube_of(placed, c, i, midnight, bounds));
    sheet_tube_finding(c.tubes.back(), found);
  }
  c.after = after_of(placed, c, midnight);
  c.zero_at = zero_instant(c, c.tubes.empty() ? std::nullopt : c.tubes.front().closed);
  sheet_drink_findings(placed.at, placed.clock, rules.profile, found);
  sheet_order_findings(c.tubes, found);
  sheet_score_findings(c, found);
  if (!sheet.scores.empty()) sheet_after_findings(c, found);
  add_lost_substrate(lost_substrate(sheet, received, rules.profile), found);
  finish_case(received, rules, std::move(found), receiving_findings, c);
  return c;
}

} // namespace qb::inline cases
