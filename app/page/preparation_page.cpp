// The preparation page: the start first, then the line of time, lists to tick, medicines, trouble.
#include "app/page/preparation_page.hpp"

#include "app/page/pages.hpp"

#include <algorithm>
#include <vector>

namespace qb::page {

namespace {

constexpr double margin = mm(14);
constexpr double wide = a4_width - 2 * margin;
constexpr double foot_top = a4_height - mm(20);
constexpr double hair = 0.4;
constexpr double column_gap = 16;

class preparation_writer {
public:
  preparation_writer(canvas& c, const preparation_text& t, double body)
      : c_(c), t_(t), body_(body) {}

  double draw() {
    mark();
    title();
    facts(t_.first);
    moments();
    columns(lists_to_tick());
    columns({{&t_.medicines}, {&t_.trouble}}, best_share());
    slip_lines();
    facts(t_.whom);
    foot();
    return y_;
  }

private:
  using column = std::vector<const page_list*>;

  [[nodiscard]] type_style body() const { return {body_}; }
  [[nodiscard]] type_style strong() const { return {body_, true}; }
  [[nodiscard]] type_style small() const { return {body_ * 0.86, false, align::left, true}; }
  [[nodiscard]] type_style head() const { return {body_ * 1.15, true}; }
  [[nodiscard]] double air() const { return body_ * 0.5; }

  // Practice, and a test that was called off, are said larger than anything else.
  void mark() {
    std::string words = t_.rehearsal ? practice_mark : "";
    if (t_.called_off) words += words.empty() ? "CALLED OFF" : ", CALLED OFF";
    if (words.empty()) return;
    const type_style style{20, true, align::centre};
    const tag p(c_, "P");
    const double high = c_.height_of(wide, words, style);
    c_.frame(margin, y_, wide, high + 4, 2);
    c_.text(margin, y_ + 2, wide, {words, "mark"}, style);
    y_ += high + 4 + air();
  }

  void title() {
    {
      const tag h(c_, "H1");
      y_ += c_.text(margin, y_, wide, {t_.title, "title"}, {body_ * 1.3});
    }
    const tag p(c_, "P");
    y_ += c_.text(margin, y_, wide, {"Tube 1: " + t_.start, "start"}, {body_ * 1.9, true}) + 2;
    c_.line(margin, y_, margin + wide, y_, 1.2);
    y_ += air() * 0.7;
  }

  // Name over value, all beside each other, the long ones wider.
  void facts(const std::vector<sheet_fact>& all) {
    if (all.empty()) return;
    const std::vector<double> widths = fact_widths(all);
    double high = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
      high = std::max(high, c_.height_of(widths[i], all[i].name, small()) +
                                c_.height_of(widths[i], all[i].value, strong()));
    need(high);
    double x = margin;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const tag p(c_, "P");
      const double down = c_.text(x, y_, widths[i], {all[i].name, "page"}, small());
      c_.text(x, y_ + down, widths[i], {all[i].value, all[i].name}, strong());
      x += widths[i] + column_gap;
    }
    y_ += high + air();
  }

  // Each as wide as its text; where that is too much, only the longest give way.
  std::vector<double> fact_widths(const std::vector<sheet_fact>& all) {
    std::vector<double> own;
    for (const sheet_fact& f : all)
      own.push_back(std::max(c_.width_of(f.value, strong()), c_.width_of(f.name, small())) + 2);
    double room = wide - column_gap * static_cast<double>(all.size() - 1);
    std::vector<double> sorted = own;
    std::sort(sorted.begin(), sorted.end());
    double most = wide; // no one gets more than this
    for (std::size_t i = 0; i < sorted.size(); ++i) {
      const double share = room / static_cast<double>(sorted.size() - i);
      if (sorted[i] > share) {
        most = share;
        break;
      }
      room -= sorted[i];
    }
    for (double& w : own)
      w = std::min(w, most);
    return own;
  }

  void moments() {
    const tag table(c_, "Table");
    double when_wide = 0;
    for (const page_moment& m : t_.moments)
      when_wide = std::max(when_wide, c_.width_of(m.when, strong()));
    when_wide = std::min(when_wide + 1, wide * 0.45);
    const double x = margin + when_wide + column_gap;
    const double right = wide - when_wide - column_gap;
    for (const page_moment& m : t_.moments) {
      const double high = std::max(c_.height_of(when_wide, m.when, strong()),
                                   c_.height_of(right, m.what, strong()) +
                                       (m.more.empty() ? 0 : c_.height_of(right, m.more, body())));
      need(high + body_ * 0.5);
      const tag row(c_, "TR");
      y_ += body_ * 0.2;
      {
        const tag cell(c_, "TH");
        c_.text(margin, y_, when_wide, {m.when, "time"}, strong());
      }
      const tag cell(c_, "TD");
      const double down = c_.text(x, y_, right, {m.what, "preparation"}, strong());
      c_.text(x, y_ + down, right, {m.more, "preparation"}, body());
      y_ += high + body_ * 0.2;
      c_.line(margin, y_, margin + wide, y_, hair);
    }
    y_ += air();
  }

