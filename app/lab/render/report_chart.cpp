// The case's curve as points and marks.
#include "app/lab/render/report_sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

using page::chart_level;
using page::curve_chart;

double minutes_from_zero(const test_case& c, instant t) {
  return exact::minutes_of(t - *c.zero_at).rounded();
}

page::chart_gas gas_of(const test_case& c, std::optional<exact> curve_sample::*gas,
                       const char* name) {
  page::chart_gas out{name, {}};
  for (const curve_sample& s : c.gases) {
    if (s.*gas) out.points.push_back({s.minute.rounded(), (s.*gas)->rounded()});
  }
  return out;
}

// What a criterion asks of one gas alone; of several weighed together no line can be drawn.
std::optional<chart_level> level_of(const criterion& by, const test_case& c) {
  const bool hydrogen = by.h2_weight == 1 && by.ch4_weight == 0;
  const bool methane = by.h2_weight == 0 && by.ch4_weight == 1;
  if (!hydrogen && !methane) return std::nullopt;
  const char* gas = hydrogen ? "H2" : "CH4";
  chart_level out;
  if (by.until) out.until = by.until->rounded();
  out.value = by.threshold.rounded();
  out.words = fmt::format("{} {} ppm ({})", gas, by.threshold.text(), by.id);
  if (by.kind == measured_kind::level) return out;
  const curve_sample* base = baseline_of(c.gases);
  if (base == nullptr) return std::nullopt;
  const auto& reading = hydrogen ? base->h2 : base->ch4;
  if (!reading) return std::nullopt;
  out.value += reading->rounded();
  out.words = fmt::format("{} baseline + {} ppm ({})", gas, by.threshold.text(), by.id);
  return out;
}

void mark_tubes(const test_case& c, curve_chart& out) {
  for (const case_tube& t : c.tubes) {
    page::chart_tube mark{0, fmt::format("{}", t.number), false};
    if (t.minute) {
      mark.minute = t.minute->rounded();
      if (t.standing == tube_standing::late) mark.words += " late";
      if (t.standing == tube_standing::early) mark.words += " early";
      if (!t.left_out.empty()) mark.words = fmt::format("{} left out", t.number);
      if (!t.undecided_by.empty()) mark.words += " not counted";
    } else if (t.due && c.zero_at) {
      mark.minute = minutes_from_zero(c, *t.due);
      mark.missed = true;
      mark.words += t.standing == tube_standing::missed ? " missed" : " not taken";
    } else {
      continue;
    }
    out.tubes.push_back(std::move(mark));
  }
}

void fill_tracks(const test_case& c, curve_chart& out) {
  for (std::size_t i = 0; i < c.tracks.size(); ++i) {
    page::chart_track track{c.test.symptoms[i].text, {}};
    for (const auto& [minute, score] : c.tracks[i].scores) {
      if (score) track.points.push_back({minute.rounded(), static_cast<double>(*score)});
    }
    out.tracks.push_back(std::move(track));
  }
  out.most_score = c.test.score_most;
}

// Where the axis ends at the utmost: three times as long as the test is meant to take. A clock that
// was set far away between two tubes puts what came after it years behind.
struct axis_reach {
  double first;
  double last;
  [[nodiscard]] bool holds(double minute) const { return minute >= first && minute <= last; }
};

// Takes what lies beyond the axis out of the drawing, and names it.
void set_apart(const axis_reach& axis, curve_chart& out) {
  const auto beyond = [&](const auto& it) { return !axis.holds(it.minute); };
  for (const page::chart_tube& t : out.tubes) {
    if (!beyond(t)) continue;
    std::string words =
        fmt::format("Apart, not on this axis: tube {} at minute {:.0f}", t.words, t.minute);
    for (const page::chart_gas* g : {&out.hydrogen, &out.methane}) {
      for (const page::chart_point& p : g->points)
        if (p.minute == t.minute) words += fmt::format(", {} {:.3g}", g->name, p.value);
    }
    out.apart.push_back(words);
  }
  const auto take_out = [&](auto& all) {
    all.erase(std::remove_if(all.begin(), all.end(), beyond), all.end());
  };
  take_out(out.hydrogen.points);
  take_out(out.methane.points);
  take_out(out.tubes);
  for (page::chart_track& t : out.tracks)
    take_out(t.points);
}

} // namespace

curve_chart chart_of(const test_case& c) {
  curve_chart out;
  out.axis = fmt::format("minutes since {}", c.zero == time_zero::tube_1_closed
                                                 ? std::string("tube 1 was closed")
                                                 : std::string("the ") + time_zero_text(c.zero));
  const bool corrected = std::any_of(c.tubes.begin(), c.tubes.end(), [](const case_tube& t) {
    return t.gases && t.gases->corrected;
  });
  const bool raw = std::any_of(c.tubes.begin(), c.tubes.end(), [](const case_tube& t) {
    return t.in_curve && !t.gases->corrected;
  });
  out.unit = "ppm";
  if (corrected) out.unit += raw ? ", corrected where CO2 was measured" : ", corrected by CO2";
  out.hydrogen = gas_of(c, &curve_sample::h2, "Hydrogen H2");
  out.methane = gas_of(c, &curve_sample::ch4, "Methane CH4");
  if (const curve_sample* base = baseline_of(c.gases); base != nullptr && base->h2)
    out.baseline = page::chart_point{base->minute.rounded(), base->h2->rounded()};
  for (const judged_criterion& j : c.judged.criteria) {
    if (auto level = level_of(*j.by, c)) out.levels.push_back(std::move(*level));
    if (j.by->until) out.window = j.by->until->rounded();
  }
  out.slack = c.judged.slack.rounded();
  mark_tubes(c, out);
  fill_tracks(c, out);
  const auto& offsets = c.test.offsets;
  out.last = static_cast<double>(offsets.back().count());
  const double meant = std::max(out.last, 1.0);
  set_apart({-meant, 2 * meant}, out);
  if (offsets.size() > 1) out.step = static_cast<double>((offsets[1] - offsets[0]).count());
  for (const page::chart_tube& t : out.tubes) {
    out.first = std::min(out.first, t.minute);
    out.last = std::max(out.last, t.minute);
  }
  return out;
}

} // namespace qb::lab
