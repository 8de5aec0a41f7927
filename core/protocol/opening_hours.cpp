// Opening hours in English words.
#include "core/protocol/opening_hours.hpp"

#include <array>
#include <fmt/core.h>
#include <iterator>

namespace qb::inline protocols {

namespace {

std::string day_name(int day) {
  static const std::array<const char*, 7> names{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                "Friday", "Saturday", "Sunday"};
  return names.at(static_cast<std::size_t>(day - 1));
}

std::string time_text(std::chrono::minutes of_day) {
  const auto hour = std::chrono::duration_cast<std::chrono::hours>(of_day);
  return fmt::format("{}:{:02}", hour.count(), (of_day - hour).count());
}

// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? " and " : ", ";
    out += items[i];
  }
  return out;
}

// Days in a row are "Monday to Friday"; two of them are named, since "to" would save nothing.
std::string days_in_words(const std::set<int>& days) {
  std::vector<std::string> items;
  for (auto first = days.begin(); first != days.end();) {
    auto last = first;
    while (std::next(last) != days.end() && *std::next(last) == *last + 1)
      ++last;
    if (*last - *first > 1) {
      items.push_back(day_name(*first) + " to " + day_name(*last));
    } else {
      for (auto day = first; day != std::next(last); ++day)
        items.push_back(day_name(*day));
    }
    first = std::next(last);
  }
  return listed(items);
}

} // namespace

std::string hours_in_words(const std::vector<opening_hours>& all) {
  std::string out;
  for (std::size_t i = 0; i < all.size();) {
    const std::set<int>& days = all[i].days;
    std::vector<std::string> spans;
    for (; i < all.size() && all[i].days == days; ++i)
      spans.push_back(time_text(all[i].from) + " to " + time_text(all[i].until));
    if (!out.empty()) out += "; ";
    out += days_in_words(days) + ", " + listed(spans);
  }
  return out;
}

} // namespace qb::inline protocols
