// Runs of modules as boxes on whole pixels.
#include "app/patient/ui/code_picture.hpp"

#include <algorithm>
#include <cmath>

namespace qb::inline ui {

namespace {

// Below two pixels a module a camera sees the screen's own pixels more than the code.
constexpr float least_pixels = 2;

} // namespace

void code_picture(toolkit& k, const std::string& key, const std::string& name,
                  const code::symbol& code) {
  const float scale = k.ink().scale();
  const auto modules = static_cast<float>(code.side + 2 * code::quiet_modules);
  const float least = modules * least_pixels / scale;
  const float wanted = std::max(least, k.stretch(k.column(), std::min(least, k.column())));
  const float pixels = std::max(least_pixels, std::floor(wanted * scale / modules));
  const float side = pixels * modules / scale;
  const auto b = k.place(side, 12);
  if (!b) return;
  const pen p = k.ink();
  const auto whole = [scale](float logical) { return std::round(logical * scale) / scale; };
  const float left = whole(b->x + (b->w - side) / 2);
  const float top = whole(b->y);
  const box all{left, top, side, side};
  p.fill_box(all, code_colours::light);
  const float module = pixels / scale;
  constexpr auto quiet = static_cast<float>(code::quiet_modules);
  for (const code::dark_run& run : code::dark_runs(code))
    p.fill_box({left + module * (quiet + static_cast<float>(run.x)),
                top + module * (quiet + static_cast<float>(run.y)),
                module * static_cast<float>(run.length), module},
               code_colours::dark);
  k.note(key, "image", name, all).value = std::to_string(static_cast<int>(pixels));
}

} // namespace qb::inline ui
