// The symptom and sample sheet: what the laboratory needs first stands first, then the table of
// tubes, what was told, the person, the preparation.
#include "app/page/pages.hpp"
#include "app/page/qr_section.hpp"
#include "app/page/table.hpp"
#include "app/page/whole_words.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double margin = mm(16);
constexpr double wide = a4_width - 2 * margin;
constexpr double top = mm(12);
constexpr double foot_top = a4_height - mm(23);
constexpr double gap = 7;
constexpr double between_lines = 0.6;
constexpr double least_foot = 7;
constexpr type_style label_style{7.5, false, align::left, true};
constexpr type_style head_style{11, true};
constexpr type_style body_style{9};

// What stands under a tube's row: its corrections, then the person's comment.
template <typename Row>
std::string under_row(const Row& r, const std::string& first = "") {
  std::string out;
  for (const std::string& one : r.corrections)
    out += (out.empty() ? first : "\n") + one;
  if (!r.comment.empty()) out += (out.empty() ? first : "\n") + "Comment: " + r.comment;
  return out;
}

class sheet_writer {
public:
  sheet_writer(canvas& c, const sheet_text& s, const std::vector<code::symbol>& codes, int pages)
      : c_(c), s_(s), codes_(codes), pages_(pages) {}

  void draw() {
    mark_practice();
    title();
    // The kit stands in the title's line already.
    if (!s_.first.empty()) facts({s_.first.begin() + 1, s_.first.end()}, 3, {10.5, true});
    y_ += gap;
    samples();
    told();
    begin_code_column();
    head("Person");
    facts(s_.person, 2, {10});
    preparation();
    end_code_column();
    code_rows();
    const std::string kit = s_.first.empty() ? "" : s_.first.front().value;
    y_ = draw_whole_words(c_, {margin, wide, foot_top}, kit, y_, [this] {
      new_page();
      return y_;
    });
    foot();
  }

private:
  // Practice is said at the top of every page, larger than anything else.
  void mark_practice() {
    if (!s_.rehearsal) return;
    constexpr type_style style{17, true, align::centre};
    const tag p(c_, "P");
    const double high = c_.height_of(wide, practice_mark, style);
    c_.frame(margin, y_, wide, high + 4, 2);
    c_.text(margin, y_ + 2, wide, {practice_mark, "mark"}, style);
    y_ += high + 4 + gap;
  }

  void title() {
    const std::string kit = s_.first.empty() ? "" : "Kit " + s_.first.front().value;
    constexpr type_style big{19, true};
    constexpr type_style big_right{19, true, align::right};
    const double kit_wide = std::min(c_.width_of(kit, big_right) + 2, wide * 0.5);
    double high = 0;
    {
      const tag h(c_, "H1");
      high = c_.text(margin, y_, wide - kit_wide - gap, {s_.title, "title"}, big);
    }
    {
      const tag p(c_, "P");
      high = std::max(
          high, c_.text(margin + wide - kit_wide, y_, kit_wide, {kit, "kit number"}, big_right));
    }
    y_ += high + 1;
    c_.line(margin, y_, margin + wide, y_, 1.2);
    y_ += 7;
  }

  // Name over value, `columns` beside each other.
  void facts(const std::vector<sheet_fact>& all, std::size_t columns, const type_style& value) {
    const double column = text_wide_ / static_cast<double>(columns);
    for (std::size_t i = 0; i < all.size(); i += columns) {
      const std::size_t until = std::min(i + columns, all.size());
      double high = 0;
      for (std::size_t k = i; k < until; ++k)
        high = std::max(high, fact_height(all[k], column, value));
      need(high);
      for (std::size_t k = i; k < until; ++k) {
        const tag p(c_, "P");
        const double x = margin + static_cast<double>(k - i) * column;
        const double down = c_.text(x, y_, column - gap, {all[k].name, "sheet"}, label_style);
        c_.text(x, y_ + down, column - gap, {all[k].value, all[k].name}, value);
      }
      y_ += high + 3;
    }
  }

  double fact_height(const sheet_fact& f, double column, const type_style& value) {
    return c_.height_of(column - gap, f.name, label_style) +
           c_.height_of(column - gap, f.value, value);
  }

  void head(const char* text) {
    y_ += gap;
    need(60); // a headline never stands alone at a page's end
    const tag h(c_, "H2");
    y_ += c_.text(margin, y_, wide, {text, "sheet"}, head_style) + 2;
  }

