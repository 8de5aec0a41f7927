// What frames every page: the practice banner, where in the whole, and "I feel unwell".
// Only page.cpp draws these; a screen asks for them through page_options.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb {

[[nodiscard]] float banner_height(const pen& p, const std::string& words, float width);
void practice_banner(toolkit& k, box b);

void strip_words(toolkit& k, box b, const std::string& where);

[[nodiscard]] float strip_rack_height(std::size_t tubes);
void strip_rack(toolkit& k, box b, const std::string& where, const std::vector<tube_mark>& tubes);

// Round where everything else is square, with a face that needs no reading.
[[nodiscard]] bool unwell_button(toolkit& k, box b);

} // namespace qb
