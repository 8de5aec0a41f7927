// The sounds, measured: length, peak, pitch, and rhythms that no medical device makes.
// Goertzel's filter tells how much of one pitch is in the samples.
#include "app/platform/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

using namespace qb;

namespace {

const cue all_cues[] = {cue::heads_up,   cue::now,  cue::breath_start,
                        cue::breath_end, cue::done, cue::tick};

// Amplitude of that pitch, as a share of full scale.
double goertzel(const std::vector<std::int16_t>& samples, double hz) {
  const double w = 2 * 3.141592653589793 * hz / sample_rate;
  double before = 0;
  double last = 0;
  for (const std::int16_t s : samples) {
    const double now = s + 2 * std::cos(w) * last - before;
    before = last;
    last = now;
  }
  const double power = last * last + before * before - 2 * std::cos(w) * last * before;
  return std::sqrt(std::max(0.0, power)) * 2 / static_cast<double>(samples.size()) / 32767;
}

int peak(const std::vector<std::int16_t>& samples) {
  int most = 0;
  for (const std::int16_t s : samples)
    most = std::max(most, std::abs(static_cast<int>(s)));
  return most;
}

} // namespace

TEST_CASE("a tone has its length, its peak, and soft ends") {
  const auto t = tone(440, 0.5, 0.5);
  CHECK(t.size() == 24'000);
  CHECK(peak(t) == Approx(16'384).margin(2));
  CHECK(std::abs(t.front()) < 20);
  CHECK(std::abs(t.back()) < 20);
}

TEST_CASE("a tone has its pitch and four harmonics above it, and little else") {
  const auto t = tone(500, 1.0, 0.8);
  const double ground = goertzel(t, 500);
  CHECK(ground > 0.2);
  for (int h = 2; h <= 5; ++h) {
    CHECK(goertzel(t, 500.0 * h) / ground == Approx(1.0 / h).epsilon(0.05));
  }
  CHECK(goertzel(t, 600) < ground / 40);
  CHECK(goertzel(t, 3500) < ground / 40);
}

TEST_CASE("every cue is short, audible and does not clip") {
  for (const cue c : all_cues) {
    const auto samples = samples_of(c);
    INFO("cue " << static_cast<int>(c));
    CHECK(samples.size() <= 2 * static_cast<std::size_t>(sample_rate));
    CHECK(peak(samples) > 8'000);
    CHECK(peak(samples) < 32'767);
  }
}

TEST_CASE("cues differ by rhythm as well as by pitch") {
  std::set<std::vector<int>> rhythms;
  for (const cue c : all_cues) {
    std::vector<int> rhythm;
    for (const note& n : notes_of(c)) {
      const int ms = static_cast<int>(std::lround(n.seconds * 1000));
      rhythm.push_back(n.hz == 0 ? -ms : ms);
    }
    rhythms.insert(rhythm);
  }
  CHECK(rhythms.size() == std::size(all_cues));
}

TEST_CASE("no cue has three pulses or more, as alarms of medical devices have") {
  for (const cue c : all_cues) {
    const auto notes = notes_of(c);
    const auto sounding =
        std::count_if(notes.begin(), notes.end(), [](const note& n) { return n.hz > 0; });
    CHECK(sounding <= 2);
  }
}
