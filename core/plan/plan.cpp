// Making a plan: subtraction on two time lines, the physical and the civil one.
#include "core/plan/plan.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline plans {

result<plan> make_plan(const protocol& p, instant start, const zone& z) {
  const civil_date start_date = date_of(z.civil_at(start));
  // A year of margin on both sides keeps every date of the plan writable.
  const int year = static_cast<int>(start_date.year());
  if (year <= first_year || year >= last_year)
    return tl::unexpected(
        refusal{refusal_kind::out_of_range, "", "start", date_text(start_date),
                fmt::format("a year from {:04} to {:04}", first_year + 1, last_year - 1)});
  plan out;
  out.protocol_id = p.id;
  out.zone_name = z.name();
  out.start = start;
  for (const preparation_window& w : p.windows)
    out.windows.push_back({w.why.rule, start - w.from, start - w.until});
  for (const washout& w : p.washouts)
    out.washouts.push_back({w.why.rule, plus_days(start_date, -w.days)});
  for (std::size_t i = 0; i < p.offsets.size(); ++i)
    out.samples.push_back({sample_number::from_index(i), start + p.offsets[i]});
  out.ends = out.samples.back().due;
  out.post_on_or_before = plus_days(date_of(z.civil_at(out.ends)), p.post_within);
  out.start_offset = z.offset_at(start);
  return out;
}

bool follows(const plan& made, const protocol& p) {
  const auto same_window = [&](const planned_window& at, const preparation_window& w) {
    return at.rule == w.why.rule && at.from == made.start - w.from &&
           at.until == made.start - w.until;
  };
  if (made.protocol_id != p.id || made.samples.size() != p.samples()) return false;
  for (std::size_t i = 0; i < p.samples(); ++i) {
    if (made.samples[i].due != made.start + p.offsets[i]) return false;
  }
  return made.ends == made.samples.back().due &&
         std::equal(made.windows.begin(), made.windows.end(), p.windows.begin(), p.windows.end(),
                    same_window);
}

result<instant> resolve_start(civil_time start, const zone& z, fold choice) {
  const civil_meaning meaning = z.meaning_of(start);
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) {
    if (choice == fold::first) return two->first;
    if (choice == fold::second) return two->second;
    const auto offset = [&](instant t) {
      const std::string full = rfc3339(t, z).value_or(rfc3339_utc(t));
      return full;
    };
    return tl::unexpected(refusal{refusal_kind::ambiguous, "", "start",
                                  civil_text(start) + ", which happens twice in " + z.name() +
                                      " because clocks go back",
                                  fmt::format("a choice: first ({}) or second ({})",
                                              offset(two->first), offset(two->second))});
  }
  const auto& none = std::get<missing_time>(meaning);
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "start",
                                civil_text(start) + ", which does not exist in " + z.name() +
                                    " because clocks jump over it",
                                fmt::format("{} or before, or {} or after", civil_text(none.before),
                                            civil_text(none.after))});
}

std::vector<std::string> during_test_texts(const protocol& p, const lab_profile& l) {
  std::vector<std::string> out;
  for (const holding_rule& h : p.during_test)
    out.push_back(h.text);
  if (l.water_during_test == "none") out.emplace_back("No water.");
  if (l.water_during_test == "sips") out.emplace_back("Small sips of water only.");
  if (l.water_during_test == "free") out.emplace_back("Water is allowed.");
  return out;
}

} // namespace qb::inline plans
