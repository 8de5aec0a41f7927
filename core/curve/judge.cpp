// One pass over the samples decides a criterion.
#include "core/curve/judge.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline curves {

namespace {

constexpr std::int64_t thousand = 1000;

// One gas, taken so many times, added to what a sample comes to.
void add_gas(weighed_sample& out, const exact& reading, reading_range is, int weight,
             const judging_terms& terms) {
  if (weight == 0) return;
  const exact all = reading.times(weight);
  out.value = out.value + all;
  if (is == reading_range::below) {
    out.under_most = true; // from nothing up to, and without, the figure
  } else if (out.least) {
    out.least = *out.least + all;
  }
  if (is == reading_range::above) {
    out.over_least = true;
    out.most.reset();
  } else if (out.most) {
    out.most = *out.most + all;
  }
  if (!terms.plausible) return;
  const exact share = reading.times(terms.plausible->reading_permille);
  const exact least(terms.plausible->reading_ppm * thousand);
  out.off = std::max(out.off, std::max(share, least).times(weight));
}

std::optional<weighed_sample> weighed(const curve_sample& s, const criterion& by,
                                      const judging_terms& terms) {
  if (!s.decides) return std::nullopt;
  if ((by.h2_weight != 0 && !s.h2) || (by.ch4_weight != 0 && !s.ch4)) return std::nullopt;
  weighed_sample out;
  out.minute = s.minute;
  out.due = s.due;
  out.least = out.most = exact();
  add_gas(out, s.h2.value_or(exact()), s.h2_is, by.h2_weight, terms);
  add_gas(out, s.ch4.value_or(exact()), s.ch4_is, by.ch4_weight, terms);
  return out;
}

// The minute at which a sample stands, all clocks so much later.
exact stands_at(const weighed_sample& s, const judging_terms& terms, bool strict, exact shift) {
  const exact at = s.minute + shift;
  const bool on_time =
      !strict && s.due && at >= *s.due - terms.early && at <= *s.due + terms.on_time;
  return on_time ? *s.due : at;
}

// What a sample is above another.
weighed_sample above(const weighed_sample& s, const weighed_sample& from) {
  weighed_sample out = s;
  out.value = s.value - from.value;
  out.least = s.least && from.most ? std::optional(*s.least - *from.most) : std::nullopt;
  out.over_least = s.over_least || from.under_most;
  out.most = s.most && from.least ? std::optional(*s.most - *from.least) : std::nullopt;
  out.under_most = s.under_most || from.over_least;
  out.off = std::max(s.off, from.off);
  return out;
}

// Whether it has the threshold: surely; or at all, by some figure that it may be.
struct has_it {
  bool surely{false};
  bool perhaps{false};
};

has_it has_threshold(const weighed_sample& found, exact threshold, reading_as as) {
  const exact wanted = threshold.times(thousand);
  if (as == reading_as::at_worst) {
    const bool has = found.least && found.least->times(thousand) - found.off >= wanted;
    return {has, has};
  }
  if (as == reading_as::at_best) {
    const bool has = !found.most || found.most->times(thousand) + found.off >= wanted;
    return {has, has};
  }
  return {found.least && *found.least >= threshold,
          !found.most || *found.most > threshold ||
              (*found.most == threshold && !found.under_most)};
}

measured_at told_of(const weighed_sample& found) {
  measured_at out{found.minute, found.value, told_as::not_known};
  if (found.most == found.value) out.is = told_as::less_than;
  if (found.least == found.value)
    out.is = out.is == told_as::less_than ? told_as::exactly : told_as::more_than;
  return out;
}

// The samples of a window, one after the other, and what comes of them.
class window_pass {
public:
  window_pass(const weighed_curve& c, const criterion& by, const due_window& window,
              const judging_terms& terms, const judging& how)
      : c_(c),
        by_(by),
        window_(window),
        terms_(terms),
        how_(how),
        rise_(by.kind == measured_kind::rise) {
    if (window.end) end_ = *window.end + (how.strict || how.no_slack ? exact() : terms.slack);
  }

  criterion_verdict verdict() {
    for (std::size_t i = 0; i < c_.samples.size(); ++i)
      if (how_.left_out != i) take(i);
    if (out_.decided)
      out_.what = answer::meets;
    else if (rise_ && !c_.has_baseline)
      out_.why_not = undecided::no_baseline;
    else if (out_.perhaps)
      out_.why_not = undecided::out_of_range;
    else if (!was_last_taken_)
      out_.why_not = undecided::no_last_sample;
    else
      out_.what = answer::does_not_meet;
    if (out_.what != answer::does_not_meet) out_.last_taken.reset();
    return std::move(out_);
  }

private:
  void take(std::size_t i) {
    const weighed_sample& s = c_.samples[i];
    const bool is_baseline = c_.has_baseline && i == 0;
    if (in_window(s) && (!rise_ || is_baseline || s.after_drink)) {
      out_.last_taken = s.minute;
      was_last_taken_ =
          was_last_taken_ || stands_at(s, terms_, how_.strict, how_.from_shift) > window_.last_from;
      if (!rise_)
        note(s);
      else if (const weighed_sample* from = reference(); from != nullptr && !is_baseline)
        note(above(s, *from));
    }
    if (lowest_ == nullptr || s.value < lowest_->value) lowest_ = &s;
  }

