// The keyboard the toolkit draws: letters in the order of the alphabet, accents, digits.
// In order, because who does not type daily finds a letter by the alphabet; and seven to a row,
// because ten keys of 44 pixels do not fit a telephone.
#pragma once

#include "app/patient/ui/text_field.hpp"

namespace qb::inline ui {

// Draws the keys into `area`, applies what was pressed on them or on a real keyboard.
field_event keyboard(toolkit& k, box area, const field_view& view, std::string& value);

// Applies what a real keyboard typed in this frame, if it typed characters at all.
field_event typed_characters(const field_view& view, std::string& value);

// True if the next letter of such a text starts a name or a sentence.
[[nodiscard]] bool wants_capital(text_kind kind, const std::string& value);

} // namespace qb::inline ui
