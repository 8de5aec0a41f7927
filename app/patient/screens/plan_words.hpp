// What a plan's rules, days and moments are called on the preparation screens.
// One place, so that the plan page, the timeline and the gate use the same words.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

// A rule in a few words: "Water only", "Antibiotics", or what no protocol has: "Your days at home".
// The catalogue's words where it has some, else the protocol's name of it.
[[nodiscard]] std::string rule_words(const view& v, const protocol& p, const std::string& rule);

// "Tuesday 6 April"
[[nodiscard]] std::string day_words(const view& v, civil_date date);
[[nodiscard]] civil_date today(const view& v);

// A length in the largest whole unit that reads well: "3 days" from two days on, else hours and
// minutes.
[[nodiscard]] std::string span_words(const view& v, duration d);

// As `span_words`, never less than it is: for how much is missing.
[[nodiscard]] std::string span_up_words(const view& v, duration d);

// Every moment of the plan in the order of time, marked by the view's own now.
// A row on a medicine says no more than what was told of it.
[[nodiscard]] std::vector<moment> plan_moments(const view& v, const protocol& p, const plan& what);

// When a moment of the standing plan is, as `when`; in the night the clocks go back also which of
// the two; and where the plan was made in another zone, the time there beside it.
[[nodiscard]] std::string start_words(const view& v, instant t);

// A zone's name to read: "America/New York".
[[nodiscard]] std::string zone_words(std::string name);

// Whom to call: the laboratory, its telephone large, its hours.
void laboratory_facts(toolkit& k, const view& v);

// Those who may say something of a test, each a choice with its own words; in their order.
[[nodiscard]] std::vector<choice> releaser_choices(const view& v, const std::vector<releaser>& may);

// The offered test of that id, or nullptr.
[[nodiscard]] const offered_test* find_test(const view& v, const std::string& id);

// The text of a line that is drawn: from then on it stands as it is, empty or not.
[[nodiscard]] std::string& line_of(std::optional<std::string>& draft);

// Whether a box of the page is ticked, by its own id; and the tick set or taken away.
[[nodiscard]] bool is_ticked(const ui_state& u, const std::string& id);
void turn_tick(ui_state& u, const std::string& id);

// Opens the last question before a test is erased, with nothing ticked.
void ask_to_erase(ui_state& u);

} // namespace qb::inline screens
