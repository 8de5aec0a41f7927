// The report's typesetting: facts, curve and table first; answers, findings and conclusion after.
#include "app/page/report_page.hpp"

#include "app/page/pages.hpp"
#include "app/page/whole_words.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double margin = mm(14);
constexpr double wide = a4_width - 2 * margin;
constexpr double foot_top = a4_height - mm(19);
constexpr double hair = 0.4;
constexpr double column_gap = 14;
constexpr double body_sizes[] = {9, 8.5, 8, 7.5, 7};
constexpr int most_pages = 2;

class report_writer {
public:
  report_writer(canvas& c, const report_sheet& s, double body, int pages)
      : c_(c), s_(s), body_(body), pages_(pages) {}

  void draw() {
    head();
    facts(s_.who);
    facts(s_.test);
    paragraphs("Preparation", s_.preparation);
    chart();
    table();
    paragraphs("", s_.under_table);
    answers();
    findings();
    paragraphs("Flags on the curve", s_.flags);
    paragraphs("The record", s_.record);
    conclusion();
    std::string kit;
    for (const sheet_fact& f : s_.who)
      if (f.name == "Kit") kit = f.value;
    y_ = draw_whole_words(c_, {margin, wide, foot_top}, kit, y_, [this] {
      turn();
      return y_;
    });
    foot();
  }

private:
  [[nodiscard]] type_style plain() const { return {body_}; }
  [[nodiscard]] type_style strong() const { return {body_, true}; }
  [[nodiscard]] type_style small() const { return {body_ * 0.88, false, align::left, true}; }
  [[nodiscard]] type_style heading() const { return {body_ * 1.2, true}; }

  void head() {
    marks();
    {
      const tag h(c_, "H1");
      y_ += c_.text(margin, y_, wide, {s_.title, "title"}, {15, true});
    }
    const tag p(c_, "P");
    const double high = c_.height_of(wide - 8, s_.state, strong());
    if (s_.draft) c_.frame(margin, y_ + 1, wide, high + 4, 1.4);
    c_.text(margin + (s_.draft ? 4 : 0), y_ + 3, wide - 8, {s_.state, "state"}, strong());
    y_ += high + 11;
  }

  void marks() {
    if (s_.practice) framed(practice_mark, 13);
    if (!s_.mark.empty()) framed(s_.mark, 10);
  }

  void framed(const std::string& words, double size) {
    const tag p(c_, "P");
    const type_style style{size, true, align::centre};
    const double high = c_.height_of(wide, words, style);
    c_.frame(margin, y_, wide, high + 2, 2);
    c_.text(margin, y_ + 1, wide, {words, "mark"}, style);
    y_ += high + 6;
  }

