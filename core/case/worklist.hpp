// The day's work: what is here, what is due when, and what each kit waits for.
// Working days are the profile's: days of the week, less those on which the laboratory is closed.
#pragma once

#include "core/case/case.hpp"
#include "core/receiving/tubes.hpp"

#include <string>
#include <vector>

namespace qb::inline cases {

// Whether the laboratory works on that day.
[[nodiscard]] bool works_on(const lab_profile& lab, civil_date day);

// The last day for the result of a box that arrived on `arrived`: that many working days later,
// the day of arrival itself not counted.
[[nodiscard]] civil_date due_on(const lab_profile& lab, civil_date arrived);

// What a kit waits for, in the order in which it is done.
enum class waits_for {
  whose,      // a named person's word whose the box is (core/receiving/whose.hpp)
  tubes,      // the box is here, its tubes were not looked at
  record,     // neither log, code nor paper sheet
  readings,   // no tube was read, or one that was blown and is here was not
  review,     // something found asks for a look, or came after the conclusion
  conclusion, // a qualified reader's
  nothing,
};

// Their stable keys: "whose", "tubes", "record", "readings", "review", "conclusion", "nothing".
[[nodiscard]] const char* waits_text(waits_for w);

// What a kit's line is made of.
struct kit_facts {
  const received_kit* received{nullptr};
  const recorded_tubes* told{nullptr}; // none: no record
  std::vector<case_finding> findings;  // weighed as the report weighs them
  std::vector<std::string> since;      // what came after its conclusion
};

// One line of the list.
struct work_line {
  std::string kit;
  std::string test; // its id; empty: none is known
  std::string protocol;
  std::optional<civil_date> arrived; // none: a record without a box
  std::optional<civil_date> due;
  waits_for what{waits_for::nothing};
  std::vector<int> unread;          // tubes that are here and were not read
  std::vector<std::string> at_once; // names of what is not to wait for the box, each once
  int to_review{0};        // findings that weigh more than a note and that nobody set aside
  int review_rules{0};     // of how many rules those are
  bool again{false};       // it was concluded, and something came after that
  bool several{false};     // other tests bear its kit number; told by who knows the kit
  bool log_differs{false}; // another log of its test was set aside, and nobody settled it
};

// The line of one kit. `zone` is the laboratory's.
[[nodiscard]] work_line work_line_of(const kit_facts& kit, const lab_profile& lab,
                                     const zone& place);

// What is to be looked at at once first, from the moment its record is here until a reader
// concluded; then by arrival, the oldest first, those without a box last; then by kit.
void sort_work(std::vector<work_line>& lines);

// Second readings that nobody chose between, and readings of tubes that the box has not.
[[nodiscard]] std::vector<receiving_finding> check_readings(const received_kit& kit);

} // namespace qb::inline cases
