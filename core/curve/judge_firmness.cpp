// The same judge, asked a little otherwise each time.
#include "core/curve/judge_firmness.hpp"

#include "core/curve/flags.hpp"

#include <algorithm>

namespace qb::inline curves {

namespace {

// One criterion's changes, each tried by itself.
class changes {
public:
  changes(const criterion_verdict& v, const weighed_curve& c, const ready_criterion& r,
          const curve_terms& terms)
      : is_(v.what), c_(c), r_(r), terms_(terms) {}

  void try_all(const std::vector<std::chrono::minutes>& offsets, firmness& out) {
    try_slack();
    try_timing();
    try_readings();
    if (r_.by->kind == measured_kind::rise) {
      judging how;
      how.lowest_earlier = true;
      add(change::lowest_earlier, judged(how));
    }
    try_other_curves();
    try_implausible();
    if (is_ == answer::does_not_meet) find_gaps(offsets);
    out.tried = std::move(tried_);
    out.turns = std::move(turns_);
  }

private:
  [[nodiscard]] answer judged(const judging& how) const {
    return judge(c_, *r_.by, r_.window, *terms_.laboratory, how).what;
  }

  [[nodiscard]] answer judged(const curve& c) const {
    const judging_terms& lab = *terms_.laboratory;
    return judge(weigh(c, *r_.by, lab, terms_.drink_start), *r_.by, r_.window, lab).what;
  }

  void add(change by, answer to, std::optional<exact> minute = std::nullopt,
           std::optional<int> tube = std::nullopt) {
    if (tried_.empty() || tried_.back() != by) tried_.push_back(by);
    if (to != is_) turns_.push_back({by, to, minute, tube});
  }

  void try_slack() {
    judging how;
    how.no_slack = true;
    if (r_.window.end && terms_.laboratory->slack != exact()) add(change::slack, judged(how));
  }

  // The window's two edges are crossed by different samples, so each may be off its own way.
  void try_timing() {
    const exact off = exact::minutes_of(terms_.laboratory->plausible->clock) + terms_.precision;
    if (off == exact()) return;
    answer to = is_;
    for (const exact end : {exact() - off, off}) {
      for (const exact from : {exact() - off, off}) {
        judging how;
        how.end_shift = end;
        how.from_shift = from;
        if (to == is_) to = judged(how);
      }
    }
    add(change::timing, to);
  }

  void try_readings() {
    judging how;
    how.readings = is_ == answer::meets ? reading_as::at_worst : reading_as::at_best;
    add(change::readings, judged(how));
  }

  void try_other_curves() {
    const other_curves* known = terms_.otherwise;
    if (known != nullptr && known->uncorrected)
      add(change::uncorrected, judged(*known->uncorrected));
    if (terms_.without_low_co2 != nullptr) add(change::low_co2, judged(*terms_.without_low_co2));
    if (known == nullptr) return;
    for (const curve_by_reading& one : known->second)
      add(change::other_reading, judged(one.what), std::nullopt, one.tube);
  }

  void try_implausible() {
    const exact far = exact(terms_.laboratory->plausible->outlier_ppm)
                          .times(r_.by->h2_weight + r_.by->ch4_weight);
    const std::vector<weighed_sample>& all = c_.samples;
    for (std::size_t i = 1; i + 1 < all.size(); ++i) {
      const auto [low, high] = std::minmax(all[i - 1].value, all[i + 1].value);
      if (all[i].value - high < far && low - all[i].value < far) continue;
      judging how;
      how.left_out = i;
      add(change::implausible, judged(how), all[i].minute);
    }
  }

  // Due minutes before the last in the window without a sample that counts for the criterion.
  void find_gaps(const std::vector<std::chrono::minutes>& offsets) {
    std::vector<exact> taken;
    for (const weighed_sample& s : c_.samples)
      taken.push_back(s.minute);
    for (const std::chrono::minutes due : gaps_of(taken, offsets)) {
      const exact minute(due.count());
      if (minute < r_.window.last_due) add(change::gap, answer::meets, minute);
    }
  }

  answer is_;
  const weighed_curve& c_;
  const ready_criterion& r_;
  const curve_terms& terms_;
  std::vector<change> tried_;
  std::vector<turn> turns_;
};

} // namespace

const char* change_text(change c) {
  switch (c) {
  case change::slack: return "slack";
  case change::timing: return "timing";
  case change::readings: return "readings";
  case change::lowest_earlier: return "lowest-earlier";
  case change::uncorrected: return "uncorrected";
  case change::low_co2: return "low-co2";
  case change::other_reading: return "other-reading";
  case change::implausible: return "implausible";
  case change::gap: return "gap";
  }
  QB_BELIEVE(false);
  return "";
}

firmness firmness_of(const criterion_verdict& v, const curve& c, const weighed_curve& weighed,
                     const ready_criterion& r, const std::vector<std::chrono::minutes>& offsets,
                     const curve_terms& terms) {
  firmness out;
  const judging_terms& lab = *terms.laboratory;
  judging strictly;
  strictly.strict = true;
  out.strict = judge(weighed, *r.by, r.window, lab, strictly);
  for (const auto& [other, window] : r.others)
    out.others.push_back(
        {other, judge(weigh(c, *other, lab, terms.drink_start), *other, window, lab)});
  if (lab.plausible) changes(v, weighed, r, terms).try_all(offsets, out);
  out.firm = !out.tried.empty() && v.what != answer::cannot_be_determined && out.turns.empty();
  return out;
}

} // namespace qb::inline curves
