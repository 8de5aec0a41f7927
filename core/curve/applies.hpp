// Which gases of a test the criteria at hand ask about, and which they leave unjudged.
// A test of a laboratory's own may have a sugar or a dose that no criterion was made for; then
// nothing was tried, and that is said instead of "not met".
#pragma once

#include "core/curve/criteria.hpp"

#include <string>
#include <vector>

namespace qb::inline curves {

// One gas about which nothing is said.
struct unjudged_gas {
  std::string gas; // "hydrogen", "methane"
  std::string why; // "no criterion here is for 12 g of lactulose; …", without a full stop
};

// Whether the test's grid reaches far enough for the criterion: no further sample would have been
// due in its window.
[[nodiscard]] bool grid_reaches(const criterion& c,
                                const std::vector<std::chrono::minutes>& offsets);

// Whether it is for the test's sugar in its dose, and the grid reaches its window's end.
[[nodiscard]] bool judges(const criterion& c, const protocol& test);

// The gases that no criterion judges in that test, hydrogen first. A criterion of both gases
// together judges each.
[[nodiscard]] std::vector<unjudged_gas> unjudged_gases(const std::vector<criterion>& all,
                                                       const protocol& test);

// "Not judged: hydrogen, no criterion here is for …": what report, command line and check say.
[[nodiscard]] std::string unjudged_words(const unjudged_gas& u);

} // namespace qb::inline curves
