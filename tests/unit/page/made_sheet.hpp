// Sheets and labels for the tests of paper: an invented person, ten tubes, everything filled in.
// Built by hand, so that these tests see the drawing alone.
#pragma once

#include "core/sheet/sheet.hpp"

#include <fmt/core.h>
#include <string>
#include <vector>

namespace qb {

inline sheet_text made_sheet(int rows, bool rehearsal) {
  sheet_text s;
  s.rehearsal = rehearsal;
  s.title = "Symptom and sample sheet";
  s.first = {{"Kit", "FV-2071"},
             {"Test", "Lactulose breath test for bacterial overgrowth"},
             {"Sugar", "lactulose, 10 g, syrup"},
             {"Date", "6 April 2027"},
             {"Tubes filled", fmt::format("{} of {}", rows, rows)},
             {"Drink", "07:31 to 07:33"}};
  s.person = {{"Name", "Maren Oakhollow"},
              {"Born", "11 February 1957"},
              {"Doctor", "Dr Ivo Brandreth"},
              {"Laboratory", "Fenwick Vale Breath Laboratory"}};
  s.preparation = {{"plain-diet", "Monday 07:30 to Monday 19:30"},
                   {"fast", "Monday 19:30 to Tuesday 07:30"},
                   {"antibiotics", "last dose on or before 9 March 2027"}};
  s.symptoms = {"Bloating", "Abdominal pain", "Nausea"};
  for (int n = 1; n <= rows; ++n) {
    const int minutes = (n - 1) * 15;
    sheet_row r;
    r.number = sample_number(n);
    r.offset = n == 1 ? "first" : fmt::format("+{} min", minutes);
    r.due = fmt::format("{:02}:{:02}", 7 + (30 + minutes) / 60, (30 + minutes) % 60);
    r.closed = r.due;
    r.how = "pressed";
    r.late = n == 4 ? "5 min 3 s late" : "on time";
    r.scores = {fmt::format("{}", n % 11), "0", n == 6 ? "-" : "1"};
    if (n == 5) r.comment = "Some rumbling after the drink, gone again by the next tube";
    s.rows.push_back(r);
  }
  s.told = {"Tube 4 closed 5 min 3 s after its time.", "Symptoms at tube 6 not all scored.",
            "Food or drink other than water told at Monday 22:10: half a biscuit."};
  s.foot = {"Times are those of the person's device, in Europe/London, cut to the minute.",
            "This sheet records what happened. It is not a result and not a diagnosis."};
  return s;
}

inline std::vector<label_text> made_labels(int count, bool rehearsal) {
  std::vector<label_text> out;
  for (int n = 1; n <= count; ++n) {
    label_text l;
    l.number = sample_number(n);
    l.name = "Maren Oakhollow";
    l.birth_date = "11 February 1957";
    l.birth_short = "11 Feb 1957";
    l.doctor = "Dr Ivo Brandreth";
    l.kit_number = "FV-2071";
    l.offset = n == 1 ? "first" : fmt::format("+{} min", (n - 1) * 15);
    l.rehearsal = rehearsal;
    if (n % 2 == 1) {
      l.date = "6 April 2027";
      l.date_short = "6 Apr 2027";
      l.time = "07:46";
      l.how = "from memory";
    }
    out.push_back(l);
  }
  return out;
}

} // namespace qb
