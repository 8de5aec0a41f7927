// A plan with everything that reminders and the preparation page are made of.
// Cut out of the state once, so that the calendar, the page and a script without a record ask for
// the same things.
#pragma once

#include "core/session/state.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline sheets {

// A value: nothing in it refers to the state it was taken from.
struct prepared_plan {
  std::string test_id; // the record's random name: the root of every reminder's identity
  bool rehearsal{false};
  bool called_off{false};   // `what` is the plan that was called off
  std::int64_t revision{0}; // grows with every move and every answer that was changed
  protocol test;
  lab_profile lab;
  std::string form; // "powder" or "syrup"; may be empty
  plan what;
  std::string name;       // may be empty
  std::string kit_number; // may be empty
  std::vector<answered_washout> washouts;
  std::vector<std::string> retold; // washouts whose answer was changed
  std::vector<plan> earlier;       // plans that were replaced, oldest first
};

// The plan of a record, or the one that was called off last where none stands. Nothing where there
// never was one, or where a record's protocol cannot be read.
[[nodiscard]] std::optional<prepared_plan> prepared_plan_of(const state& s);

// What paper says where the laboratory is an invented one.
inline constexpr const char* for_trying_words = "For trying: this laboratory is invented.";

// The list's name under which the record keeps that reminders were written.
inline constexpr const char* reminders_list = "reminders";
inline constexpr const char* calendar_item = "calendar";
inline constexpr const char* page_item = "page";

// Whether reminders were written, and still say what the plan says.
enum class reminders_state { none, fresh, old };
[[nodiscard]] reminders_state reminders_of(const state& s);

// The answer about a washout, or nullptr.
[[nodiscard]] const answered_washout* answer_of(const prepared_plan& p, const std::string& rule);

// Windows of a plan that begin at the same moment: one step for the person.
struct plan_step {
  std::string rule; // of the first
  instant from;
  instant until; // the latest end
  std::vector<const preparation_window*> windows;
};
// In the order of time. `p` must outlive the answer; windows it does not know are left out.
[[nodiscard]] std::vector<plan_step> steps_of(const protocol& p, const plan& what);

// "Water only; no smoking": the names of a step's windows in one sentence.
[[nodiscard]] std::string step_words(const plan_step& s);
// "Water only" as it stands within a sentence: "water only".
[[nodiscard]] std::string within_sentence(std::string name);

// The moment a civil time means in the zone: the first of two; for one that is jumped over, the
// jump.
[[nodiscard]] instant moment_of(civil_time t, const zone& z);

// "Tuesday 6 April 2027, 07:30", and which of two in the night the clocks go back.
[[nodiscard]] std::string full_moment(instant t, const zone& z);
// "Tuesday 6 April, 07:30": the same without the year.
[[nodiscard]] std::string short_moment(instant t, const zone& z);
// "Tuesday 6 April"
[[nodiscard]] std::string short_day(civil_date date);

} // namespace qb::inline sheets