  [[nodiscard]] std::vector<column> lists_to_tick() const {
    std::vector<column> out;
    if (!t_.food.empty()) out.emplace_back();
    for (const page_list& f : t_.food)
      out.front().push_back(&f);
    out.push_back({&t_.evening});
    out.push_back({&t_.morning});
    return out;
  }

  // How much of the width the medicines take beside the trouble, so that the two end together.
  double best_share() {
    double best = 0.5;
    double least = foot_top;
    for (const double share : {0.5, 0.55, 0.6, 0.65}) {
      const double room = wide - column_gap;
      const double high = std::max(set({&t_.medicines}, 0, room * share, false),
                                   set({&t_.trouble}, 0, room * (1 - share), false));
      if (high < least) best = share;
      least = std::min(least, high);
    }
    return best;
  }

  // Lists side by side; they stay together on one page. `first` is the first one's share of the
  // width, the others share the rest; 0: all the same.
  void columns(const std::vector<column>& all, double first = 0) {
    const auto count = static_cast<double>(all.size());
    const double room = wide - column_gap * (count - 1);
    std::vector<double> widths(all.size(),
                               first > 0 ? room * (1 - first) / (count - 1) : room / count);
    if (first > 0) widths.front() = room * first;
    double high = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
      high = std::max(high, set(all[i], 0, widths[i], false));
    need(high);
    double x = margin;
    for (std::size_t i = 0; i < all.size(); ++i) {
      set(all[i], x, widths[i], true);
      x += widths[i] + column_gap;
    }
    y_ += high + air();
  }

  // Draws a column of lists, or only measures it; answers its height.
  double set(const column& lists, double x, double width, bool draw) {
    double down = 0;
    for (const page_list* list : lists) {
      if (down > 0) down += air();
      down += put("H2", x, down, width, list->title, head(), draw) + body_ * 0.15;
      for (const std::string& line : list->lines) {
        const double in = body_ * (list->boxes ? 1.5 : 0);
        if (draw && list->boxes) box(x, y_ + down);
        down += put("P", x + in, down, width - in, line, body(), draw) + body_ * 0.25;
      }
      down += put("P", x, down, width, list->note, body(), draw);
    }
    return down;
  }

  double put(const char* what, double x, double down, double width, const std::string& text,
             const type_style& style, bool draw) {
    if (text.empty()) return 0;
    if (!draw) return c_.height_of(width, text, style);
    const tag t(c_, what);
    return c_.text(x, y_ + down, width, {text, "preparation"}, style);
  }

  void box(double x, double y) {
    const double side = body_ * 0.85;
    c_.frame(x, y + body_ * 0.3, side, side, 0.7);
  }

  // Where a slip is written down by hand.
  void slip_lines() {
    const double high = body_ * 2.2;
    need(high);
    const tag p(c_, "P");
    const double base = y_ + high - body_ * 0.6;
    const double half = wide * 0.6;
    for (const bool when : {false, true}) {
      const std::string name = when ? "When" : "What happened";
      const double x = margin + (when ? half + column_gap : 0);
      const double end = when ? margin + wide : margin + half;
      const double name_wide = c_.width_of(name, small()) + 4;
      c_.text(x, base - c_.height_of(-1, name, small()) + 2, name_wide, {name, "page"}, small());
      c_.line(x + name_wide, base, end, base, hair);
    }
    y_ += high + air() * 0.5;
  }

  void need(double high) {
    if (y_ + high <= foot_top) return;
    foot();
    c_.next_page();
    y_ = margin;
    mark();
  }

  void foot() {
    double y = foot_top + mm(2);
    c_.line(margin, y, margin + wide, y, hair);
    y += 3;
    for (const std::string& one : t_.foot) {
      const tag p(c_, "P");
      y += c_.text(margin, y, wide, {one, "foot"}, {8, false, align::left, true, 2});
    }
  }

  canvas& c_;
  const preparation_text& t_;
  double body_;
  double y_{margin};
};

} // namespace

double draw_preparation(canvas& c, const preparation_text& text, double body) {
  return preparation_writer(c, text, body).draw();
}

result<std::string> draw_preparation_pdf(const preparation_text& text, const std::string& made_at) {
  double body = 0;
  for (const double size : preparation_sizes) {
    canvas trial(text.title, made_at);
    draw_preparation(trial, text, size);
    body = size;
    if (trial.pages() == 1) break;
  }
  canvas c(text.title, made_at);
  {
    const tag document(c, "Document");
    draw_preparation(c, text, body);
  }
  return c.finish();
}

} // namespace qb::page
