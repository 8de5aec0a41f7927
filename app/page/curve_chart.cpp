// From minutes and ppm to places on paper.
#include "app/page/curve_chart.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double gas_high = mm(50);
constexpr double track_high = mm(8.2);
constexpr double apart_high = 11;
constexpr double tubes_high = 22; // tube numbers and their words, under the axis
constexpr double left_room = 74;  // names and figures of the upright axis
constexpr double right_room = 62; // names of the lines
constexpr double hair = 0.4;
constexpr double curve_line = 1.4;
constexpr type_style small{7.5};
constexpr type_style quiet{7.5, false, align::left, true};

class chart_writer {
public:
  chart_writer(canvas& c, const curve_chart& chart, double x, double y, double width)
      : c_(c),
        chart_(chart),
        left_(x + left_room),
        right_(x + width - right_room),
        top_(y + 14),
        bottom_(top_ + gas_high),
        far_left_(x) {
    scale_ = scale_for(greatest());
  }

  void draw() {
    const tag figure(c_, "Figure");
    window();
    upright_axis();
    baseline();
    level_lines();
    gas(chart_.methane, stroke::dashed, false);
    gas(chart_.hydrogen, stroke::whole, true);
    names();
    tubes();
    double y = bottom_ + tubes_high;
    for (const chart_track& t : chart_.tracks) {
      track(t, y);
      y += track_high;
    }
    time_axis(y);
  }

private:
  [[nodiscard]] double greatest() const {
    double out = 1;
    for (const chart_gas* g : {&chart_.hydrogen, &chart_.methane}) {
      for (const chart_point& p : g->points)
        out = std::max(out, p.value);
    }
    for (const chart_level& l : chart_.levels)
      out = std::max(out, l.value);
    return out;
  }
  [[nodiscard]] double across(double minute) const {
    const double share = (minute - chart_.first) / (chart_.last - chart_.first);
    return left_ + share * (right_ - left_);
  }
  [[nodiscard]] double up(double value) const {
    return bottom_ - value / scale_.end * (bottom_ - top_);
  }
  [[nodiscard]] spot at(const chart_point& p) const { return {across(p.minute), up(p.value)}; }

  void say(double x, double y, double width, const std::string& text, type_style style,
           align to = align::left) {
    style.to = to;
    c_.text(x, y, width, {text, "chart"}, style);
  }

  // The minutes past the window's end that still count are a grey band, its end a dotted line.
  void window() {
    if (!chart_.window) return;
    const double end = across(*chart_.window);
    const double late = across(std::min(*chart_.window + chart_.slack, chart_.last));
    if (late > end) c_.shade({end, top_, late - end, bottom_ - top_}, 0.86);
    c_.path({{end, top_ - 1}, {end, bottom_}}, 0.8, stroke::dotted);
    const std::string words = fmt::format("window to {:g} min", *chart_.window);
    const double wide = c_.width_of(words, quiet) + 2;
    say(std::min(end - wide / 2, right_ - wide), top_ - 11, wide, words, quiet);
  }

  void upright_axis() {
    c_.line(left_, top_, left_, bottom_, 0.7);
    for (double v = 0; v <= scale_.end + scale_.step / 2; v += scale_.step) {
      const double y = up(v);
      c_.line(left_ - 3, y, left_, y, hair);
      say(left_ - 34, y - 5.5, 29, fmt::format("{:g}", v), small, align::right);
    }
    say(far_left_, top_ - 17, left_room + 90, chart_.unit, quiet);
    c_.line(left_, bottom_, right_, bottom_, 0.7);
  }

