// Pango asked letter by letter; a line set by it and drawn by Cairo into a mask.
#include "app/letters/installed_fonts.hpp"

#include "core/base/text.hpp"
#include "core/base/visible.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <pango/pangocairo.h>

namespace qb::inline lettering {

namespace {

template <typename T>
struct unref {
  void operator()(T* object) const { g_object_unref(object); }
};
struct free_font {
  void operator()(PangoFontDescription* f) const { pango_font_description_free(f); }
};
struct free_surface {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct free_pen {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};

// What stands where no font has the letter: a square, or where there is not even that, a mark that
// every font has.
constexpr const char* square = "\u25A1";
constexpr const char* mark = "?";

} // namespace

struct installed_fonts::inside {
  std::unique_ptr<PangoContext, unref<PangoContext>> context;
  std::unique_ptr<PangoLayout, unref<PangoLayout>> layout;
  std::map<std::string, bool, std::less<>> found; // letters that were looked for

  inside()
      : context(pango_font_map_create_context(pango_cairo_font_map_get_default())),
        layout(pango_layout_new(context.get())) {
    pango_layout_set_auto_dir(layout.get(), FALSE); // as on paper: a label stands before a name
    set({16, false});
  }

  void set(const line_style& style) {
    const std::unique_ptr<PangoFontDescription, free_font> font(pango_font_description_new());
    pango_font_description_set_family_static(font.get(), letter_family);
    pango_font_description_set_absolute_size(font.get(), style.em * PANGO_SCALE);
    pango_font_description_set_weight(font.get(),
                                      style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout.get(), font.get());
  }

  int unknown(std::string_view text) {
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return pango_layout_get_unknown_glyphs_count(layout.get());
  }

  bool has(const std::string& letter) {
    const auto known = found.find(letter);
    if (known != found.end()) return known->second;
    return found[letter] = is_utf8(letter) && unknown(letter) == 0;
  }
};

installed_fonts::installed_fonts() : in_(std::make_unique<inside>()) {}

installed_fonts::~installed_fonts() = default;

bool installed_fonts::have(std::string_view text) {
  const std::vector<std::string> letters = characters(text);
  return std::all_of(letters.begin(), letters.end(),
                     [this](const std::string& letter) { return in_->has(letter); });
}

std::string installed_fonts::printable(std::string_view text) {
  std::string out;
  for (const std::string& letter : characters(visible(text)))
    out += in_->has(letter) ? letter : in_->has(square) ? square : mark;
  return out;
}

double installed_fonts::width_of(std::string_view line, const line_style& style) {
  in_->set(style);
  const std::string can = printable(line);
  (void)in_->unknown(can);
  int wide = 0;
  pango_layout_get_size(in_->layout.get(), &wide, nullptr);
  return double{static_cast<double>(wide)} / PANGO_SCALE;
}

line_picture installed_fonts::picture_of(std::string_view line, const line_style& style) {
  line_picture out;
  out.width = static_cast<int>(std::ceil(width_of(line, style)));
  PangoRectangle seen{}; // marks may stand out of the line's own box
  pango_layout_get_pixel_extents(in_->layout.get(), &seen, nullptr);
  int high = 0;
  pango_layout_get_pixel_size(in_->layout.get(), nullptr, &high);
  const int above = std::max(0, -seen.y);
  out.width = std::max({out.width, seen.x + seen.width, 1});
  out.height = std::max(above + std::max(high, seen.y + seen.height), 1);
  out.baseline =
      above +
      static_cast<int>(std::lround(
          double{static_cast<double>(pango_layout_get_baseline(in_->layout.get()))} / PANGO_SCALE));
  const std::unique_ptr<cairo_surface_t, free_surface> surface(
      cairo_image_surface_create(CAIRO_FORMAT_A8, out.width, out.height));
  {
    const std::unique_ptr<cairo_t, free_pen> pen(cairo_create(surface.get()));
    cairo_move_to(pen.get(), 0, above);
    pango_cairo_show_layout(pen.get(), in_->layout.get());
  }
  cairo_surface_flush(surface.get());
  const unsigned char* from = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; from != nullptr && y < out.height; ++y)
    out.ink.insert(out.ink.end(), from + static_cast<std::ptrdiff_t>(y) * stride,
                   from + static_cast<std::ptrdiff_t>(y) * stride + out.width);
  out.ink.resize(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height));
  return out;
}

} // namespace qb::inline lettering
