// Additive tones: several harmonics are heard by more ears, and by more small loudspeakers, than
// one. The sum is scaled to the wanted peak, so that no shape of wave can clip.
#include "app/glass/tones.hpp"

#include <algorithm>
#include <cmath>

namespace qb::glass {

namespace {

constexpr double full_turn = 6.283185307179586;
constexpr int harmonics = 5;
constexpr double attack = 0.020;
constexpr double release = 0.050;
constexpr double full_scale = 32767;

std::size_t samples_in(double seconds) {
  return static_cast<std::size_t>(std::llround(seconds * sample_rate));
}

// Rises and falls as half a cosine, without a click at either end.
double envelope(double at, double seconds) {
  const double rise = std::min(attack, seconds / 3);
  const double fall = std::min(release, seconds / 2);
  double share = 1;
  if (at < rise) share = at / rise;
  if (at > seconds - fall) share = std::min(share, (seconds - at) / fall);
  return 0.5 - 0.5 * std::cos(std::clamp(share, 0.0, 1.0) * full_turn / 2);
}

} // namespace

std::vector<std::int16_t> tone(double hz, double seconds, double level) {
  const std::size_t count = samples_in(seconds);
  std::vector<double> wave(count, 0.0);
  double peak = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double at = static_cast<double>(i) / sample_rate;
    for (int h = 1; h <= harmonics; ++h)
      wave[i] += std::sin(full_turn * hz * h * at) / h;
    wave[i] *= envelope(at, seconds);
    peak = std::max(peak, std::abs(wave[i]));
  }
  const double gain = peak > 0 ? level * full_scale / peak : 0;
  std::vector<std::int16_t> samples;
  samples.reserve(count);
  for (const double w : wave)
    samples.push_back(static_cast<std::int16_t>(std::lround(w * gain)));
  return samples;
}

std::vector<note> notes_of(cue which) {
  switch (which) {
  case cue::heads_up: return {{440, 0.25}, {0, 0.30}, {554, 0.45}};
  case cue::now: return {{587, 0.50}, {0, 0.06}, {784, 0.90}};
  case cue::breath_start: return {{523, 0.12}, {698, 0.60}};
  case cue::breath_end: return {{659, 0.55}, {0, 0.15}, {392, 0.25}};
  case cue::done: return {{294, 0.70}};
  case cue::tick: return {{880, 0.07}};
  }
  return {};
}

double level_of(cue which) {
  switch (which) {
  case cue::heads_up: return 0.4;
  case cue::now: return 0.5;
  case cue::breath_start: return 0.5;
  case cue::breath_end: return 0.5;
  case cue::done: return 0.4;
  case cue::tick: return 0.3;
  }
  return 0;
}

std::vector<std::int16_t> samples_of(cue which) {
  std::vector<std::int16_t> all;
  for (const note& n : notes_of(which)) {
    if (n.hz == 0) {
      all.insert(all.end(), samples_in(n.seconds), std::int16_t{0});
      continue;
    }
    const std::vector<std::int16_t> one = tone(n.hz, n.seconds, level_of(which));
    all.insert(all.end(), one.begin(), one.end());
  }
  return all;
}

} // namespace qb::glass
