// One test, set in columns.
#include "app/lab/render/show_text.hpp"

#include "app/lab/context/printable.hpp"
#include "app/lab/render/show_code.hpp"
#include "core/base/text.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr std::size_t wide = 100;
constexpr const char* practice = "PRACTICE - not a test";

std::string rule_line(char of) {
  std::string line(wide, of);
  line += '\n';
  return line;
}

std::string line_of(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

// "name   value", the value going on under itself.
std::string fact(const std::string& name, const std::string& value) {
  constexpr std::size_t name_wide = 14;
  std::string out;
  for (const std::string& line : wrapped(printable(value), wide - name_wide))
    out += line_of(left_in(out.empty() ? name : "", name_wide) + line);
  return out;
}

std::string clock_of(const report& r, instant t) {
  return clock_text(r.place.civil_at(t));
}

std::string start_text(const report& r) {
  const auto day = [&](instant t) {
    return fmt::format("{} {}", long_date(date_of(r.place.civil_at(t))), clock_of(r, t));
  };
  if (!r.anchor)
    return r.planned_start ? "planned for " + day(*r.planned_start) + ", tube 1 not closed"
                           : "not planned";
  return "tube 1 closed " + day(*r.anchor) +
         (r.planned_start ? ", planned for " + day(*r.planned_start) : "");
}

std::string drink_text(const report& r) {
  if (!r.drink_start) return "not recorded";
  if (!r.drink_end) return "begun " + clock_of(r, *r.drink_start) + ", end not recorded";
  return fmt::format("{} to {}{}", clock_of(r, *r.drink_start), clock_of(r, *r.drink_end),
                     r.drank_all ? "" : ", not all of it");
}

// "+5:03", "-0:12", "+1:02:03": elapsed, cut to the second.
std::string against_due(duration late) {
  const auto total =
      std::chrono::duration_cast<std::chrono::seconds>(late < duration{0} ? -late : late).count();
  const char* sign = late < duration{0} ? "-" : "+";
  if (total >= 3600)
    return fmt::format("{}{}:{:02}:{:02}", sign, total / 3600, total / 60 % 60, total % 60);
  return fmt::format("{}{}:{:02}", sign, total / 60, total % 60);
}

struct column {
  std::string head;
  bool right{false};
  std::size_t width{0};
};

// Rows of cells under their heads, each column as wide as its widest cell.
class columns_of_text {
public:
  void add(std::string head, bool right) { columns_.push_back({std::move(head), right, 0}); }
  void row(std::vector<std::string> cells, std::string below = {}) {
    rows_.push_back({std::move(cells), std::move(below)});
  }

  std::string text() {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      columns_[i].width = character_count(columns_[i].head);
      for (const auto& r : rows_)
        columns_[i].width = std::max(columns_[i].width, character_count(r.cells[i]));
    }
    std::vector<std::string> heads;
    for (const column& c : columns_)
      heads.push_back(c.head);
    std::string out = line(heads) + rule_line('-');
    for (const auto& r : rows_) {
      out += line(r.cells);
      constexpr std::size_t indent = 6;
      for (const std::string& words : wrapped(r.below, wide - indent)) {
        if (!words.empty()) out += line_of(std::string(indent, ' ') + words);
      }
    }
    return out;
  }

private:
  struct one_row {
    std::vector<std::string> cells;
    std::string below;
  };
  [[nodiscard]] std::string line(const std::vector<std::string>& cells) const {
    std::string out;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const column& c = columns_[i];
      out += (i == 0 ? "" : "  ") +
             (c.right ? right_in(cells[i], c.width) : left_in(cells[i], c.width));
    }
    return line_of(out);
  }

  std::vector<column> columns_;
  std::vector<one_row> rows_;
};

std::string tube_table(const report& r) {
  columns_of_text t;
  t.add("Tube", true);
  t.add("Due", true);
  t.add("Closed", true);
  t.add("Against due", true);
  t.add("Standing", false);
  t.add("How known", false);
  for (const symptom& s : r.symptoms)
    t.add(printable(s.text), true);
  const auto first_day = r.tubes.empty() ? civil_date{} : date_of(r.place.civil_at(r.tubes[0].due));
  const auto shown = [&](instant at) {
    const civil_time there = r.place.civil_at(at);
    return date_of(there) == first_day ? clock_text(there) : civil_text(there);
  };
  for (const report_tube& tube : r.tubes) {
    std::string standing = standing_text(tube.standing);
    std::replace(standing.begin(), standing.end(), '-', ' ');
    std::vector<std::string> cells{fmt::format("{}", tube.number.value()),
                                   shown(tube.due),
                                   tube.closed ? shown(*tube.closed) : "",
                                   tube.late ? against_due(*tube.late) : "",
                                   standing,
                                   tube.how ? words_of(*tube.how) : ""};
    for (const auto& score : tube.scores)
      cells.push_back(score ? fmt::format("{}", *score) : "-");
    t.row(std::move(cells), tube.comment.empty() ? "" : "Comment: " + printable(tube.comment));
  }
  for (const report_after& after : r.after) {
    std::vector<std::string> cells{"", "", shown(after.given), "", "scored", ""};
    for (const auto& score : after.scores)
      cells.push_back(score ? fmt::format("{}", *score) : "-");
    std::string under = words_of(after.what);
    if (!after.comment.empty()) under += ". Comment: " + printable(after.comment);
    t.row(std::move(cells), under);
  }
  return t.text();
}

