// One question in full: its sentence, how to recognise it, what it is not, and what was said
// before. An answer that takes an earlier one back is asked once more before it is told; before the
// plan, at the gate and wherever something stands against going on this is the one page for it.
#pragma once

#include "app/patient/screens/shared.hpp"

#include <optional>
#include <string>

namespace qb::inline screens {

// What the page is about, and the ways it offers beside the answers.
struct full_question {
  const caution& asked;
  std::string screen; // the page's name
  std::string place;  // "Question 3 of 12"; may be empty
  bool back{false};
  bool cancel{false};
};

// What became of it in this frame.
struct asked_in_full {
  maybe_wish out;
  std::optional<reported_caution> told; // to be recorded
  bool back{false};
  bool cancel{false};
};

// Draws the question, or the second question where an answer would take an earlier one back.
[[nodiscard]] asked_in_full ask_in_full(toolkit& k, const view& v, ui_state& u,
                                        const full_question& q);

// The question's words alone: its sentence, its signs, what it is not.
void show_question(toolkit& k, const view& v, const caution& c);

// What was answered, in the person's words: "You said: yes."
[[nodiscard]] std::string said_words(const view& v, const reported_caution& told);

} // namespace qb::inline screens
