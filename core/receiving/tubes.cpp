// The checks, one a rule.
#include "core/receiving/tubes.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

constexpr day_minute whole_day = std::chrono::days{1};

// How far two times of day are apart, the shorter way round.
day_minute apart(day_minute a, day_minute b) {
  const day_minute d = a < b ? b - a : a - b;
  return std::min(d, whole_day - d);
}

class box_check {
public:
  box_check(const received_kit& kit, const recorded_tubes* told, const box_terms& terms,
            const zone& lab)
      : kit_(kit), box_(kit.arrivals.back()), told_(told), terms_(terms), lab_(lab) {}

  std::vector<receiving_finding> run() {
    identifiers();
    if (told_ != nullptr && !kit_.tubes.empty()) {
      which_tubes();
      labels();
    }
    twice();
    lids();
    days();
    sheet();
    return std::move(out_);
  }

private:
  void say(const char* rule, std::vector<int> samples, std::vector<std::int64_t> figures,
           std::string words, consequence weight = consequence::review) {
    out_.push_back({rule, weight, std::move(samples), std::move(figures), std::move(words)});
  }

  void identifiers() {
    if (box_.identifiers == stated::no)
      say("identifiers-differ", {}, {}, "the two identifiers on the box are not the request's");
    if (box_.identifiers == stated::not_stated)
      say("identifiers-open", {}, {}, "the two identifiers were not compared with the request");
    if (told_ != nullptr && !box_.protocol.empty() && !told_->protocol.empty() &&
        box_.protocol != told_->protocol)
      say("kit-other-test", {}, {},
          fmt::format("the box is of {}, the record of {}", box_.protocol, told_->protocol));
  }

  [[nodiscard]] int count_of(int sample) const {
    return static_cast<int>(
        std::count_if(kit_.tubes.begin(), kit_.tubes.end(),
                      [&](const received_tube& t) { return t.sample == sample && t.present; }));
  }

  void which_tubes() {
    const int samples = static_cast<int>(told_->labels.size());
    for (int n = 1; n <= samples; ++n) {
      const bool blown = told_->labels[static_cast<std::size_t>(n - 1)].has_value();
      if (blown && count_of(n) == 0)
        say("tube-missing", {n}, {n}, fmt::format("tube {} is not in the box", n));
      if (!blown && count_of(n) > 0)
        say("tube-extra", {n}, {n},
            fmt::format("tube {} is in the box, and the record has no breath for it", n));
    }
    for (const received_tube& t : kit_.tubes)
      if (t.present && t.sample > samples)
        say("tube-extra", {t.sample}, {t.sample, samples},
            fmt::format("tube {} is in the box, and the test has {}", t.sample, samples));
  }

  void twice() {
    std::vector<int> told;
    for (const received_tube& t : kit_.tubes) {
      const int count = count_of(t.sample);
      if (count < 2 || std::count(told.begin(), told.end(), t.sample) > 0) continue;
      told.push_back(t.sample);
      say("tube-twice", {t.sample}, {count, t.sample},
          fmt::format("{} tubes in the box bear the number {}", count, t.sample));
    }
  }

  void lids() {
    for (const received_tube& t : kit_.tubes)
      if (t.present && t.lid == lid_state::bad)
        say("lid-bad", {t.sample}, {t.sample},
            fmt::format("the lid of tube {} was not closed well", t.sample));
  }

  // A tube that alone bears its number, has a time on its label and a breath in the record.
  struct labelled {
    int sample;
    day_minute label;
    day_minute record;
  };
  [[nodiscard]] bool agree(day_minute label, day_minute record) const {
    return apart(label, record) <= *terms_.label_within;
  }

  void labels() {
    if (!terms_.label_within) return;
    std::vector<labelled> wrong;
    for (const received_tube& t : kit_.tubes) {
      const auto at = static_cast<std::size_t>(t.sample - 1);
      if (!t.present || !t.label || at >= told_->labels.size() || !told_->labels[at] ||
          count_of(t.sample) != 1)
        continue;
      if (!agree(*t.label, *told_->labels[at]))
        wrong.push_back({t.sample, *t.label, *told_->labels[at]});
    }
    for (auto a = wrong.begin(); a != wrong.end();) {
      const auto b = std::find_if(a + 1, wrong.end(), [&](const labelled& other) {
        return agree(a->label, other.record) && agree(other.label, a->record);
      });
      if (b == wrong.end()) {
        label_differs(*a);
      } else {
        say("labels-swapped", {a->sample, b->sample}, {a->sample, b->sample},
            fmt::format("tubes {} and {}: their labels say {} and {}, the record {} and {}; "
                        "exchanged, they would agree",
                        a->sample, b->sample, day_minute_text(a->label), day_minute_text(b->label),
                        day_minute_text(a->record), day_minute_text(b->record)));
        wrong.erase(b);
      }
      a = wrong.erase(a);
    }
  }