  // Name over value, beside each other, over the whole width.
  void facts(const std::vector<sheet_fact>& all) {
    if (all.empty()) return;
    const std::vector<double> widths = fact_widths(all);
    double high = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
      high = std::max(high, c_.height_of(widths[i], all[i].name, small()) +
                                c_.height_of(widths[i], all[i].value, strong()));
    double x = margin;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const tag p(c_, "P");
      const double down = c_.text(x, y_, widths[i], {all[i].name, "report"}, small());
      c_.text(x, y_ + down, widths[i], {all[i].value, all[i].name}, strong());
      x += widths[i] + column_gap;
    }
    y_ += high + 4;
    c_.line(margin, y_, margin + wide, y_, hair);
    y_ += 4;
  }

  // Each as wide as its text, what is left shared among them; where it is too much, only those
  // wider than an even share give way.
  std::vector<double> fact_widths(const std::vector<sheet_fact>& all) {
    const auto count = static_cast<double>(all.size());
    const double room = wide - column_gap * (count - 1);
    std::vector<double> out;
    double sum = 0;
    double narrow = 0; // of those within an even share
    for (const sheet_fact& f : all) {
      out.push_back(std::max(c_.width_of(f.value, strong()), c_.width_of(f.name, small())) + 2);
      sum += out.back();
      if (out.back() <= room / count) narrow += out.back();
    }
    for (double& w : out) {
      if (sum <= room)
        w += (room - sum) / count;
      else if (w > room / count)
        w *= (room - narrow) / (sum - narrow);
    }
    return out;
  }

  void title(const std::string& words, double with) {
    need(c_.height_of(wide, words, heading()) + with);
    const tag h(c_, "H2");
    y_ += c_.text(margin, y_, wide, {words, "heading"}, heading()) + 1;
  }

  void line(const std::string& words, const type_style& style, double in = 0) {
    need(c_.height_of(wide - in, words, style));
    const tag p(c_, "P");
    y_ += c_.text(margin + in, y_, wide - in, {words, "report"}, style);
  }

  void paragraphs(const std::string& name, const std::vector<std::string>& all) {
    if (all.empty()) return;
    if (!name.empty()) title(name, body_ * 2);
    for (const std::string& one : all)
      line(one, name.empty() ? small() : plain());
    y_ += body_ * 0.7;
  }

  void chart() {
    const double high = chart_height(s_.chart);
    title("Gases and symptoms", high);
    draw_chart(c_, s_.chart, margin, y_ + 2, wide);
    y_ += high + 2;
    for (const std::string& one : s_.under_chart)
      line(one, small());
    y_ += body_ * 0.7;
  }

  void table() {
    for (std::size_t done = 0; done < s_.rows.size();) {
      if (done > 0) turn();
      y_ = draw_rows(c_, {margin, y_, foot_top}, s_.columns, s_.rows, done);
    }
    y_ += 4;
  }

  void answers() {
    title("Published criteria", body_ * 6);
    if (!s_.barred.empty()) line(s_.barred, strong());
    for (const report_answer& a : s_.answers) {
      double high = c_.height_of(wide, a.title, strong()) * 2;
      for (const std::string& one : a.lines)
        high += c_.height_of(wide - 8, one, plain());
      need(high);
      line(a.head + ": " + a.title, strong());
      for (const std::string& one : a.lines)
        line(one, plain(), 8);
      y_ += body_ * 0.4;
    }
    line(s_.axes, strong());
    y_ += body_ * 0.7;
  }

  void findings() {
    title("Findings", body_ * 3);
    if (s_.findings.empty()) line("None.", plain());
    const tag list(c_, "Table");
    double mark_wide = 0;
    for (const report_finding& f : s_.findings)
      mark_wide = std::max(mark_wide, c_.width_of(f.mark, strong()) + 8);
    for (const report_finding& f : s_.findings)
      finding(f, mark_wide);
    y_ += body_ * 0.7;
  }

  void finding(const report_finding& f, double mark_wide) {
    const double right = wide - mark_wide;
    type_style words = plain();
    words.struck = !f.aside.empty();
    const double high = c_.height_of(right, f.words, words) +
                        (f.aside.empty() ? 0 : c_.height_of(right, f.aside, plain()));
    need(high);
    const tag row(c_, "TR");
    {
      const tag cell(c_, "TH");
      c_.text(margin, y_, mark_wide, {f.mark, "finding"}, f.mark == "Note" ? small() : strong());
    }
    const tag cell(c_, "TD");
    const double down = c_.text(margin + mark_wide, y_, right, {f.words, "finding"}, words);
    c_.text(margin + mark_wide, y_ + down, right, {f.aside, "override"}, plain());
    y_ += high + 1;
  }

  // Words that were entered, or lines for a hand.
  void conclusion() {
    title("Conclusion of the qualified reader", body_ * 8);
    if (!s_.before.empty()) line(s_.before, plain());
    if (s_.conclusion.empty()) {
      constexpr double apart = 17;
      const tag p(c_, "P");
      for (int n = 0; n < 2; ++n) {
        y_ += apart;
        c_.line(margin, y_, margin + wide, y_, hair);
      }
      y_ += apart;
      double x = margin;
      for (const char* name : {"Name", "Signature", "Date"}) {
        const double end = x + wide / 3 - column_gap;
        const double own = c_.width_of(name, small()) + 4;
        c_.text(x, y_ - body_, own, {name, "report"}, small());
        c_.line(x + own, y_, end, y_, hair);
        x += wide / 3;
      }
      y_ += 4;
      return;
    }
    line(s_.conclusion, {body_ + 1});
    line(s_.reader + ", " + s_.concluded_on, strong());
  }

  void need(double high) {
    if (y_ + high > foot_top) turn();
  }
  void turn() {
    foot();
    c_.next_page();
    ++page_;
    y_ = margin;
    marks();
    if (!s_.draft) return;
    const tag p(c_, "P");
    y_ += c_.text(margin, y_, wide, {s_.title + " - DRAFT", "state"}, small()) + 4;
  }

  void foot() {
    double y = foot_top + mm(2);
    c_.line(margin, y, margin + wide, y, hair);
    y += 3;
    for (std::size_t i = 0; i < s_.foot.size(); ++i) {
      const tag p(c_, "P");
      std::string words = s_.foot[i];
      if (i == 0) words += fmt::format(" Page {} of {}.", page_, pages_);
      y += c_.text(margin, y, wide, {words, "foot"}, {7.5, false, align::left, true, 2});
    }
  }

  canvas& c_;
  const report_sheet& s_;
  double body_;
  int pages_;
  int page_{1};
  double y_{margin};
};

// How many pages it takes at that size.
int pages_at(const report_sheet& s, double body, const std::string& made_at) {
  canvas trial(s.title, made_at);
  report_writer(trial, s, body, 1).draw();
  return trial.pages();
}

} // namespace

std::string report_keywords(bool draft) {
  return draft ? "quarterbreath-report draft" : "quarterbreath-report concluded";
}

std::string report_mark(bool draft) {
  return "(" + report_keywords(draft) + ")"; // as PDF writes a text, outside any stream
}

result<std::string> draw_report_pdf(const report_sheet& sheet, const std::string& made_at) {
  double body = 0;
  int pages = 0;
  for (const double size : body_sizes) {
    body = size;
    pages = pages_at(sheet, size, made_at);
    if (pages <= most_pages) break;
  }
  canvas c(sheet.title, made_at);
  c.set_keywords(report_keywords(sheet.draft));
  {
    const tag document(c, "Document");
    report_writer(c, sheet, body, pages).draw();
  }
  return c.finish();
}

} // namespace qb::page
