// Findings in the order a reader wants them.
#include "app/lab/context/printable.hpp"
#include "app/lab/render/report_sheet.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

using page::report_finding;

const char* mark_of(consequence c) {
  switch (c) {
  case consequence::note: return "Note";
  case consequence::review: return "Review";
  case consequence::cannot_be_used: return "CANNOT BE USED";
  }
  QB_BELIEVE(false);
  return "";
}

std::string events_text(const std::vector<std::int64_t>& events) {
  std::string out;
  for (const std::int64_t seq : events)
    out += fmt::format("{}{}", out.empty() ? "" : ", ", seq);
  return out.empty() ? out : fmt::format(", event{} {}", events.size() == 1 ? "" : "s", out);
}

report_finding one_line(const case_finding& f) {
  report_finding out;
  out.mark = mark_of(f.weight);
  out.words = fmt::format("{}: {} ({}{})", f.name, printable(f.what.words), f.what.rule,
                          events_text(f.what.events));
  if (f.aside)
    out.aside =
        fmt::format("set aside by {}: {}", printable(f.aside->by), printable(f.aside->reason));
  return out;
}

// Several notes of one rule, by their tubes.
report_finding together(const std::vector<const case_finding*>& all) {
  std::vector<int> tubes;
  std::vector<std::int64_t> events;
  for (const case_finding* f : all) {
    if (f->what.sample) tubes.push_back(f->what.sample->value());
    events.insert(events.end(), f->what.events.begin(), f->what.events.end());
  }
  std::sort(tubes.begin(), tubes.end());
  tubes.erase(std::unique(tubes.begin(), tubes.end()), tubes.end());
  const case_finding& first = *all.front();
  const std::string where =
      tubes.empty() ? fmt::format("{} times", all.size())
                    : fmt::format("tube{} {}", tubes.size() == 1 ? "" : "s", tubes_in_words(tubes));
  return {mark_of(first.weight),
          fmt::format("{}: {} ({}{})", first.name, where, first.what.rule, events_text(events)),
          ""};
}

// Which findings of tubes stand in one line: several notes of one rule; of what weighs more only a
// long row, which would hide the rest. What was set aside stands by itself.
bool stand_together(const std::vector<const case_finding*>& same) {
  constexpr std::size_t long_row = 4;
  return same.size() >= (same.front()->weight == consequence::note ? 2 : long_row);
}

void add_weight(const test_case& c, consequence weight, std::vector<report_finding>& out) {
  std::vector<std::string> done;
  for (const case_finding& f : c.findings) {
    if (!f.stands() || f.weight != weight) continue;
    if (std::find(done.begin(), done.end(), f.what.rule) != done.end()) continue;
    std::vector<const case_finding*> same;
    for (const case_finding& g : c.findings)
      if (g.stands() && g.weight == weight && g.what.rule == f.what.rule && g.what.sample)
        same.push_back(&g);
    if (f.what.sample && stand_together(same)) {
      done.push_back(f.what.rule);
      out.push_back(together(same));
    } else {
      out.push_back(one_line(f));
    }
  }
}

} // namespace

std::vector<report_finding> listed_findings(const test_case& c) {
  std::vector<report_finding> out;
  for (const consequence weight :
       {consequence::cannot_be_used, consequence::review, consequence::note})
    add_weight(c, weight, out);
  for (const case_finding& f : c.findings)
    if (!f.stands()) out.push_back(one_line(f));
  return out;
}

} // namespace qb::lab
