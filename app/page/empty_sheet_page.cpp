// Rows high enough for a hand that shakes, as long as the page has room.
#include "app/page/empty_sheet_page.hpp"

#include "app/page/pages.hpp"
#include "app/page/table.hpp"
#include "app/page/whole_words.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double margin = mm(14);
constexpr double wide = a4_width - 2 * margin;
constexpr double foot_top = a4_height - mm(22);
constexpr double gap = 8;
constexpr double hair = 0.4;
constexpr double head_air = 3; // beside a head, to either side
constexpr double pen_row_high = mm(7.4);
constexpr double tube_row_high = mm(7.8);
constexpr double box = mm(2.8);
constexpr type_style ask_style{8.5};
constexpr type_style value_style{9.5, true};
constexpr type_style tick_style{8.5};
constexpr type_style head_style{10.5, true};
constexpr type_style quiet{8, false, align::left, true};

struct pen_column {
  std::string head;
  double width{0};
};

class empty_writer {
public:
  empty_writer(canvas& c, const empty_sheet& s) : c_(c), s_(s) {}

  void draw() {
    if (s_.rehearsal) mark_practice();
    title();
    for (const pen_row& row : s_.top)
      top_row(row);
    y_ += mm(1.5);
    tubes();
    for (const pen_block& b : s_.blocks)
      block(b);
    y_ = draw_whole_words(c_, {margin, wide, foot_top}, s_.kit_number, y_, [this] {
      new_page();
      return y_;
    });
    foot();
  }

private:
  void mark_practice() {
    constexpr type_style style{14, true, align::centre};
    const tag p(c_, "P");
    y_ += c_.text(margin, y_, wide, {practice_mark, "mark"}, style);
  }

  void title() {
    constexpr type_style big{17, true};
    {
      const tag h(c_, "H1");
      c_.text(margin, y_, wide * 0.65, {s_.title, "title"}, big);
    }
    const tag p(c_, "P");
    const double high = c_.height_of(-1, "Kit", big);
    const double x = margin + wide * 0.65;
    if (s_.kit_number.empty()) {
      const double name = c_.width_of("Kit", big) + gap;
      c_.text(x, y_, name, {"Kit", "kit number"}, big);
      c_.line(x + name, y_ + high - 4, margin + wide, y_ + high - 4, hair);
    } else {
      c_.text(x, y_, wide * 0.35, {"Kit " + s_.kit_number, "kit number"},
              {17, true, align::right, false, 2});
    }
    y_ += high + 1;
    c_.line(margin, y_, margin + wide, y_, 1.2);
    y_ += 3;
  }

  static double share_of(const pen_row& row) {
    double all = 0;
    for (const pen_field& f : row)
      all += f.share;
    return all;
  }

  // Asked small above, answered below: the hand needs the whole width.
  void top_row(const pen_row& row) {
    const double room = wide - gap * static_cast<double>(row.size() - 1);
    const double all = share_of(row);
    double answer = c_.height_of(-1, "0", value_style);
    for (const pen_field& f : row)
      answer = std::max(answer, c_.height_of(room * f.share / all, f.value, value_style));
    const double ask = c_.height_of(-1, "A", quiet);
    double x = margin;
    for (const pen_field& f : row) {
      const tag p(c_, "P");
      const double w = room * f.share / all;
      c_.text(x, y_, w, {f.ask, "sheet"}, quiet);
      const double base = y_ + ask + answer;
      if (!f.value.empty())
        c_.text(x, y_ + ask, w, {f.value, f.ask}, value_style);
      else if (f.ticks.empty())
        c_.line(x, base, x + w, base, hair);
      else
        ticks(f, x, base - 2, x + w, false);
      x += w + gap;
    }
    y_ += ask + answer + mm(1.6);
  }

  // Boxes with their words; where wished a line up to `until` after the last.
  void ticks(const pen_field& f, double x, double base, double until, bool line) {
    const double high = c_.height_of(-1, "A", tick_style);
    for (const std::string& one : f.ticks) {
      c_.frame(x, base - box, box, box, 0.6);
      const double w = c_.width_of(one, tick_style);
      c_.text(x + box + 3, base - high * 0.8, w + 1, {one, "sheet"}, tick_style);
      x += box + 3 + w + gap;
    }
    if (line && x < until) c_.line(x - gap / 2, base, until, base, hair);
  }

  [[nodiscard]] std::vector<pen_column> columns() const {
    std::vector<pen_column> out{{"Tube", mm(11)}, {"After tube 1", mm(25)}};
    if (!s_.condition.empty()) out.push_back({s_.condition, mm(22)});
    out.push_back({"Closed at (hour, minute)", mm(25)});
    out.push_back({"How you know the time", mm(34)});
    // With many symptoms the note gives way first: there is room for one below.
    constexpr std::size_t few = 3;
    const double least_note = s_.symptoms.size() > few ? mm(10) : mm(22);
    double left = wide;
    for (const pen_column& c : out)
      left -= c.width;
    const std::vector<double> scores =
        widths_by_words(c_, s_.symptoms, quiet, 2 * head_air, left - least_note, mm(17));
    for (std::size_t i = 0; i < scores.size(); ++i) {
      out.push_back({s_.symptoms[i], scores[i]});
      left -= scores[i];
    }
    out.push_back({"Note", left});
    return out;
  }