  // Where on its line, above or below it, a level's words are farthest from both curves.
  void level_lines() {
    for (const chart_level& l : chart_.levels) {
      const double end = l.until ? across(std::min(*l.until, chart_.last)) : right_;
      const double y = up(l.value);
      c_.path({{left_, y}, {end, y}}, 0.6, stroke::dotted);
      const double wide = c_.width_of(l.words, quiet) + 2;
      constexpr double high = 10;
      spot best{left_ + 3, y - high};
      double most = -1;
      for (double x = left_ + 3; x + wide <= end - 2; x += 12) {
        for (const double top : {y - high, y + 1}) {
          const double free = room_at(x, x + wide, top + high / 2);
          if (free > most) best = {x, top};
          most = std::max(most, free);
        }
      }
      say(best.x, best.y, wide, l.words, quiet);
    }
  }

  // How far the curves and the axis keep from that height, between two places across.
  [[nodiscard]] double room_at(double from, double to, double y) const {
    double out = bottom_ - y;
    for (const chart_gas* g : {&chart_.hydrogen, &chart_.methane}) {
      for (std::size_t i = 1; i < g->points.size(); ++i) {
        const spot a = at(g->points[i - 1]);
        const spot b = at(g->points[i]);
        for (double x = std::max(from, a.x); x <= std::min(to, b.x); x += 2) {
          const double there = a.y + (b.y - a.y) * (x - a.x) / std::max(b.x - a.x, 0.01);
          out = std::min(out, std::abs(there - y));
        }
      }
    }
    return out;
  }

  // Whether a tube that was not taken lies between two minutes.
  [[nodiscard]] bool is_gap(double from, double to) const {
    return std::any_of(chart_.tubes.begin(), chart_.tubes.end(), [&](const chart_tube& t) {
      return t.missed && t.minute > from && t.minute < to;
    });
  }

  void gas(const chart_gas& g, stroke as, bool filled) {
    // A line over a tube that was not taken would show values that nobody measured.
    std::vector<spot> spots;
    std::vector<spot> piece;
    for (std::size_t i = 0; i < g.points.size(); ++i) {
      if (i > 0 && is_gap(g.points[i - 1].minute, g.points[i].minute)) {
        if (piece.size() > 1) c_.path(piece, curve_line, as);
        piece.clear();
      }
      spots.push_back(at(g.points[i]));
      piece.push_back(spots.back());
    }
    if (piece.size() > 1) c_.path(piece, curve_line, as);
    for (const spot& s : spots) {
      if (filled)
        c_.disc(s, 2.6);
      else
        c_.open_square(s, 2.5);
    }
  }

  // One of the names at the right end of what they name.
  struct end_name {
    double x;
    double y;
    std::string words;
    type_style style;
  };

  // Each name beside its line's last point, the baseline's beside its hairline; those that would
  // touch are moved apart, downwards but never below the axis.
  void names() {
    std::vector<end_name> all;
    for (const chart_gas* g : {&chart_.hydrogen, &chart_.methane}) {
      if (g->points.empty()) continue;
      const spot last = at(g->points.back());
      all.push_back({std::min(last.x + 6, right_ + 5), last.y, g->name, {7.5, true}});
    }
    if (chart_.baseline)
      all.push_back({right_ + 5, at(*chart_.baseline).y,
                     fmt::format("baseline {:.3g}", chart_.baseline->value), quiet});
    std::stable_sort(all.begin(), all.end(),
                     [](const end_name& a, const end_name& b) { return a.y < b.y; });
    constexpr double apart = 10;
    for (std::size_t i = 1; i < all.size(); ++i)
      all[i].y = std::max(all[i].y, all[i - 1].y + apart);
    double most = bottom_;
    for (auto one = all.rbegin(); one != all.rend(); ++one) {
      one->y = std::min(one->y, most);
      most = one->y - apart;
    }
    for (const end_name& one : all)
      say(one.x, one.y - 5.5, right_room - 2, one.words, one.style);
  }

  void baseline() {
    if (!chart_.baseline) return;
    const double y = at(*chart_.baseline).y;
    c_.path({{left_, y}, {right_, y}}, 0.3, stroke::whole);
  }

