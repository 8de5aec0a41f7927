// The laboratory's telephone as every page shows it: beside the number stand its hours, and outside
// them what to do. No page words the number in another way; a test looks at every page for that.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

// The number with its hours, to stand within a sentence: "01632 960 417 (Monday to Friday, 8:30 to
// 16:30)".
[[nodiscard]] std::string telephone_words(const view& v);

// What to do while nobody answers, and when somebody will again; empty while somebody does, and
// where the profile does not say.
[[nodiscard]] std::string outside_words(const view& v);

// The words of `outside_words` as a quiet line, where there are any.
void outside_line(toolkit& k, const view& v);

// The same, where these words have the number.
void outside_line_of(toolkit& k, const view& v, const std::string& words);

// A paragraph whose sentence has the number as {tel}, and under it what to do outside its hours.
void calling_paragraph(toolkit& k, const view& v, const std::string& key, const std::string& words,
                       word_args args = {});

} // namespace qb::inline screens
