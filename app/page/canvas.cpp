// Cairo and Pango behind the canvas, and the traps they set for paper.
#include "app/page/canvas.hpp"

#include "app/letters/installed_fonts.hpp"
#include "app/page/finished_pdf.hpp"
#include "core/base/visible.hpp"

#include <algorithm>
#include <cairo-pdf.h>
#include <pango/pangocairo.h>

namespace qb::page {

namespace {

constexpr const char* language = "en"; // of every sentence that core/sheet makes
constexpr double quiet_grey = 0.32;    // dark enough to survive a copying machine

cairo_status_t keep(void* into, const unsigned char* bytes, unsigned int size) {
  static_cast<std::string*>(into)->append(reinterpret_cast<const char*>(bytes), size);
  return CAIRO_STATUS_SUCCESS;
}

template <typename T>
struct unref {
  void operator()(T* object) const { g_object_unref(object); }
};
struct free_font {
  void operator()(PangoFontDescription* f) const { pango_font_description_free(f); }
};
struct free_options {
  void operator()(cairo_font_options_t* o) const { cairo_font_options_destroy(o); }
};

void set_attributes(PangoLayout* l, bool struck) {
  PangoAttrList* attributes = pango_attr_list_new();
  // A hyphen put into a name or a kit number would change it.
  pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
  if (struck) pango_attr_list_insert(attributes, pango_attr_strikethrough_new(TRUE));
  pango_layout_set_attributes(l, attributes);
  pango_attr_list_unref(attributes);
}

} // namespace

struct canvas::inside {
  std::string bytes; // outlives the surface, which writes into it to the last
  cairo_surface_t* surface{nullptr};
  cairo_t* pen{nullptr};
  std::unique_ptr<PangoLayout, unref<PangoLayout>> layout;
  installed_fonts fonts;

