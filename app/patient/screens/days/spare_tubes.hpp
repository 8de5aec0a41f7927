// Tubes of the kit that a test does not use, in words.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

// The sentence KEY.one or KEY.other with {tubes} as "8, 9 and 10"; empty where the test of the plan
// uses all tubes of the kit.
[[nodiscard]] std::string spare_words(const view& v, const std::string& key);

// The rack with the tubes that stay empty, so that all of the kit's are seen.
[[nodiscard]] std::vector<tube_mark> whole_rack_of(const view& v);

} // namespace qb::inline screens
