// The table's typesetting.
#include "app/page/table.hpp"

#include <algorithm>
#include <sstream>

namespace qb::page {

namespace {

constexpr double cell_gap = 10;
constexpr double row_air = 3.2; // over and under a row's text, together
constexpr double hair = 0.3;
constexpr double head_rule = 0.8;
constexpr type_style below_style{8.5};

type_style cell_style(const table_column& column, bool head) {
  return {head ? 8.0 : 9.5, false, column.to, head};
}

// One table as it is being drawn.
class table_writer {
public:
  table_writer(canvas& c, double x, const std::vector<table_column>& columns)
      : c_(c), x_(x), columns_(columns) {
    for (const table_column& column : columns)
      total_ += column.width;
  }

  double head(double y) {
    table_row heads;
    for (const table_column& column : columns_)
      heads.cells.push_back(column.head);
    const double high = cells_height(heads, true);
    draw(y, heads, true);
    c_.line(x_, y + high + 1.5, x_ + total_, y + high + 1.5, head_rule);
    return y + high + 1.5;
  }

  double row(double y, const table_row& r) {
    draw(y + row_air / 2, r, false);
    y += height(r);
    c_.line(x_, y, x_ + total_, y, hair);
    return y;
  }

  double height(const table_row& r) {
    double high = cells_height(r, false) + row_air;
    if (!r.below.empty()) high += c_.height_of(below_width(), r.below, below_style);
    return high;
  }

private:
  // What stands below starts under the second column, so that the numbers' column stays clear.
  [[nodiscard]] double below_x() const { return x_ + columns_.front().width; }
  [[nodiscard]] double below_width() const { return total_ - columns_.front().width; }

  double cells_height(const table_row& r, bool head) {
    double high = c_.height_of(-1, "0", cell_style(columns_.front(), head));
    for (std::size_t i = 0; i < columns_.size(); ++i)
      high = std::max(high, c_.height_of(columns_[i].width - cell_gap, r.cells[i],
                                         cell_style(columns_[i], head)));
    return high;
  }

  void draw(double y, const table_row& r, bool head) {
    const tag row_tag(c_, "TR");
    const double high = cells_height(r, head);
    double x = x_;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const tag cell(c_, head ? "TH" : "TD");
      const type_style style = cell_style(columns_[i], head);
      const double inner = columns_[i].width - cell_gap;
      // Heads stand on the line below them.
      const double down = head ? high - c_.height_of(inner, r.cells[i], style) : 0;
      c_.text(x, y + down, inner, {r.cells[i], columns_[i].head}, style);
      x += columns_[i].width;
    }
    if (r.below.empty()) return;
    const tag cell(c_, "TD");
    c_.text(below_x(), y + high, below_width(), {r.below, "comment at " + r.cells.front()},
            below_style);
  }

  canvas& c_;
  double x_;
  const std::vector<table_column>& columns_;
  double total_{-cell_gap}; // the last column's gap has no neighbour
};

} // namespace

std::vector<double> widths_by_words(canvas& c, const std::vector<std::string>& heads,
                                    const type_style& style, double air, double room, double most) {
  std::vector<double> out;
  double sum = 0;
  for (const std::string& head : heads) {
    double longest = 0;
    std::istringstream words(head);
    for (std::string word; words >> word;)
      longest = std::max(longest, c.width_of(word, style));
    out.push_back(longest + air);
    sum += out.back();
  }
  const double left = room - sum;
  for (double& width : out) {
    const double share = left / static_cast<double>(out.size());
    width = left < 0 ? width * room / sum : std::max(width, std::min(most, width + share));
  }
  return out;
}

std::vector<table_column> sample_columns(canvas& c, const sheet_text& s, double width) {
  // Over midnight a day stands beside each time, on the same line.
  const bool over_midnight = std::any_of(s.rows.begin(), s.rows.end(), [](const sheet_row& r) {
    return !r.closed_day.empty() || r.due.find('(') != r.due.npos;
  });
  const double clock = over_midnight ? 76 : 48;
  std::vector<table_column> out{
      {"Tube", 32, align::right},          {"After tube 1", 66}, {"Due", clock, align::right},
      {"Closed", clock + 2, align::right}, {"How known", 68},    {"Against due", 82}};
  double left = width + cell_gap;
  for (const table_column& column : out)
    left -= column.width;
  const type_style head = cell_style({"", 0, align::right}, true);
  const std::vector<double> scores = widths_by_words(c, s.symptoms, head, cell_gap, left, left);
  for (std::size_t i = 0; i < scores.size(); ++i)
    out.push_back({s.symptoms[i], scores[i], align::right});
  return out;
}

double draw_rows(canvas& c, const table_place& place, const std::vector<table_column>& columns,
                 const std::vector<table_row>& rows, std::size_t& done) {
  const tag table(c, "Table");
  table_writer writer(c, place.x, columns);
  double y = writer.head(place.y);
  const std::size_t first = done;
  while (done < rows.size()) {
    if (done > first && y + writer.height(rows[done]) > place.bottom) break;
    y = writer.row(y, rows[done]);
    ++done;
  }
  return y;
}

} // namespace qb::page