  void label_differs(const labelled& t) {
    say("label-differs", {t.sample},
        {t.sample, static_cast<std::int64_t>(apart(t.label, t.record).count())},
        fmt::format("tube {}: its label says {}, the record {}", t.sample, day_minute_text(t.label),
                    day_minute_text(t.record)));
  }

  void days() {
    std::optional<civil_date> tested = box_.tested;
    if (told_ != nullptr && told_->tested) tested = told_->tested;
    const civil_date arrived = date_of(lab_.civil_at(box_.at));
    const auto days_between = [](civil_date from, civil_date to) {
      return (std::chrono::sys_days{to} - std::chrono::sys_days{from}).count();
    };
    if (tested && days_between(*tested, arrived) < 0)
      say("arrived-before", {}, {},
          fmt::format("arrived on {}, before the test of {}", date_text(arrived),
                      date_text(*tested)));
    if (box_.posted) {
      if (tested && terms_.post_within)
        too_many("posted-late", days_between(*tested, *box_.posted), *terms_.post_within,
                 "posted {} days after the test; within {} is asked");
      if (terms_.transit_within)
        too_many("transit-long", days_between(*box_.posted, arrived), *terms_.transit_within,
                 "{} days on the way; at most {} is asked");
    } else if (tested && terms_.post_within && terms_.transit_within) {
      too_many("late-or-long", days_between(*tested, arrived),
               *terms_.post_within + *terms_.transit_within,
               "arrived {} days after the test; posting and the way have {} together");
    }
  }

  void too_many(const char* rule, std::int64_t days, std::chrono::days most, const char* words) {
    const auto limit = static_cast<std::int64_t>(most.count());
    if (days > limit) say(rule, {}, {days, limit}, fmt::format(fmt::runtime(words), days, limit));
  }

  void sheet() {
    if (box_.stopped == stated::yes)
      say("stopped-told", {}, {}, "the sheet says that the test was stopped, or that they vomited",
          consequence::note);
    if (box_.completed == stated::no)
      say("not-completed", {}, {}, "the sheet says that the test was not completed",
          consequence::note);
  }

  const received_kit& kit_;
  const arrival& box_;
  const recorded_tubes* told_;
  const box_terms& terms_;
  const zone& lab_;
  std::vector<receiving_finding> out_;
};

} // namespace

recorded_tubes recorded_tubes_of(const report& r) {
  constexpr auto day = std::chrono::days{1};
  recorded_tubes out;
  out.protocol = r.protocol_id;
  for (const report_tube& t : r.tubes) {
    if (!t.closed) {
      out.labels.emplace_back();
      continue;
    }
    const auto since = r.place.civil_at(*t.closed).time_since_epoch();
    out.labels.emplace_back(((since % day) + day) % day);
  }
  const auto started = r.anchor ? r.anchor : r.planned_start;
  if (started) out.tested = date_of(r.place.civil_at(*started));
  return out;
}

recorded_tubes recorded_tubes_of(const paper_record& p) {
  return {p.protocol, p.times, p.day};
}

std::vector<receiving_finding> check_box(const received_kit& kit, const recorded_tubes* told,
                                         const box_terms& terms, const zone& lab) {
  if (kit.arrivals.empty()) return {};
  return box_check(kit, told, terms, lab).run();
}

std::vector<finding> as_findings(const std::vector<receiving_finding>& found) {
  std::vector<finding> out;
  for (const receiving_finding& f : found) {
    finding one{f.rule, f.weight, {}, {}, f.figures, f.words};
    if (f.samples.empty()) out.push_back(one);
    for (const int n : f.samples) {
      one.sample = sample_number::in_range(n) ? std::optional(sample_number(n)) : std::nullopt;
      out.push_back(one);
    }
  }
  return out;
}

} // namespace qb::inline receiving
