// One function a pair of dates.
#include "core/receiving/dates.hpp"

#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

std::int64_t days_between(civil_date from, civil_date to) {
  return (std::chrono::sys_days{to} - std::chrono::sys_days{from}).count();
}

class dates {
public:
  dates(const received_kit& kit, const recorded_tubes* told, const zone& lab)
      : kit_(kit), told_(told), lab_(lab) {
    if (!kit.arrivals.empty()) tested_ = kit.arrivals.back().tested;
    if (told != nullptr && told->tested) tested_ = told->tested;
  }

  std::vector<receiving_finding> run(std::optional<std::chrono::days> tube_age) {
    if (!kit_.arrivals.empty()) box(kit_.arrivals.back());
    for (const counted_reading& c : counted_readings(kit_))
      reading(c.reading, tube_age);
    return std::move(out_);
  }

private:
  void say(const char* rule, std::vector<int> samples, std::vector<std::int64_t> figures,
           std::string words) {
    out_.push_back(
        {rule, consequence::review, std::move(samples), std::move(figures), std::move(words)});
  }

  void box(const arrival& b) {
    if (told_ != nullptr && told_->tested && b.tested && *b.tested != *told_->tested)
      say("tested-differs", {}, {},
          fmt::format("the box says tested on {}, the record {}", date_text(*b.tested),
                      date_text(*told_->tested)));
    if (!b.posted) return;
    const civil_date arrived = date_of(lab_.civil_at(b.at));
    const civil_date entered = date_of(lab_.civil_at(b.entered.value_or(b.at)));
    if (days_between(entered, *b.posted) > 0)
      say("posted-future", {}, {},
          fmt::format("posted on {}, a day to come when that was told ({})", date_text(*b.posted),
                      date_text(entered)));
    else if (days_between(arrived, *b.posted) > 0)
      say("arrived-unposted", {}, {},
          fmt::format("arrived on {}, before it was posted on {}", date_text(arrived),
                      date_text(*b.posted)));
    if (tested_ && days_between(*tested_, *b.posted) < 0)
      say("posted-before", {}, {},
          fmt::format("posted on {}, before the test of {}", date_text(*b.posted),
                      date_text(*tested_)));
  }

  // The day and minute a tube was closed: its label's, on the next day where that is earlier than
  // the first tube's.
  [[nodiscard]] std::optional<civil_time> closed(int sample) const {
    const auto at = static_cast<std::size_t>(sample - 1);
    if (told_ == nullptr || !told_->tested || at >= told_->labels.size()) return std::nullopt;
    std::optional<day_minute> first;
    for (const auto& label : told_->labels)
      if (label && !first) first = label;
    const auto& label = told_->labels[at];
    if (!label) return std::nullopt;
    const auto day = std::chrono::days{*label < *first ? 1 : 0};
    return civil_time{std::chrono::local_days{*told_->tested} + day} + *label;
  }

  void reading(const gas_reading& r, std::optional<std::chrono::days> tube_age) {
    const auto shut = closed(r.sample);
    const auto read = measured(r.measured_at);
    if (!shut || !read) return;
    const civil_date from = date_of(*shut);
    const civil_date to = date_of(*read);
    // A day before the test is told as that (core/receiving/slips.hpp).
    if (*read < *shut && days_between(*told_->tested, to) >= 0)
      say("reading-before-closed", {r.sample}, {r.sample},
          fmt::format("tube {} was measured at {}, before it was closed at {}", r.sample,
                      r.measured_at, civil_text(*shut)));
    const std::int64_t age = days_between(from, to);
    if (tube_age && age > tube_age->count())
      say("tube-old", {r.sample}, {r.sample, age, static_cast<std::int64_t>(tube_age->count())},
          fmt::format("tube {} was measured {} days after it was closed; within {} is asked",
                      r.sample, age, tube_age->count()));
  }

  // "2027-04-09T10:30" or with seconds or a space, as readings have it; nothing of another form.
  static std::optional<civil_time> measured(std::string text) {
    constexpr std::size_t to_the_minute = 16;
    constexpr std::size_t between = 10;
    if (text.size() < to_the_minute) return std::nullopt;
    text = text.substr(0, to_the_minute);
    text[between] = ' ';
    const auto at = parse_civil(text);
    return at ? std::optional(*at) : std::nullopt;
  }

  const received_kit& kit_;
  const recorded_tubes* told_;
  const zone& lab_;
  std::optional<civil_date> tested_;
  std::vector<receiving_finding> out_;
};

} // namespace

std::vector<receiving_finding> check_dates(const received_kit& kit, const recorded_tubes* told,
                                           std::optional<std::chrono::days> tube_age,
                                           const zone& lab) {
  return dates(kit, told, lab).run(tube_age);
}

} // namespace qb::inline receiving
