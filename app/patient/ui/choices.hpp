// Choosing: one of several, yes or no to each, a step up or down.
// Rows as wide as the page with a hairline between them; the whole row can be pressed.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// One row that can be pressed.
struct choice {
  std::string key; // within the list, stable
  std::string title;
  std::string detail; // quiet second line; may be empty
};

// One of several. `chosen` is a choice's key, or empty for none yet. Answers the pressed one's
// index. Keys in the outline: `key`-CHOICE.
[[nodiscard]] std::optional<std::size_t> choice_list(toolkit& k, const std::string& key,
                                                     const std::vector<choice>& choices,
                                                     const std::string& chosen);

// A menu: each row goes somewhere as soon as it is pressed, so it has an arrow and no mark to fill.
// Answers the pressed one's index. Keys in the outline: `key`-CHOICE.
[[nodiscard]] std::optional<std::size_t> menu_list(toolkit& k, const std::string& key,
                                                   const std::vector<choice>& choices);

// A box to tick; answers true when pressed (the caller turns it).
[[nodiscard]] bool check_row(toolkit& k, const std::string& key, const std::string& text, bool on,
                             const std::string& detail = "");

// A value between a minus and a plus: -1, +1, or 0 for not pressed. Keys: `key`-less, `key`-more.
// `at_least` and `at_most` say that the value cannot go further that way.
[[nodiscard]] int stepper(toolkit& k, const std::string& key, const std::string& label,
                          const std::string& value, bool at_least = false, bool at_most = false);

} // namespace qb::inline ui
