// The command `worklist`.
#include "core/case/worklist.hpp"

#include "app/lab/commands/day.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/printable.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace qb::lab {

namespace {

constexpr std::size_t kit_wide = 12;

struct listed {
  work_line line;
  bool rehearsal{false};
};

json::value date_or_null(const std::optional<civil_date>& d) {
  return d ? json::value(date_text(*d)) : json::value();
}

bool overdue(const work_line& line, civil_date today) {
  return line.due && line.what != waits_for::nothing && *line.due < today;
}

std::string words_of(const work_line& line) {
  switch (line.what) {
  case waits_for::whose: return "a word whose the box is: assign";
  case waits_for::tubes: return "its tubes: here, not looked at";
  case waits_for::record: return "a record: no log, code or sheet";
  case waits_for::readings:
    return line.unread.empty() ? "readings" : "readings of tubes " + tubes_in_words(line.unread);
  case waits_for::review:
    if (line.again) return "review again: more came after its conclusion";
    return fmt::format(
        "review: {} finding{}{}", line.to_review, line.to_review == 1 ? "" : "s",
        line.review_rules == line.to_review
            ? ""
            : fmt::format(" of {} kind{}", line.review_rules, line.review_rules == 1 ? "" : "s"));
  case waits_for::conclusion: return "a conclusion";
  case waits_for::nothing: return "nothing";
  }
  QB_BELIEVE(false);
  return "";
}

// "LOOK AT ONCE (warning signs told), "; nothing where nothing is to be.
std::string at_once_words(const work_line& line) {
  if (line.at_once.empty()) return "";
  return fmt::format("LOOK AT ONCE ({}), ",
                     printable(fmt::format("{}", fmt::join(line.at_once, "; "))));
}

json::value line_json(const listed& l, civil_date today) {
  return json::object{{"kit", l.line.kit},
                      {"test", json::text_or_null(l.line.test)},
                      {"tests_of_number", l.line.several ? "several" : "one"},
                      {"protocol", json::text_or_null(l.line.protocol)},
                      {"arrived", date_or_null(l.line.arrived)},
                      {"due", date_or_null(l.line.due)},
                      {"overdue", overdue(l.line, today)},
                      {"waits_for", waits_text(l.line.what)},
                      {"at_once", json::list_of(l.line.at_once)},
                      {"unread", json::list_of(l.line.unread)},
                      {"to_review", l.line.to_review},
                      {"again", l.line.again},
                      {"log_differs", l.line.log_differs},
                      {"rehearsal", l.rehearsal}};
}

std::string table_text(const std::vector<listed>& lines, civil_date today) {
  constexpr std::size_t test_wide = 15;
  constexpr std::size_t day_wide = 12;
  std::string out = left_in("Kit", kit_wide) + left_in("Test", test_wide) +
                    left_in("Arrived", day_wide) + left_in("Due", day_wide) + "Waits for\n";
  for (const listed& l : lines) {
    const std::string due = l.line.due ? date_text(*l.line.due) : "-";
    out +=
        left_in(printable(l.line.kit), kit_wide - 1) + " " +
        left_in(l.line.protocol.empty() ? "not known" : printable(l.line.protocol), test_wide - 1) +
        " " + left_in(l.line.arrived ? date_text(*l.line.arrived) : "not here", day_wide) +
        left_in(due + (overdue(l.line, today) ? "!" : ""), day_wide) + at_once_words(l.line) +
        words_of(l.line) + (l.line.several ? "; test " + printable(l.line.test) : "") +
        (l.line.log_differs ? "; two logs that differ" : "") +
        (l.rehearsal ? "  PRACTICE - not a test" : "") + "\n";
  }
  return out;
}

} // namespace

int show_work(const shared_options& shared, const lab_context_options& o, bool all,
              const console& to) {
  const auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto rules = load_case_rules(*at);
  if (!rules) return say_no(rules.error(), to);
  std::vector<work_line> lines;
  std::vector<std::string> practice;
  const auto damaged = every_test(*at, [&](const kept_kit& of, const kept_test& t) {
    work_line line =
        work_line_of(facts_of(*at, *rules, t.received, t.known), at->profile(), at->place());
    line.several = of.tests.size() > 1;
    if (t.known.rehearsal) practice.push_back(line.kit + " " + line.test);
    if (all || line.what != waits_for::nothing) lines.push_back(std::move(line));
    return result<void>();
  });
  if (!damaged) return say_no(damaged.error(), to);
  sort_work(lines);
  std::vector<listed> told;
  for (work_line& line : lines) {
    const std::string name = line.kit + " " + line.test;
    const bool is_practice = std::find(practice.begin(), practice.end(), name) != practice.end();
    told.push_back({std::move(line), is_practice});
  }
  int status = 0;
  for (const damaged_kit& one : *damaged)
    status = say_no(in_file(one.why, shared.store), to);
  const civil_date today = date_of(at->place().civil_at(at->now()));
  if (shared.format == output_format::json) {
    json::array work;
    for (const listed& l : told)
      work.push_back(line_json(l, today));
    json::array lost;
    for (const damaged_kit& one : *damaged)
      lost.push_back(one.kit);
    to.out(json::pretty(json::object{{"mark", json::text_or_null(at->standing().mark)},
                                     {"work", std::move(work)},
                                     {"damaged", std::move(lost)}}));
    return status;
  }
  if (!at->standing().mark.empty()) to.out(at->standing().mark + "\n");
  to.out(told.empty() ? "nothing waits\n" : table_text(told, today));
  for (const damaged_kit& one : *damaged)
    to.out(left_in(printable(one.kit), kit_wide - 1) +
           " cannot be read any more; the others can\n");
  return status;
}

} // namespace qb::lab
