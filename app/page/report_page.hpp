// A test's report on paper: one or two A4 pages for the qualified person who reads it.
// What stands there was decided before (app/lab/render/report_sheet.hpp); here it is only set in
// type.
#pragma once

#include "app/page/curve_chart.hpp"
#include "app/page/table.hpp"

#include <string>
#include <vector>

namespace qb::page {

// One finding: what follows from it, what was seen, and, where a person set it aside, their words.
struct report_finding {
  std::string mark; // "CANNOT BE USED", "Review", "Note"
  std::string words;
  std::string aside; // "set aside by …, reason"; then the words are struck
};

// One criterion's answer.
struct report_answer {
  std::string head;               // "Meets the criterion"
  std::string title;              // what is asked, with the criterion's id
  std::vector<std::string> lines; // reason, strict answer, firmness, citation
};

// The report from its title to its foot, in the order it is drawn.
struct report_sheet {
  bool practice{false};
  std::string mark; // on every page, such as that the laboratory is invented; empty: none
  bool draft{true};
  std::string title;
  std::string state; // "DRAFT: …", or who concluded and when
  std::vector<sheet_fact> who;
  std::vector<sheet_fact> test;
  std::vector<std::string> preparation;
  curve_chart chart;
  std::vector<std::string> under_chart; // how to read it, and what cannot be drawn
  std::vector<table_column> columns;
  std::vector<table_row> rows;
  std::vector<std::string> under_table;
  std::string barred; // why nothing is judged, empty where it is
  std::vector<report_answer> answers;
  std::string axes;
  std::vector<std::string> flags;
  std::vector<report_finding> findings;
  std::vector<std::string> record; // what it rests on, and what was checked of that
  std::string conclusion;          // the qualified reader's own words; empty: lines to write on
  std::string before;              // a conclusion that more came after, above the lines; else empty
  std::string reader;
  std::string concluded_on;
  std::vector<std::string> foot;
};

// One PDF, tagged, fonts embedded, text extractable, on two pages at most where the type can be set
// smaller; what still does not fit goes on. `made_at` becomes the file's date
// ("2027-04-06T10:05:00Z"); the same input gives the same bytes. A letter that no
// installed font has is a square, and its whole text stands as a code at the end.
// Marked as a report among its keywords (`report_mark`).
[[nodiscard]] result<std::string> draw_report_pdf(const report_sheet& sheet,
                                                  const std::string& made_at);

// The words by which a report is found, and the mark as they stand in the bytes: whether it is a
// draft.
[[nodiscard]] std::string report_keywords(bool draft);
[[nodiscard]] std::string report_mark(bool draft);

} // namespace qb::page
