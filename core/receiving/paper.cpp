// Times of day set on the grid.
#include "core/receiving/paper.hpp"

#include "core/receiving/typed_place.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

using std::chrono::minutes;

constexpr minutes whole_day = std::chrono::days{1};
constexpr minutes half_day = whole_day / 2; // once round the face of a clock

refusal no_line(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "times", std::move(found), std::move(expected)};
}

minutes distance(minutes a, minutes b) {
  return a < b ? b - a : a - b;
}

// Of the ways a time may be meant, the one nearest to where the grid has it. The first of equals:
// as it is written.
minutes likeliest_shift(minutes written, minutes expected) {
  constexpr std::array<minutes, 4> shifts{minutes{0}, whole_day, half_day, -half_day};
  return *std::min_element(shifts.begin(), shifts.end(), [&](minutes a, minutes b) {
    return distance(written + a, expected) < distance(written + b, expected);
  });
}

void ask(paper_line& line, paper_doubt what, int sample, std::string words) {
  const auto same = [&](const paper_question& q) { return q.what == what; };
  if (std::any_of(line.questions.begin(), line.questions.end(), same)) return;
  line.questions.push_back({what, sample, std::move(words)});
}

// Goes from time to time, keeping where the last known one lies.
class line_walk {
public:
  line_walk(paper_line& line, const std::vector<minutes>& offsets)
      : line_(line), offsets_(offsets) {}

  void step(std::size_t i) {
    auto& time = line_.times[i];
    if (!time) return;
    const int sample = static_cast<int>(i) + 1;
    if (!begun_) {
      begun_ = true;
      before_ = *time;
      at_ = i;
      return;
    }
    const minutes written = *time + before_ / whole_day * whole_day;
    const minutes shift = likeliest_shift(written, before_ + offsets_[i] - offsets_[at_]);
    if (shift == whole_day) {
      line_.past_midnight = true;
      ask(line_, paper_doubt::past_midnight, sample,
          fmt::format("tube {} at {}: after midnight, on the next day?", sample,
                      day_minute_text(*time)));
    } else if (shift != minutes{0}) {
      const day_minute meant = (*time + whole_day + shift) % whole_day;
      ask(line_, paper_doubt::twelve_hours, sample,
          fmt::format("tube {} at {}: from a 12-hour clock, and {} is meant?", sample,
                      day_minute_text(*time), day_minute_text(meant)));
      if (meant < before_ % whole_day) line_.past_midnight = true;
      time = meant;
    } else if (written <= before_) {
      ask(line_, paper_doubt::backwards, sample,
          fmt::format("tube {} at {}, and tube {} at {}: is it as it is written?", at_ + 1,
                      day_minute_text(*line_.times[at_]), sample, day_minute_text(*time)));
    }
    before_ = written + shift;
    at_ = i;
  }

private:
  paper_line& line_;
  const std::vector<minutes>& offsets_;
  bool begun_{false};
  minutes before_{0}; // where the last known time lies, after the first midnight
  std::size_t at_{0};
};

// A time of the same sheet on the line of `paper_clock`.
minutes on_clock(const paper_record& p, day_minute time, day_minute from) {
  return p.past_midnight && time < from ? time + whole_day : time;
}

} // namespace

const char* doubt_text(paper_doubt d) {
  switch (d) {
  case paper_doubt::past_midnight: return "past-midnight";
  case paper_doubt::twelve_hours: return "twelve-hours";
  case paper_doubt::backwards: return "as-written";
  case paper_doubt::drink: return "drink-as-written";
  case paper_doubt::replaces: return "replaces";
  }
  QB_BELIEVE(false);
  return "";
}

result<paper_line> read_paper_line(std::string_view text, const std::vector<minutes>& offsets) {
  const auto words = typed_words(text, between_typed);
  paper_line out;
  for (const std::string_view word : words) {
    const auto time = read_day_minute(word);
    if (!time && word != "-")
      return tl::unexpected(refusal{refusal_kind::malformed, "", typed_place("times", text, word),
                                    fmt::format("no time of day for tube {}", out.times.size() + 1),
                                    "a time of day (07:30), or - for a gap"});
    out.times.push_back(time);
  }
  if (words.size() != offsets.size())
    return tl::unexpected(no_line(fmt::format("{} times", words.size()),
                                  fmt::format("{}, one a sample, - for a gap", offsets.size())));
  if (std::none_of(out.times.begin(), out.times.end(), [](const auto& t) { return t.has_value(); }))
    return tl::unexpected(no_line("no time at all", "one at least"));
  line_walk walk(out, offsets);
  for (std::size_t i = 0; i < out.times.size(); ++i)
    walk.step(i);
  return out;
}

std::vector<std::optional<minutes>> paper_clock(const paper_record& p) {
  std::vector<std::optional<minutes>> out;
  std::optional<day_minute> first;
  for (const auto& time : p.times) {
    if (time && !first) first = time;
    out.push_back(time ? std::optional(on_clock(p, *time, *first)) : std::nullopt);
  }
  return out;
}

std::optional<std::vector<std::optional<exact>>> paper_minutes(const paper_record& p,
                                                               time_zero zero) {
  const auto clock = paper_clock(p);
  const auto first =
      std::find_if(p.times.begin(), p.times.end(), [](const auto& t) { return t.has_value(); });
  if (first == p.times.end()) return std::nullopt;
  std::optional<minutes> from;
  if (zero == time_zero::tube_1_closed) {
    from = clock.front();
  } else if (const auto told = zero == time_zero::drink_start ? p.drink.start : p.drink.end) {
    // A drink before tube 1 is none that goes on after midnight.
    const bool next_day = p.past_midnight && **first - *told > half_day;
    from = next_day ? *told + whole_day : *told;
  }
  if (!from) return std::nullopt;
  std::vector<std::optional<exact>> out;
  for (const auto& at : clock)
    out.push_back(at ? std::optional(exact((*at - *from).count())) : std::nullopt);
  return out;
}

} // namespace qb::inline receiving