// One thing with the events that show it, going on under itself.
std::string marked_line(const char* mark, const std::string& said,
                        const std::vector<std::int64_t>& shown_by) {
  std::string words = printable(said);
  std::string events;
  for (const std::int64_t seq : shown_by)
    events += fmt::format("{}{}", events.empty() ? "" : ", ", seq);
  if (!events.empty())
    words += fmt::format(" (event{} {})", shown_by.size() == 1 ? "" : "s", events);
  constexpr std::size_t indent = 4;
  std::string out;
  for (const std::string& line : wrapped(words, wide - indent))
    out += (out.empty() ? mark : "    ") + line + "\n";
  return out;
}

std::string washout_words(const report_washout& w) {
  std::string out = w.name + ": ";
  if (!w.answer)
    out += "not answered";
  else if (*w.answer == washout_answer::cannot_stop)
    out += "goes on";
  else if (*w.answer == washout_answer::unknown)
    out += "not known";
  else if (!w.last)
    out += "none";
  else
    out += "last on " + long_date(*w.last);
  if (w.kept_days && *w.answer != washout_answer::cannot_stop)
    out += fmt::format(", {} of {} days kept", *w.kept_days, w.asked_days);
  if (!w.agreed_by.empty()) out += fmt::format("; agreed by {} ({})", w.agreed_by, w.agreed_as);
  return out;
}

// Beginnings that were confirmed, washouts with their days; those without any in one line.
std::string preparation_lines(const report& r) {
  if (r.beginnings.empty() && r.washouts.empty()) return {};
  std::string out = "Preparation as told\n";
  for (const report_beginning& b : r.beginnings)
    out += marked_line("  - ",
                       fmt::format("{}: confirmed {}", b.name,
                                   day_and_time(b.at, r.anchor.value_or(b.at), r.place)),
                       {b.event});
  std::string none;
  std::vector<std::int64_t> none_events;
  for (const report_washout& w : r.washouts) {
    if (w.answer != washout_answer::never || w.last) {
      out += marked_line("  - ", washout_words(w), w.events);
      continue;
    }
    none += (none.empty() ? "none of: " : ", ") + w.name;
    none_events.insert(none_events.end(), w.events.begin(), w.events.end());
  }
  if (!none.empty()) out += marked_line("  - ", none, none_events);
  return out + "\n";
}

std::string kit_text(const report& r) {
  if (!r.kit) return "no kit code told; the test was chosen by the person";
  return fmt::format("{}, kit number {}, may be used up to {} (event {})", r.kit->code,
                     r.kit->kit_number, long_date(r.kit->expires), r.kit->event);
}

std::string finding_lines(const report& r) {
  if (r.findings.empty()) return "Nothing noted.\n";
  std::string out = "Noted (! asks for a look)\n";
  for (const finding& f : r.findings) {
    const char* mark = f.weight == consequence::review ? "  ! " : "  - ";
    out += marked_line(mark, f.words, f.events);
  }
  return out;
}

std::string record_text(const report& r) {
  const std::string data = r.tzdata.empty() ? "" : " with zone data " + r.tzdata;
  return fmt::format("{} events, written by {}{}; {}", r.events, r.program, data,
                     r.matches_itself ? "matches itself" : "DOES NOT MATCH ITSELF, see below");
}

} // namespace

std::string list_text(const std::vector<log_row>& rows) {
  if (rows.empty()) return "No tests.\n";
  columns_of_text t;
  for (const char* head : {"Kit", "Protocol", "Start (UTC)"})
    t.add(head, false);
  t.add("Tubes", true);
  t.add("Test", false);
  t.add("Remarks", false);
  for (const log_row& row : rows) {
    std::string remarks = row.rehearsal ? practice : "";
    if (!row.matches) remarks += std::string(remarks.empty() ? "" : "; ") + "does not match itself";
    if (row.by_code) remarks += std::string(remarks.empty() ? "" : "; ") + code_mark;
    std::string started = row.started.substr(0, std::string("2027-04-06T06:30").size());
    std::replace(started.begin(), started.end(), 'T', ' ');
    t.row({printable(row.kit_number), printable(row.protocol), started,
           fmt::format("{}/{}", row.filled, row.tubes), printable(row.test_id), remarks});
  }
  return t.text();
}

std::string show_text(const report& r, const signature_evidence& evidence,
                      const std::optional<code_beside>& beside) {
  std::string out = rule_line('=');
  if (r.rehearsal) out += fmt::format("{}\n", practice);
  out += line_of("Kit " + printable(r.kit_number));
  out += line_of(fmt::format("{} ({})", printable(r.protocol_title), printable(r.protocol_id)));
  out += rule_line('=');
  out += fact("Name", r.name);
  out += fact("Born", r.birth_date ? long_date(*r.birth_date) : "");
  out += fact("Doctor", r.doctor);
  out += fact("Laboratory", r.laboratory);
  out += fact("Kit code", kit_text(r));
  out += fact("Start", start_text(r));
  out += fact("Drink", drink_text(r));
  out += fact("Times in", r.place.name());
  out += fact("Test", r.test_id);
  out += fact("Record", record_text(r));
  out += fact("Signature", evidence_text(evidence));
  if (beside) out += fact("Code", beside_words(*beside));
  out += "\n" + tube_table(r);
  if (!r.empty_tubes.empty())
    out += fmt::format("{} {} stay{} empty.\n", r.empty_tubes.size() == 1 ? "Tube" : "Tubes",
                       tubes_in_words(r.empty_tubes), r.empty_tubes.size() == 1 ? "s" : "");
  out += "\n" + preparation_lines(r) + finding_lines(r);
  out += "\nThis is a record of what happened. It is not a result and not a diagnosis.\n";
  if (r.rehearsal) out += fmt::format("{}\n", practice);
  return out;
}

} // namespace qb::lab
