// A PDF being drawn: pages, tagged text, hairlines; millimetres and points kept apart by name.
// The only file that talks to Cairo and Pango, so that pages are written in words of print.
#pragma once

#include "core/base/result.hpp"

#include <memory>
#include <string>
#include <vector>

typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;
typedef struct _PangoContext PangoContext;
typedef struct _PangoLayout PangoLayout;

namespace qb::page {

// Lengths on paper are in points (1/72 inch), as PDF counts; y grows downwards.
[[nodiscard]] constexpr double mm(double millimetres) {
  return millimetres * 72.0 / 25.4;
}

// The same of tenths of a millimetre, in which sheets of labels are measured.
[[nodiscard]] constexpr double tenths(int length) {
  return mm(static_cast<double>(length) / 10);
}

inline constexpr double a4_width = mm(210);
inline constexpr double a4_height = mm(297);

// Where the lines of a text stand in its column.
enum class align { left, right, centre };

// How a text is set. `size` is the em in points.
struct type_style {
  double size{9};
  bool bold{false};
  align to{align::left};
  bool quiet{false};  // dark grey, for names of things beside their values
  int most_lines{0};  // 0: as many as it takes; else the rest is cut with an ellipsis
  double spacing{0};  // from line to line, as a share of the font's own; 0: the font's own
  bool struck{false}; // with a line through it: it stands no more
};

// A text and what it is, for whoever is told that its letters could not all be printed.
struct words {
  std::string text;
  std::string what;
};

// A filled rectangle, in points.
struct solid_box {
  double x{0};
  double y{0};
  double width{0};
  double height{0};
};

// A place on paper, in points.
struct spot {
  double x{0};
  double y{0};
};

// How a drawn line looks: whole, in dashes, or in dots.
enum class stroke { whole, dashed, dotted };

// One document, drawn page by page from the top left corner. All lengths are points.
class canvas {
public:
  // `made_at` is printed into the file as its date ("2027-04-06T10:05:00Z"), so that the same input
  // gives the same bytes; no clock is read.
  // The page is A4, or another of that many points.
  canvas(const std::string& title, const std::string& made_at, double page_width = a4_width,
         double page_height = a4_height);
  ~canvas();
  canvas(const canvas&) = delete;
  canvas& operator=(const canvas&) = delete;

  // Sets a text with its top left corner at x, y in a column of that width; answers its height.
  double text(double x, double y, double width, const words& w, const type_style& style);
  // The height or width it would take.
  [[nodiscard]] double height_of(double width, const std::string& text, const type_style& style);
  [[nodiscard]] double width_of(const std::string& text, const type_style& style);
  // From its top to the line that the letters of its first line stand on.
  [[nodiscard]] double baseline_of(double width, const std::string& text, const type_style& style);
  // How many lines it would take, with nothing cut.
  [[nodiscard]] int lines_of(double width, const std::string& text, const type_style& style);

  // A line of that thickness in points.
  void line(double x1, double y1, double x2, double y2, double thickness);
  // Black boxes as one shape, without softened edges: a code's modules.
  void solid(const std::vector<solid_box>& boxes);
  // An unfilled frame.
  void frame(double x, double y, double width, double height, double thickness);

  // A line through all spots in their order.
  void path(const std::vector<spot>& through, double thickness, stroke as);
  // A black disc, and a square that is white inside.
  void disc(spot centre, double radius);
  void open_square(spot centre, double half_side);
  // A filled rectangle in a grey: 0 black, 1 white.
  void shade(const solid_box& box, double grey);

  // Ends this page and begins the next.
  void next_page();
  [[nodiscard]] int pages() const { return pages_; }

  // The texts that were set with a stand-in for letters that no installed font has, whole, each
  // once; what they are is of the first place.
  [[nodiscard]] const std::vector<words>& stood_in() const { return stood_in_; }

  // What programs find the file by; plain ASCII. Before `finish`.
  void set_keywords(const std::string& words);
  // The file's bytes.
  [[nodiscard]] result<std::string> finish();

private:
  friend class tag;
  PangoLayout* set_up(double width, const std::string& text, const type_style& style);
  void note_stand_in(const words& w);

  struct inside;
  std::unique_ptr<inside> in_;
  std::vector<words> stood_in_;
  int pages_{1};
};

// A tag of the PDF's structure ("H1", "P", "Table", "TR", "TH", "TD", "Sect"), open while it lives.
class tag {
public:
  tag(canvas& c, const char* name);
  ~tag();
  tag(const tag&) = delete;
  tag& operator=(const tag&) = delete;

private:
  canvas& canvas_;
  const char* name_;
};

} // namespace qb::page