  inside(double width, double height)
      : surface(cairo_pdf_surface_create_for_stream(keep, &bytes, width, height)) {
    pen = cairo_create(surface);
  }
  ~inside() {
    layout.reset();
    cairo_destroy(pen);
    cairo_surface_destroy(surface);
  }
};

void canvas::set_keywords(const std::string& words) {
  cairo_pdf_surface_set_metadata(in_->surface, CAIRO_PDF_METADATA_KEYWORDS, words.c_str());
}

canvas::canvas(const std::string& title, const std::string& made_at, double page_width,
               double page_height)
    : in_(std::make_unique<inside>(page_width, page_height)) {
  cairo_surface_t* to = in_->surface;
  cairo_pdf_surface_set_metadata(to, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(to, CAIRO_PDF_METADATA_CREATOR, "Quarterbreath");
  cairo_pdf_surface_set_metadata(to, CAIRO_PDF_METADATA_CREATE_DATE, made_at.c_str());
  cairo_pdf_surface_set_metadata(to, CAIRO_PDF_METADATA_MOD_DATE, made_at.c_str());

  in_->layout.reset(pango_cairo_create_layout(in_->pen));
  PangoContext* context = pango_layout_get_context(in_->layout.get());
  const std::unique_ptr<cairo_font_options_t, free_options> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context, options.get());
  // Else each glyph is moved to a whole point, which at these sizes shows as uneven spaces.
  pango_context_set_round_glyph_positions(context, FALSE);
  pango_layout_context_changed(in_->layout.get());
}

canvas::~canvas() = default;

PangoLayout* canvas::set_up(double width, const std::string& text, const type_style& style) {
  PangoLayout* l = in_->layout.get();
  const std::unique_ptr<PangoFontDescription, free_font> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), letter_family);
  // Absolutely: a size in points would be scaled by Pango's 96 dots an inch, a third too large.
  pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
  pango_font_description_set_weight(font.get(),
                                    style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(l, font.get());
  set_attributes(l, style.struck);
  pango_layout_set_width(l, width < 0 ? -1 : static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_wrap(l, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(l, style.to == align::left    ? PANGO_ALIGN_LEFT
                                : style.to == align::right ? PANGO_ALIGN_RIGHT
                                                           : PANGO_ALIGN_CENTER);
  // Which side a column's text stands on is the table's business, not the script's.
  pango_layout_set_auto_dir(l, FALSE);
  pango_layout_set_line_spacing(l, static_cast<float>(style.spacing));
  pango_layout_set_height(l, style.most_lines == 0 ? -1 : -style.most_lines);
  pango_layout_set_ellipsize(l, style.most_lines == 0 ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
  const std::string shown = visible(text);
  pango_layout_set_text(l, shown.data(), static_cast<int>(shown.size()));
  if (pango_layout_get_unknown_glyphs_count(l) == 0) return l;
  const std::string can = in_->fonts.printable(text);
  pango_layout_set_text(l, can.data(), static_cast<int>(can.size()));
  return l;
}

double canvas::height_of(double width, const std::string& text, const type_style& style) {
  int high = 0;
  pango_layout_get_size(set_up(width, text, style), nullptr, &high);
  return double{static_cast<double>(high)} / PANGO_SCALE;
}

double canvas::width_of(const std::string& text, const type_style& style) {
  int wide = 0;
  pango_layout_get_size(set_up(-1, text, style), &wide, nullptr);
  return double{static_cast<double>(wide)} / PANGO_SCALE;
}

double canvas::baseline_of(double width, const std::string& text, const type_style& style) {
  return static_cast<double>(pango_layout_get_baseline(set_up(width, text, style))) / PANGO_SCALE;
}

int canvas::lines_of(double width, const std::string& text, const type_style& style) {
  type_style whole = style;
  whole.most_lines = 0;
  return pango_layout_get_line_count(set_up(width, text, whole));
}

double canvas::text(double x, double y, double width, const words& w, const type_style& style) {
  if (w.text.empty()) return 0;
  PangoLayout* l = set_up(width, w.text, style);
  int high = 0;
  pango_layout_get_size(l, nullptr, &high);
  if (w.text != pango_layout_get_text(l)) note_stand_in(w);
  const double ink = style.quiet ? quiet_grey : 0.0;
  cairo_set_source_rgb(in_->pen, ink, ink, ink);
  cairo_move_to(in_->pen, x, y);
  pango_cairo_show_layout(in_->pen, l);
  return double{static_cast<double>(high)} / PANGO_SCALE;
}

void canvas::note_stand_in(const words& w) {
  const bool known = std::any_of(stood_in_.begin(), stood_in_.end(),
                                 [&w](const words& one) { return one.text == w.text; });
  if (!known) stood_in_.push_back(w);
}

void canvas::line(double x1, double y1, double x2, double y2, double thickness) {
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  cairo_set_line_width(in_->pen, thickness);
  cairo_move_to(in_->pen, x1, y1);
  cairo_line_to(in_->pen, x2, y2);
  cairo_stroke(in_->pen);
}

void canvas::solid(const std::vector<solid_box>& boxes) {
  cairo_save(in_->pen);
  cairo_set_antialias(in_->pen, CAIRO_ANTIALIAS_NONE);
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  for (const solid_box& b : boxes)
    cairo_rectangle(in_->pen, b.x, b.y, b.width, b.height);
  cairo_fill(in_->pen);
  cairo_restore(in_->pen);
}

void canvas::frame(double x, double y, double width, double height, double thickness) {
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  cairo_set_line_width(in_->pen, thickness);
  cairo_rectangle(in_->pen, x, y, width, height);
  cairo_stroke(in_->pen);
}

void canvas::path(const std::vector<spot>& through, double thickness, stroke as) {
  if (through.size() < 2) return;
  constexpr double dash[] = {5.0, 3.0};
  constexpr double dot[] = {0.8, 2.4};
  cairo_save(in_->pen);
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  cairo_set_line_width(in_->pen, thickness);
  cairo_set_line_join(in_->pen, CAIRO_LINE_JOIN_ROUND);
  if (as == stroke::dashed) cairo_set_dash(in_->pen, dash, 2, 0);
  if (as == stroke::dotted) cairo_set_dash(in_->pen, dot, 2, 0);
  cairo_move_to(in_->pen, through.front().x, through.front().y);
  for (const spot& s : through)
    cairo_line_to(in_->pen, s.x, s.y);
  cairo_stroke(in_->pen);
  cairo_restore(in_->pen);
}

void canvas::disc(spot centre, double radius) {
  constexpr double whole_turn = 6.283185307179586;
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  cairo_new_sub_path(in_->pen);
  cairo_arc(in_->pen, centre.x, centre.y, radius, 0, whole_turn);
  cairo_fill(in_->pen);
}

void canvas::open_square(spot centre, double half_side) {
  cairo_rectangle(in_->pen, centre.x - half_side, centre.y - half_side, 2 * half_side,
                  2 * half_side);
  cairo_set_source_rgb(in_->pen, 1, 1, 1);
  cairo_fill_preserve(in_->pen);
  cairo_set_source_rgb(in_->pen, 0, 0, 0);
  cairo_set_line_width(in_->pen, 1);
  cairo_stroke(in_->pen);
}

void canvas::shade(const solid_box& box, double grey) {
  cairo_set_source_rgb(in_->pen, grey, grey, grey);
  cairo_rectangle(in_->pen, box.x, box.y, box.width, box.height);
  cairo_fill(in_->pen);
}

void canvas::next_page() {
  cairo_show_page(in_->pen);
  ++pages_;
}

result<std::string> canvas::finish() {
  cairo_show_page(in_->pen);
  cairo_surface_finish(in_->surface);
  const cairo_status_t status = cairo_surface_status(in_->surface);
  const cairo_status_t drawn = cairo_status(in_->pen);
  if (status != CAIRO_STATUS_SUCCESS || drawn != CAIRO_STATUS_SUCCESS)
    return tl::unexpected(
        refusal{refusal_kind::machine, "", "drawing the PDF",
                cairo_status_to_string(drawn != CAIRO_STATUS_SUCCESS ? drawn : status),
                "a page that can be drawn"});
  return with_language(in_->bytes, language);
}

tag::tag(canvas& c, const char* name) : canvas_(c), name_(name) {
  cairo_tag_begin(canvas_.in_->pen, name_, nullptr);
}

tag::~tag() {
  cairo_tag_end(canvas_.in_->pen, name_);
}

} // namespace qb::page