  void table_head(const std::vector<pen_column>& all) {
    double high = 0;
    constexpr double air = head_air;
    for (const pen_column& one : all)
      high = std::max(high, c_.height_of(one.width - 2 * air, one.head, quiet));
    const tag row(c_, "TR");
    double x = margin;
    for (const pen_column& one : all) {
      const tag cell(c_, "TH");
      const double own = c_.height_of(one.width - 2 * air, one.head, quiet);
      c_.text(x + air, y_ + high - own, one.width - 2 * air, {one.head, "sheet"}, quiet);
      x += one.width;
    }
    y_ += high + 1;
    c_.line(margin, y_, margin + wide, y_, 0.8);
  }

  void tubes() {
    {
      const tag p(c_, "P");
      y_ += c_.text(margin, y_, wide,
                    {"Straight after each breath: close the tube, write the time, score how you "
                     "feel: " +
                         s_.scale + ".",
                     "sheet"},
                    {9}) +
            2;
    }
    const std::vector<pen_column> all = columns();
    const tag table(c_, "Table");
    table_head(all);
    for (const empty_row& row : s_.rows) {
      if (y_ + tube_row_high > foot_top) {
        new_page();
        table_head(all);
      }
      tube(row, all);
    }
    y_ += mm(1.5);
  }

  void tube(const empty_row& r, const std::vector<pen_column>& all) {
    const tag row(c_, "TR");
    const double bottom = y_ + tube_row_high;
    std::vector<std::string> cells{fmt::format("{}", r.number.value()), r.offset};
    if (!s_.condition.empty()) cells.push_back(r.planned);
    cells.emplace_back(":");
    double x = margin;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const tag cell(c_, "TD");
      if (i < cells.size()) {
        const bool colon = i + 1 == cells.size();
        const bool planned = !s_.condition.empty() && i == 2;
        const type_style style{i == 0 ? 13.0 : 10.0, i < 2, colon ? align::centre : align::left,
                               planned};
        const double high = c_.height_of(-1, "0", style);
        c_.text(x + 3, y_ + (tube_row_high - high) / 2, all[i].width - 6, {cells[i], "sheet"},
                style);
      } else if (i == cells.size()) {
        ticks({"", "", 1, {"clock", "memory"}}, x + 3, bottom - mm(2.5), x, false);
      }
      x += all[i].width;
      if (i + 1 < all.size()) c_.line(x, y_, x, bottom, hair);
    }
    c_.line(margin, bottom, margin + wide, bottom, hair);
    y_ = bottom;
  }

  void block(const pen_block& b) {
    double high = c_.height_of(-1, b.title, head_style) +
                  pen_row_high * static_cast<double>(std::min<std::size_t>(b.rows.size(), 2));
    if (y_ + high > foot_top) new_page();
    {
      const tag h(c_, "H2");
      y_ += c_.text(margin, y_, wide, {b.title, "sheet"}, head_style);
    }
    if (!b.note.empty()) {
      const tag p(c_, "P");
      y_ += c_.text(margin, y_, wide, {b.note, "sheet"}, quiet);
    }
    for (const pen_row& row : b.rows) {
      if (y_ + pen_row_high > foot_top) new_page();
      beside(row);
    }
    y_ += mm(2);
  }

  // Asked at the left, answered behind it on the same line.
  void beside(const pen_row& row) {
    const double base = y_ + pen_row_high - mm(1);
    const double room = wide - gap * static_cast<double>(row.size() - 1);
    const double all = share_of(row);
    double x = margin;
    for (const pen_field& f : row) {
      const tag p(c_, "P");
      const double end = x + room * f.share / all;
      double from = x;
      if (!f.ask.empty()) {
        const double w = c_.width_of(f.ask, ask_style);
        c_.text(x, base - c_.height_of(-1, "A", ask_style) * 0.8, w + 1, {f.ask, "sheet"},
                ask_style);
        from += w + gap;
      }
      if (f.ticks.empty())
        c_.line(f.ask.empty() ? x : from - gap / 2, base, end, base, hair);
      else
        ticks(f, from, base, end, true);
      x = end + gap;
    }
    y_ += pen_row_high;
  }

  void new_page() {
    foot();
    c_.next_page();
    ++page_;
    y_ = margin;
  }

  void foot() {
    double y = foot_top + mm(2);
    c_.line(margin, y, margin + wide, y, hair);
    y += 3;
    for (const std::string& one : s_.foot) {
      const tag p(c_, "P");
      y += c_.text(margin, y, wide * 0.78, {one, "foot"}, {8, false, align::left, true, 2});
    }
    const tag p(c_, "P");
    c_.text(margin + wide * 0.78, foot_top + mm(2) + 3, wide * 0.22,
            {s_.kit_number.empty() ? fmt::format("Page {}", page_)
                                   : fmt::format("Kit {}, page {}", s_.kit_number, page_),
             "foot"},
            {8, false, align::right});
  }

  canvas& c_;
  const empty_sheet& s_;
  double y_{mm(10)};
  int page_{1};
};

} // namespace

result<std::string> draw_empty_sheet_pdf(const empty_sheet& sheet, const std::string& made_at) {
  canvas c(sheet.title, made_at);
  {
    const tag document(c, "Document");
    empty_writer(c, sheet).draw();
  }
  return c.finish();
}

} // namespace qb::page
