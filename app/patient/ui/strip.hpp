// What frames every page: the practice banner, where in the whole, and "I feel unwell".
// Only page.cpp draws these; a screen asks for them through page_options.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What the banner says: that it is practice, or that the laboratory is invented; else nothing.
[[nodiscard]] const std::string& banner_words(const page_options& options,
                                              const toolkit_words& words);
// The banner, as high as its words broken to that width need.
[[nodiscard]] float banner_height(const pen& p, const std::string& words, float width);
void draw_banner(toolkit& k, const page_options& options, box b);

// Where in the whole, in words over a hairline.
void strip_words(toolkit& k, box b, const std::string& where);

// The same as the tubes of the test, in as many rows as they need; `where` is for the outline.
[[nodiscard]] float strip_rack_height(std::size_t tubes);
void strip_rack(toolkit& k, box b, const std::string& where, const std::vector<tube_mark>& tubes);

// Round where everything else is square, with a face that needs no reading.
[[nodiscard]] bool unwell_button(toolkit& k, box b);

} // namespace qb::inline ui