  [[nodiscard]] bool in_window(const weighed_sample& s) const {
    return !end_ || stands_at(s, terms_, how_.strict, how_.end_shift) <= *end_;
  }

  [[nodiscard]] const weighed_sample* reference() const {
    if (how_.lowest_earlier) return lowest_;
    return c_.has_baseline ? &c_.samples.front() : nullptr;
  }

  void note(const weighed_sample& found) {
    const measured_at told = told_of(found);
    const has_it has = has_threshold(found, by_.threshold, how_.readings);
    if (!out_.greatest || told.value > out_.greatest->value) out_.greatest = told;
    if (!out_.decided && has.surely) out_.decided = told;
    if (!out_.perhaps && has.perhaps) out_.perhaps = told;
  }

  const weighed_curve& c_;
  const criterion& by_;
  const due_window& window_;
  const judging_terms& terms_;
  const judging& how_;
  bool rise_;
  std::optional<exact> end_;
  const weighed_sample* lowest_{nullptr}; // of the samples passed
  bool was_last_taken_{false};
  criterion_verdict out_;
};

std::string by_when(const due_window& w) {
  return w.end ? fmt::format("by minute {}", w.end->text()) : std::string("at any sample");
}

std::string words_of_slack(const due_window& w, exact slack) {
  if (!w.end || slack == exact()) return "";
  return fmt::format(" (and {} min of slack)", slack.text());
}

// "H2 rise of 20 ppm at minute 90", "H2 rise of more than 196 ppm at minute 90"
std::string found_words(const measured_at& m, const criterion& by) {
  if (m.is == told_as::not_known)
    return fmt::format("{} at minute {} is not known", measured_text(by), m.minute.text());
  const char* range = m.is == told_as::less_than   ? "less than "
                      : m.is == told_as::more_than ? "more than "
                                                   : "";
  return fmt::format("{} of {}{} ppm at minute {}", measured_text(by), range, m.value.text(),
                     m.minute.text());
}

std::string undecided_words(const criterion_verdict& v, const criterion& by,
                            const due_window& window, exact slack, const std::string& rule) {
  switch (*v.why_not) {
  case undecided::no_substrate: return "the drink was not taken, or was lost";
  case undecided::no_baseline:
    return fmt::format("no baseline: no sample at minute 0 or before with a reading that counts, "
                       "so no {}",
                       measured_text(by));
  case undecided::out_of_range:
    return fmt::format("{}, outside the analyser's range: whether it is {} cannot be told",
                       found_words(*v.perhaps, by), rule);
  case undecided::no_last_sample: break;
  }
  const std::string until = window.end ? fmt::format(" and by minute {}{}", window.end->text(),
                                                     words_of_slack(window, slack))
                                       : std::string();
  return fmt::format("not {} so far, and the sample due at {} has no reading that counts: none "
                     "after minute {}{}",
                     rule, window.last_due.text(), window.last_from.text(), until);
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

const char* told_text(told_as t) {
  switch (t) {
  case told_as::exactly: return nullptr;
  case told_as::less_than: return "less-than";
  case told_as::more_than: return "more-than";
  case told_as::not_known: return "not-known";
  }
  QB_BELIEVE(false);
  return nullptr;
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

weighed_curve weigh(const curve& c, const criterion& by, const judging_terms& terms,
                    exact drink_start) {
  weighed_curve out;
  out.samples.reserve(c.size());
  const curve_sample* base = baseline_of(c);
  for (const curve_sample& s : c) {
    auto one = weighed(s, by, terms);
    if (!one) continue;
    if (&s == base) out.has_baseline = true;
    one->after_drink = s.minute > drink_start;
    out.samples.push_back(std::move(*one));
  }
  return out;
}

criterion_verdict judge(const weighed_curve& c, const criterion& by, const due_window& window,
                        const judging_terms& terms, const judging& how) {
  return window_pass(c, by, window, terms, how).verdict();
}

std::string reason_of(const criterion_verdict& v, const criterion& by, const due_window& window,
                      exact slack) {
  const std::string when = by_when(window) + words_of_slack(window, slack);
  const std::string rule = fmt::format("{} ppm or more {}", by.threshold.text(), when);
  if (v.what == answer::meets) return fmt::format("{}: {}", found_words(*v.decided, by), rule);
  if (v.what == answer::cannot_be_determined) return undecided_words(v, by, window, slack, rule);
  const std::string found = v.greatest ? "greatest " + found_words(*v.greatest, by)
                                       : fmt::format("no {} to tell", measured_text(by));
  return fmt::format("{}, not {}; the sample due at {} was taken at {}", found, rule,
                     window.last_due.text(), v.last_taken->text());
}

} // namespace qb::inline curves
