// One pass over the samples decides a criterion.
#include "core/curve/judge.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

namespace {

std::optional<exact> weighed(const curve_sample& s, const criterion& by) {
  if ((by.h2_weight != 0 && !s.h2) || (by.ch4_weight != 0 && !s.ch4)) return std::nullopt;
  return s.h2.value_or(exact()).times(by.h2_weight) + s.ch4.value_or(exact()).times(by.ch4_weight);
}

bool has_threshold(exact value, const criterion& by, const judging& how) {
  if (how.more_than) return value > *how.more_than;
  return value >= how.least.value_or(by.threshold);
}

std::string by_when(const due_window& w) {
  return w.end ? fmt::format("by minute {}", w.end->text()) : std::string("at any sample");
}

std::string words_of_slack(const due_window& w, exact slack) {
  if (!w.end || slack == exact()) return "";
  return fmt::format(" (and {} min of slack)", slack.text());
}

// "H2 rise of 20 ppm at minute 90"
std::string found_words(const measured_at& m, const criterion& by) {
  return fmt::format("{} of {} ppm at minute {}", measured_text(by), m.value.text(),
                     m.minute.text());
}

} // namespace

const char* answer_text(answer a) {
  switch (a) {
  case answer::meets: return "meets";
  case answer::does_not_meet: return "does-not-meet";
  case answer::cannot_be_determined: return "cannot-be-determined";
  }
  QB_BELIEVE(false);
  return "";
}

std::optional<measured_at> criterion_verdict::deciding() const {
  if (what == answer::meets) return decided;
  return what == answer::does_not_meet ? greatest : std::nullopt;
}

due_window window_on(const criterion& c, const std::vector<std::chrono::minutes>& offsets) {
  QB_BELIEVE(!offsets.empty());
  std::size_t last = offsets.size() - 1;
  while (c.until && last > 0 && exact(offsets[last].count()) > *c.until)
    --last;
  // The first of the grid has none before it; then it is the one after it.
  const std::size_t from = last > 0 ? last - 1 : 0;
  const std::chrono::minutes interval =
      offsets.size() > 1 ? offsets[from + 1] - offsets[from] : std::chrono::minutes{0};
  const exact due(offsets[last].count());
  return {c.until, due, due - exact(interval.count()).half()};
}

weighed_curve weigh(const curve& c, const criterion& by) {
  weighed_curve out;
  out.samples.reserve(c.size());
  for (const curve_sample& s : c) {
    if (const auto value = weighed(s, by)) out.samples.push_back({s.minute, *value});
  }
  const curve_sample* base = baseline_of(c);
  out.has_baseline = base != nullptr && weighed(*base, by).has_value();
  return out;
}

criterion_verdict judge(const weighed_curve& c, const criterion& by, const due_window& window,
                        const judging& how) {
  criterion_verdict out;
  const bool rise = by.kind == measured_kind::rise;
  const bool from_baseline = rise && !how.lowest_earlier;
  const bool no_reference = from_baseline && !c.has_baseline;
  std::optional<exact> lowest; // of the samples passed
  std::optional<exact> last;   // minute of the last in the window
  for (std::size_t i = 0; i < c.samples.size(); ++i) {
    if (how.left_out == i) continue;
    const measured_at& s = c.samples[i];
    if (window.end && s.minute > *window.end + how.slack) break;
    last = s.minute;
    const bool has_reference = !rise || (from_baseline ? i > 0 : lowest.has_value());
    if (has_reference && !no_reference) {
      const exact reference = !rise ? exact() : (from_baseline ? c.samples.front().value : *lowest);
      const measured_at found{s.minute, s.value - reference};
      if (!out.greatest || found.value > out.greatest->value) out.greatest = found;
      if (!out.decided && has_threshold(found.value, by, how)) out.decided = found;
    }
    if (!lowest || s.value < *lowest) lowest = s.value;
  }
  if (out.decided) {
    out.what = answer::meets;
  } else if (rise && !c.has_baseline) {
    out.why_not = undecided::no_baseline;
  } else if (!last || *last <= window.last_from) {
    out.why_not = undecided::no_last_sample;
  } else {
    out.what = answer::does_not_meet;
    out.last_taken = last;
  }
  return out;
}

criterion_verdict judge(const curve& c, const criterion& by,
                        const std::vector<std::chrono::minutes>& offsets, exact slack) {
  judging how;
  how.slack = slack;
  return judge(weigh(c, by), by, window_on(by, offsets), how);
}

std::string reason_of(const criterion_verdict& v, const criterion& by, const due_window& window,
                      exact slack) {
  const std::string when = by_when(window) + words_of_slack(window, slack);
  const std::string rule = fmt::format("{} ppm or more {}", by.threshold.text(), when);
  if (v.what == answer::meets) return fmt::format("{}: {}", found_words(*v.decided, by), rule);
  if (v.what == answer::does_not_meet) {
    const std::string found = v.greatest ? "greatest " + found_words(*v.greatest, by)
                                         : fmt::format("no {} to tell", measured_text(by));
    return fmt::format("{}, not {}; the sample due at {} was taken at {}", found, rule,
                       window.last_due.text(), v.last_taken->text());
  }
  if (*v.why_not == undecided::no_baseline)
    return fmt::format("no baseline: no sample at minute 0 or before with a reading, so no {}",
                       measured_text(by));
  const std::string until = window.end ? fmt::format(" and by minute {}{}", window.end->text(),
                                                     words_of_slack(window, slack))
                                       : std::string();
  return fmt::format("not {} so far, and the sample due at {} has no reading: none after minute "
                     "{}{}",
                     rule, window.last_due.text(), window.last_from.text(), until);
}

} // namespace qb
