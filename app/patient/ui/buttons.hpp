// What can be pressed: the one large action, lesser ones, and turning the page.
// Each answers true in the frame in which it was released, once.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What to do now: one on a screen, filled with the colour of now, 60 high or more.
[[nodiscard]] bool primary_button(toolkit& k, const std::string& key, const std::string& text);

// Another way on: outlined.
[[nodiscard]] bool secondary_button(toolkit& k, const std::string& key, const std::string& text);

// A quiet way out: underlined words, but a full target.
[[nodiscard]] bool quiet_button(toolkit& k, const std::string& key, const std::string& text);

// A primary place that cannot be pressed yet, with the reason as its words.
void waiting_button(toolkit& k, const std::string& key, const std::string& text);

// Two outlined buttons side by side; answers 1 or 2 for the one pressed, 0 for none.
[[nodiscard]] int button_pair(toolkit& k, const std::string& left_key, const std::string& left_text,
                              const std::string& right_key, const std::string& right_text);

inline constexpr float turns_height = 52;

// Used by the page itself: a page turn at a given place. `main` is filled, as a primary button.
enum class turn_kind { back, more, main };
[[nodiscard]] bool turn_button(toolkit& k, const std::string& key, const std::string& text, box b,
                               turn_kind kind);

} // namespace qb::inline ui
