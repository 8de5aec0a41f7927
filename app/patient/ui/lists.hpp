// Lists that are read, not pressed: moments in time, facts, rows to copy by hand.
// Figures stand under figures; each row goes over to the next leaf whole.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// How a moment stands to the present.
enum class moment_state { past, now, next };

// One row of a timeline.
struct moment {
  std::string time; // "Monday 07:30"
  std::string words;
  moment_state state{moment_state::next};
};

// What comes when, down a vertical line. Keys: `key`-1, `key`-2, ...
void timeline(toolkit& k, const std::string& key, const std::vector<moment>& moments);

// A value with its name; in the colour of attention where it needs the person.
struct fact {
  std::string label;
  std::string value;
  bool needs_you{false};
};

// Label and value in a row with a hairline under it; values end at the right margin.
void facts(toolkit& k, const std::string& key, const std::vector<fact>& rows);

// One row of the paper sheet, to be copied by hand in large type.
struct copy_row {
  std::string number; // the tube's
  std::string time;   // "08:03", or the words for none
  std::vector<fact> scores;
  std::string note; // may be empty
};
void copy_card(toolkit& k, const std::string& key, const std::string& tube_word,
               const copy_row& row);

// What to write on a label, as the label will look: caption and value on ruled lines.
void label_card(toolkit& k, const std::string& key, const std::string& title,
                const std::vector<fact>& fields);

} // namespace qb::inline ui
