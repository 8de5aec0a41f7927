// The three looks as values.
// Light is warm paper, dark is for a bedroom at six in the morning, high contrast is plain.
#include "app/patient/theme/theme.hpp"

namespace qb::inline looks {

theme make_theme(look kind) {
  theme t;
  t.kind = kind;
  switch (kind) {
  case look::light:
    t.paper = {0xFB, 0xF8, 0xF1};
    t.ink = {0x1D, 0x1B, 0x18};
    t.quiet = {0x51, 0x4C, 0x44};
    t.now = {0x0A, 0x50, 0x5E};
    t.needs_you = {0x92, 0x22, 0x12};
    t.hairline = {0xD9, 0xD2, 0xC3};
    t.wash = {0xE6, 0xEE, 0xEC};
    break;
  case look::dark:
    t.paper = {0x15, 0x17, 0x1A};
    t.ink = {0xF3, 0xEE, 0xE4};
    t.quiet = {0xC2, 0xBC, 0xB0};
    t.now = {0x8F, 0xD3, 0xDC};
    t.needs_you = {0xFF, 0xB4, 0x9A};
    t.hairline = {0x40, 0x42, 0x44};
    t.wash = {0x22, 0x2E, 0x32};
    break;
  case look::high_contrast:
    t.paper = {0xFF, 0xFF, 0xFF};
    t.ink = {0x00, 0x00, 0x00};
    t.quiet = {0x1E, 0x1E, 0x1E};
    t.now = {0x00, 0x2F, 0x6B};
    t.needs_you = {0x7C, 0x00, 0x00};
    t.hairline = {0x6A, 0x6A, 0x6A};
    t.wash = {0xE4, 0xEC, 0xF8};
    t.stroke = 3.0F;
    break;
  }
  return t;
}

float natural_scale(float width_px, float height_px) {
  const bool landscape = width_px > height_px;
  const float wide = landscape ? sizes::landscape_wide : sizes::narrowest;
  const float high = landscape ? sizes::landscape_high : sizes::shortest;
  return std::max(1.0F, std::min(width_px / wide, height_px / high));
}

} // namespace qb::inline looks
