// The same judge, asked a little otherwise each time.
#include "core/curve/judge_firmness.hpp"

#include "core/curve/flags.hpp"

#include <algorithm>

namespace qb {

namespace {

exact distance(exact a, exact b) {
  return a < b ? b - a : a - b;
}

exact nominal_minute(const curve_sample& s, const std::vector<std::chrono::minutes>& offsets) {
  if (s.number && *s.number >= 1 && static_cast<std::size_t>(*s.number) <= offsets.size())
    return exact(offsets[static_cast<std::size_t>(*s.number) - 1].count());
  exact nearest(offsets.front().count());
  for (const std::chrono::minutes offset : offsets) {
    const exact due(offset.count());
    if (distance(s.minute, due) < distance(s.minute, nearest)) nearest = due;
  }
  return nearest;
}

std::optional<answer> within_noise(const criterion_verdict& v, const weighed_curve& c,
                                   const ready_criterion& r, const judging_terms& terms) {
  if (r.by->kind != measured_kind::rise) return std::nullopt; // the noise is that of a change
  const exact of_all = terms.noise.times(r.by->h2_weight + r.by->ch4_weight);
  judging how;
  how.slack = terms.slack;
  if (v.what == answer::meets)
    how.least = r.by->threshold + of_all;
  else
    how.more_than = r.by->threshold - of_all;
  return judge(c, *r.by, r.window, how).what;
}

// Where minutes may be off, the edges of the window are moved instead, which comes to the same: one
// is crossed by a sample that lies nearer to it than the precision.
std::optional<answer> within_precision(const criterion_verdict& v, const weighed_curve& c,
                                       const ready_criterion& r, const judging_terms& terms) {
  if (terms.precision == exact()) return std::nullopt;
  for (const exact end_moved : {exact() - terms.precision, terms.precision}) {
    for (const exact from_moved : {exact() - terms.precision, terms.precision}) {
      judging how;
      how.slack = terms.slack + end_moved;
      due_window window = r.window;
      window.last_from = window.last_from + from_moved;
      const answer moved = judge(c, *r.by, window, how).what;
      if (moved != v.what) return moved;
    }
  }
  return v.what;
}

void leave_one_out(const criterion_verdict& v, const weighed_curve& c, const ready_criterion& r,
                   exact slack, firmness& out) {
  out.without_one_sample = v.what;
  judging how;
  how.slack = slack;
  const bool keep_first = r.by->kind == measured_kind::rise && c.has_baseline;
  for (std::size_t i = keep_first ? 1 : 0; i < c.samples.size(); ++i) {
    how.left_out = i;
    const answer without = judge(c, *r.by, r.window, how).what;
    if (without == v.what) continue;
    if (out.needs.empty()) out.without_one_sample = without;
    out.needs.push_back(c.samples[i].minute);
  }
}

// Due minutes before the last in the window without a sample that counts for the criterion.
std::vector<std::chrono::minutes> earlier_gaps(const weighed_curve& c, const ready_criterion& r,
                                               const std::vector<std::chrono::minutes>& offsets) {
  std::vector<exact> taken;
  for (const measured_at& s : c.samples)
    taken.push_back(s.minute);
  std::vector<std::chrono::minutes> out = gaps_of(taken, offsets);
  const auto late = [&](std::chrono::minutes due) {
    return exact(due.count()) >= r.window.last_due;
  };
  out.erase(std::remove_if(out.begin(), out.end(), late), out.end());
  return out;
}

// The same rule on what else is known of the readings.
void by_other_curves(const ready_criterion& r, const judging_terms& terms, firmness& out) {
  judging how;
  how.slack = terms.slack;
  const auto of = [&](const curve& c) { return judge(weigh(c, *r.by), *r.by, r.window, how).what; };
  if (terms.uncorrected != nullptr) out.uncorrected = of(*terms.uncorrected);
  if (terms.without_low_co2 != nullptr) out.without_low_co2 = of(*terms.without_low_co2);
  if (terms.second == nullptr) return;
  for (const curve_by_reading& one : *terms.second)
    out.other_readings.push_back({one.tube, of(one.what)});
}

bool readings_agree(const firmness& f, answer what) {
  return f.uncorrected.value_or(what) == what && f.without_low_co2.value_or(what) == what &&
         std::all_of(f.other_readings.begin(), f.other_readings.end(),
                     [&](const answer_by_reading& o) { return o.says == what; });
}

bool all_agree(const firmness& f, answer what) {
  const auto agrees = [&](const other_verdict& o) { return o.says.what == what; };
  return f.strict.what == what && f.nominal_times == what &&
         f.readings_noise.value_or(what) == what && f.lowest_earlier.value_or(what) == what &&
         f.within_precision.value_or(what) == what && f.without_one_sample == what &&
         std::all_of(f.others.begin(), f.others.end(), agrees) && f.earlier_gaps.empty() &&
         readings_agree(f, what);
}

} // namespace

curve at_nominal_times(const curve& c, const std::vector<std::chrono::minutes>& offsets) {
  curve out = c;
  for (curve_sample& s : out)
    s.minute = nominal_minute(s, offsets);
  // Numbers may say another order than the minutes do.
  const auto earlier = [](const curve_sample& a, const curve_sample& b) {
    return a.minute < b.minute;
  };
  if (!std::is_sorted(out.begin(), out.end(), earlier))
    std::stable_sort(out.begin(), out.end(), earlier);
  return out;
}

firmness firmness_of(const criterion_verdict& v, const curve& c, const weighed_curve& weighed,
                     const ready_criterion& r, const std::vector<std::chrono::minutes>& offsets,
                     const judging_terms& terms) {
  firmness out;
  judging how;
  out.strict = judge(weighed, *r.by, r.window, how);
  how.slack = terms.slack;
  out.nominal_times = judge(weigh(at_nominal_times(c, offsets), *r.by), *r.by, r.window, how).what;
  if (r.by->kind == measured_kind::rise) {
    how.lowest_earlier = true;
    out.lowest_earlier = judge(weighed, *r.by, r.window, how).what;
    how.lowest_earlier = false;
  }
  out.readings_noise = within_noise(v, weighed, r, terms);
  out.within_precision = within_precision(v, weighed, r, terms);
  leave_one_out(v, weighed, r, terms.slack, out);
  by_other_curves(r, terms, out);
  for (const auto& [other, window] : r.others)
    out.others.push_back({other, judge(weigh(c, *other), *other, window, how)});
  if (v.what == answer::does_not_meet) out.earlier_gaps = earlier_gaps(weighed, r, offsets);
  out.firm = all_agree(out, v.what);
  return out;
}

} // namespace qb
