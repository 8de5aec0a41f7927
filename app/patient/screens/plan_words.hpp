// What a plan's rules, days and moments are called on the preparation screens.
// One place, so that the plan page, the timeline and the gate use the same words.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb {

// A rule of preparation in a few words: "Water only". A rule without words of its own is called
// by the protocol's text.
[[nodiscard]] std::string rule_words(const view& v, const protocol& p, const std::string& rule);

// "Tuesday 6 April"
[[nodiscard]] std::string day_words(const view& v, civil_date date);
[[nodiscard]] civil_date today(const view& v);

// A length in the largest whole unit that reads well: "3 days" from two days on, else hours and
// minutes.
[[nodiscard]] std::string span_words(const view& v, duration d);

// Every moment of the plan in the order of time, marked by the view's own now.
// What was told of the medicines is in the drafts; a row says no more than that.
[[nodiscard]] std::vector<moment> plan_moments(const view& v, const ui_state& u, const protocol& p,
                                               const plan& what);

// When it is, as `when`; in the night the clocks go back also which of the two.
[[nodiscard]] std::string start_words(const view& v, instant t);

// Whom to call: the laboratory, its telephone large, its hours.
void laboratory_facts(kit& k, const view& v);

// The offered test of that id, or nullptr.
[[nodiscard]] const offered_test* find_test(const view& v, const std::string& id);

// A draft's text, empty where there is none.
[[nodiscard]] std::string draft_of(const ui_state& u, const std::string& key);

[[nodiscard]] bool is_ticked(const ui_state& u, const std::string& id);
void turn_tick(ui_state& u, const std::string& id);

// Goes to a page of the screen, or to a side page at its first page.
void open_side(ui_state& u, const std::string& name);

} // namespace qb
