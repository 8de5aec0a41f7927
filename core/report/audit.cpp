// Counting tubes.
#include "core/report/audit.hpp"

#include <algorithm>

namespace qb::inline reports {

namespace {

void count(audit_counts& to, const report_tube& t) {
  ++to.due;
  switch (t.standing) {
  case tube_standing::on_time: ++to.on_time; break;
  case tube_standing::early: ++to.early; break;
  case tube_standing::late: ++to.late; break;
  case tube_standing::missed:
  case tube_standing::not_yet: ++to.missed; break;
  }
  if (t.late)
    to.late_s.push_back(std::chrono::duration_cast<std::chrono::seconds>(*t.late).count());
}

// By nearest rank: the smallest value that `tenths` tenths of all do not pass.
std::optional<std::int64_t> rank(std::vector<std::int64_t> values, std::size_t tenths) {
  constexpr std::size_t all_tenths = 10;
  if (values.empty()) return std::nullopt;
  const std::size_t place = (values.size() * tenths + all_tenths - 1) / all_tenths - 1;
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(place);
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

} // namespace

std::optional<std::int64_t> audit_counts::median_s() const {
  constexpr std::size_t half = 5; // tenths
  return rank(late_s, half);
}
std::optional<std::int64_t> audit_counts::ninth_tenth_s() const {
  constexpr std::size_t nine = 9; // tenths
  return rank(late_s, nine);
}
std::optional<std::int64_t> audit_counts::largest_s() const {
  constexpr std::size_t all = 10; // tenths
  return rank(late_s, all);
}

void audit::add(const report& r) {
  if (!r.anchor || r.tubes.empty()) return;
  audit_test& test = tests_[r.protocol_id];
  ++test.tests;
  const auto kept = [](const report_tube& t) { return t.standing == tube_standing::on_time; };
  if (std::all_of(r.tubes.begin(), r.tubes.end(), kept)) ++test.whole;
  for (const report_tube& t : r.tubes) {
    count(test.tubes[t.number.value()], t);
    if (t.number.value() > 1) count(test.later, t);
  }
}

} // namespace qb::inline reports
