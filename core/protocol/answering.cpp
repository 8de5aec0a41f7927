// Day by day from the one before: the span that holds the instant, else the next to begin.
#include "core/protocol/answering.hpp"

#include <algorithm>

namespace qb::inline protocols {

namespace {

struct span {
  instant from;
  instant until;
};

// That minute of the day; `end` takes the later of a time that the clock shows twice.
instant instant_of(civil_date day, std::chrono::minutes of_day, bool end, const zone& z) {
  const civil_meaning meaning = z.meaning_of(at(day, 0, 0) + of_day);
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return end ? two->second : two->first;
  return std::get<missing_time>(meaning).jump;
}

void add_spans(const lab_profile& lab, civil_date day, const zone& z, std::vector<span>& out) {
  const auto& closed = lab.receiving.closed_days;
  if (std::find(closed.begin(), closed.end(), day) != closed.end()) return;
  const auto weekday = static_cast<int>(weekday_of(day).iso_encoding());
  for (const opening_hours& hours : lab.opening_hours) {
    if (hours.days.count(weekday) == 0) continue;
    out.push_back({instant_of(day, hours.from, false, z), instant_of(day, hours.until, true, z)});
  }
}

} // namespace

answering_at answers_telephone(const lab_profile& lab, instant t, const zone& z) {
  if (lab.opening_hours.empty()) return {};
  constexpr int days_ahead = 21; // number: longer than any holiday that is no closing for good
  const civil_date today = date_of(z.civil_at(t));
  std::vector<span> spans;
  for (int n = -1; n <= days_ahead; ++n)
    add_spans(lab, plus_days(today, std::chrono::days{n}), z, spans);
  std::sort(spans.begin(), spans.end(),
            [](const span& a, const span& b) { return a.from < b.from; });
  answering_at out{answering::closed, std::nullopt};
  for (const span& s : spans) {
    const bool joins = out.now == answering::open && s.from <= *out.changes;
    if (joins || (s.from <= t && t < s.until)) {
      out = {answering::open, std::max(s.until, out.changes.value_or(s.until))};
    } else if (out.now == answering::closed && s.from > t) {
      out.changes = s.from;
      return out;
    }
  }
  return out;
}

} // namespace qb::inline protocols
