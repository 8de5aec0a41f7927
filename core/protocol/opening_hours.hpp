// When somebody at the laboratory answers the telephone: days of the week and hours.
// As data and not as a sentence, so that a program can say whether it is now.
#pragma once

#include <chrono>
#include <set>
#include <string>
#include <vector>

namespace qb::inline protocols {

// The same hours on some days of the week, in the laboratory's own time.
struct opening_hours {
  std::set<int> days;            // 1 Monday to 7 Sunday
  std::chrono::minutes from{0};  // of the day, 0 to before `until`
  std::chrono::minutes until{0}; // of the day, up to the midnight that ends it
};

// In words: "Monday to Friday, 8:30 to 16:30; Saturday, 9:00 to 12:00". Hours that follow each
// other on the same days are said together: "Monday and Tuesday, 8:00 to 12:00 and 13:00 to 17:00".
[[nodiscard]] std::string hours_in_words(const std::vector<opening_hours>& all);

} // namespace qb::inline protocols
