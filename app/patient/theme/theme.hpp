// Colours and sizes of the patient's window: paper, ink and few colours, each with one meaning.
// What several elements share of the look stands here; what one alone has, in that element.
#pragma once

namespace qb::inline looks {

// An opaque colour, eight bits a channel, sRGB.
struct colour {
  unsigned char r{};
  unsigned char g{};
  unsigned char b{};
};

// The sets of colours there are.
enum class look { light, dark, high_contrast };

// The colours of one look. Every colour used for text has 7:1 on `paper`; `paper` has 7:1 on the
// three that are used as a ground for text (ink, now, needs_you).
struct theme {
  look kind{look::light};
  colour paper;       // the sheet
  colour ink;         // text, drawings
  colour quiet;       // text of second rank, edges of controls
  colour now;         // what is to be done now
  colour needs_you;   // what wants attention
  colour hairline;    // rules between groups; never carries meaning alone
  colour wash;        // a breath of tint behind the selected and the pressed
  float stroke{2.0F}; // usual line of a drawing, logical pixels
};

// The colours of that look.
[[nodiscard]] theme make_theme(look kind);

// A code is black on white in every look.
namespace code_colours {
inline constexpr colour light{255, 255, 255};
inline constexpr colour dark{0, 0, 0};
} // namespace code_colours

// Sizes in logical pixels. Type sizes are the em of the face, as in print and on the web.
namespace sizes {
inline constexpr float small = 16.0F;
inline constexpr float body = 18.0F;
inline constexpr float label = 20.0F; // words on buttons
inline constexpr float headline = 28.0F;
inline constexpr float figure = 44.0F;
inline constexpr float countdown = 72.0F;
inline constexpr float countdown_close = 60.0F; // where 72 has no room for five figures

inline constexpr float leading = 1.38F;       // line distance of running text, in ems
inline constexpr float tight_leading = 1.18F; // line distance of headlines and figures
inline constexpr float grid = 8.0F;
inline constexpr float margin = 24.0F;
inline constexpr float primary_height = 60.0F;
inline constexpr float target = 52.0F;       // height of every other thing to press
inline constexpr float least_target = 44.0F; // WCAG 2.2, 2.5.5
inline constexpr float longest_line = 58.0F; // characters
inline constexpr float narrowest = 390.0F;   // the portrait width the sizes were set for
inline constexpr float shortest = 650.0F;    // and its least height
inline constexpr float landscape_wide = 800.0F;
inline constexpr float landscape_high = 480.0F;
} // namespace sizes

// The scale (pixels in a logical pixel) that suits a window of this size: 1 for a telephone's
// width, more on larger panels so that type grows with them, never below 1.
[[nodiscard]] float natural_scale(float width_px, float height_px);

} // namespace qb::inline looks