  void tubes() {
    say(far_left_, bottom_ + 5, left_room - 6, "Tube", quiet);
    for (const chart_tube& t : chart_.tubes) {
      const double x = across(t.minute);
      if (t.missed) {
        c_.line(x - 2.5, bottom_ - 2.5, x + 2.5, bottom_ + 2.5, 1);
        c_.line(x - 2.5, bottom_ + 2.5, x + 2.5, bottom_ - 2.5, 1);
      } else {
        c_.line(x, bottom_, x, bottom_ + 4, hair);
      }
      const auto space = t.words.find(' ');
      say(x - 20, bottom_ + 5, 40, t.words.substr(0, space), small, align::centre);
      if (space != t.words.npos)
        say(x - 20, bottom_ + 13, 40, t.words.substr(space + 1), {6.5, true}, align::centre);
    }
  }

  // A column for each score, as high as it is; a hollow foot for a score of 0.
  void track(const chart_track& t, double y) {
    const double base = y + track_high - 2;
    const double most = track_high - 9;
    say(far_left_, base - 9, left_room - 4, t.name, {7.5, false, align::left, true, 1});
    c_.line(left_, base, right_, base, hair);
    std::vector<solid_box> columns;
    for (const chart_point& p : t.points) {
      const double x = across(p.minute);
      const double high = p.value / chart_.most_score * most;
      if (high > 0) columns.push_back({x - 3, base - high, 6, high});
      say(x + 4, base - 9, 14, fmt::format("{:g}", p.value), {6.5});
    }
    c_.solid(columns);
  }

  // As many as can be read beside each other.
  [[nodiscard]] double time_step() const {
    constexpr double most_marks = 18;
    double out = std::max(chart_.step, 1.0);
    while ((chart_.last - chart_.first) / out > most_marks)
      out *= 2;
    return out;
  }

  void time_axis(double y) {
    const double step = time_step();
    const double first = std::ceil(chart_.first / step) * step;
    for (double m = first; m <= chart_.last + 0.01; m += step) {
      const double x = across(m);
      c_.line(x, y, x, y + 3, hair);
      say(x - 15, y + 3, 30, fmt::format("{:g}", m), small, align::centre);
    }
    c_.line(left_, y, right_, y, 0.7);
    say(left_, y + 13, right_ - left_, chart_.axis, quiet, align::centre);
    for (std::size_t i = 0; i < chart_.apart.size(); ++i) {
      const double line = y + 24 + apart_high * static_cast<double>(i);
      say(left_, line, right_ - left_ + right_room, chart_.apart[i], {7.5, true});
    }
    if (!chart_.apart.empty()) break_mark(y);
  }

  // Two strokes across the axis' end: time goes on behind it, and is not drawn.
  void break_mark(double y) {
    for (const double x : {right_ - 1, right_ + 3})
      c_.line(x - 2, y + 4, x + 2, y - 4, 1);
  }

  canvas& c_;
  const curve_chart& chart_;
  double left_, right_, top_, bottom_, far_left_;
  axis_scale scale_;
};

} // namespace

double chart_height(const curve_chart& chart) {
  return 14 + gas_high + tubes_high + track_high * static_cast<double>(chart.tracks.size()) + 24 +
         apart_high * static_cast<double>(chart.apart.size());
}

void draw_chart(canvas& c, const curve_chart& chart, double x, double y, double width) {
  QB_BELIEVE(chart.last > chart.first);
  chart_writer(c, chart, x, y, width).draw();
}

axis_scale scale_for(double greatest) {
  constexpr double marks = 5; // about so many along the axis
  const double rough = std::max(greatest, 1.0) / marks;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = power;
  for (const double times : {1.0, 2.0, 5.0, 10.0}) {
    step = times * power;
    if (step >= rough) break;
  }
  step = std::max(step, 1.0);
  return {std::ceil(std::max(greatest, step) / step) * step, step};
}

} // namespace qb::page