  void samples() {
    const std::vector<table_column> columns = sample_columns(c_, s_, wide);
    std::vector<table_row> rows;
    for (const sheet_row& r : s_.rows) {
      const std::string day = r.closed_day.empty() ? "" : " (" + r.closed_day + ")";
      table_row row{
          {fmt::format("{}", r.number.value()), r.offset, r.due, r.closed + day, r.how, r.late},
          under_row(r)};
      row.cells.insert(row.cells.end(), r.scores.begin(), r.scores.end());
      rows.push_back(std::move(row));
    }
    for (const sheet_after& r : s_.after) {
      table_row row{{paper_row_of(r.what), r.offset, r.due, r.given, "", ""},
                    r.name + under_row(r, ". ")};
      row.cells.insert(row.cells.end(), r.scores.begin(), r.scores.end());
      rows.push_back(std::move(row));
    }
    std::size_t done = 0;
    while (done < rows.size()) {
      y_ = draw_rows(c_, {margin, y_, foot_top}, columns, rows, done);
      if (done < rows.size()) new_page();
    }
  }

  void told() {
    head("Told and noted");
    if (s_.told.empty()) paragraph("Nothing.", "note");
    for (const std::string& line : s_.told)
      paragraph(line, "note");
  }

  void paragraph(const std::string& text, const char* what) {
    const double high = c_.height_of(wide, text, body_style);
    need(high);
    const tag p(c_, "P");
    y_ += c_.text(margin, y_, wide, {text, what}, body_style) + between_lines;
  }

  void preparation() {
    if (s_.preparation.empty()) return;
    head("Preparation as planned");
    constexpr double name_wide = 152;
    for (const sheet_fact& f : s_.preparation) {
      need(c_.height_of(text_wide_ - name_wide, f.value, body_style));
      const tag p(c_, "P");
      c_.text(margin, y_, name_wide, {f.name, "preparation"}, body_style);
      y_ += c_.text(margin + name_wide, y_, text_wide_ - name_wide, {f.value, "preparation"},
                    body_style) +
            between_lines;
    }
  }

  // One code stands beside person and preparation, where the sheet has room to spare; several have
  // rows of their own.
  void begin_code_column() {
    if (codes_.size() != 1) return;
    y_ += gap;
    need(code_column_height);
    draw_code_column(c_, {margin + wide, y_}, codes_.front(), s_);
    code_bottom_ = y_ + code_column_height;
    text_wide_ = wide - code_column_width;
    y_ -= gap;
  }

  void end_code_column() {
    y_ = std::max(y_, code_bottom_);
    text_wide_ = wide;
  }

  void code_rows() {
    if (codes_.size() < 2) return;
    for (std::size_t first = 0; first < codes_.size(); first += codes_in_a_row) {
      y_ += gap;
      need(code_row_height);
      draw_code_row(c_, {margin + wide, y_}, margin, codes_, first, s_);
      y_ += code_row_height;
    }
  }

  void need(double high) {
    if (y_ + high > foot_top) new_page();
  }

  void new_page() {
    foot();
    c_.next_page();
    ++page_;
    y_ = top;
    code_bottom_ = top;
    text_wide_ = wide;
    mark_practice();
  }

  void foot() {
    const double line_high = c_.height_of(wide, "0", {8}) + 0.5;
    double y = foot_top + mm(3);
    c_.line(margin, y, margin + wide, y, 0.4);
    y += 3;
    const std::string kit = s_.first.empty() ? "" : s_.first.front().value;
    const std::string count = fmt::format("Kit {}, sheet {} of {}", kit, page_, pages_);
    {
      const tag p(c_, "P");
      c_.text(margin + wide * 0.7, y, wide * 0.3, {count, "kit number"},
              {8, false, align::right, false, 2});
    }
    // Beside the count there is less room than below it.
    constexpr std::size_t beside_count = 2;
    for (std::size_t i = 0; i < s_.foot.size(); ++i) {
      const tag p(c_, "P");
      const double room = i < beside_count ? wide * 0.7 : wide;
      type_style style{8, false, align::left, true, 1};
      while (style.size > least_foot && c_.width_of(s_.foot[i], style) > room)
        style.size -= 0.25;
      c_.text(margin, y, room, {s_.foot[i], "foot"}, style);
      y += line_high;
    }
  }

  canvas& c_;
  const sheet_text& s_;
  const std::vector<code::symbol>& codes_;
  int pages_;
  int page_{1};
  double y_{top};
  double text_wide_{wide}; // less beside a code
  double code_bottom_{top};
};

} // namespace

void draw_sheet(canvas& c, const sheet_text& sheet, const std::vector<code::symbol>& codes,
                int pages) {
  sheet_writer(c, sheet, codes, pages).draw();
}

} // namespace qb::page
