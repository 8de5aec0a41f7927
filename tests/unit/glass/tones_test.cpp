// The sounds, measured: length, peak, pitch, and rhythms that no medical device makes.
// Goertzel's filter tells how much of one pitch is in the samples.
#include "app/glass/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

using namespace qb;
using namespace qb::glass;

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

TEST_CASE("every cue is short, neither faint nor harsh, and does not clip") {
  for (const cue c : all_cues) {
    const auto samples = samples_of(c);
    INFO("cue " << static_cast<int>(c));
    CHECK(samples.size() <= 2 * static_cast<std::size_t>(sample_rate));
    CHECK(peak(samples) == Approx(level_of(c) * 32'767).margin(2));
    CHECK(level_of(c) >= 0.25);
    CHECK(level_of(c) <= 0.6);
  }
}

TEST_CASE("every cue begins and ends at zero, and none clicks where its notes meet") {
  for (const cue c : all_cues) {
    const auto samples = samples_of(c);
    INFO("cue " << static_cast<int>(c));
    CHECK(samples.front() == 0);
    CHECK(samples.back() == 0);
    // Where a note begins or ends, a millisecond is as good as silent.
    std::size_t at = 0;
    for (const note& n : notes_of(c)) {
      for (std::size_t i = at; i < std::min(at + sample_rate / 1000, samples.size()); ++i)
        CHECK(std::abs(static_cast<int>(samples[i])) < 200);
      at += static_cast<std::size_t>(std::llround(n.seconds * sample_rate));
    }
    CHECK(at == samples.size());
  }
}

TEST_CASE("every note has its fundamental between 150 and 1000 Hz and is heard on poor ears") {
  for (const cue c : all_cues) {
    for (const note& n : notes_of(c)) {
      if (n.hz == 0) continue;
      INFO("cue " << static_cast<int>(c) << " note " << n.hz);
      CHECK(n.hz >= 150);
      CHECK(n.hz <= 1000);
      const auto one = tone(n.hz, n.seconds, level_of(c));
      const double ground = goertzel(one, n.hz);
      int within = 0;
      for (int h = 1; h * n.hz <= 4000; ++h) {
        // Fifteen decibels below the fundamental still counts as sounding.
        if (h * n.hz >= 300 && goertzel(one, n.hz * h) > 0.178 * ground) ++within;
      }
      CHECK(within >= 4);
    }
  }
}

namespace {

std::vector<note> sounding(cue c) {
  std::vector<note> out;
  for (const note& n : notes_of(c)) {
    if (n.hz > 0) out.push_back(n);
  }
  return out;
}

// When each note begins and how long it lasts, in seconds.
std::vector<double> rhythm(cue c) {
  std::vector<double> out;
  double at = 0;
  for (const note& n : notes_of(c)) {
    if (n.hz > 0) {
      out.push_back(at);
      out.push_back(n.seconds);
    }
    at += n.seconds;
  }
  return out;
}

bool rhythms_differ(const std::vector<double>& a, const std::vector<double>& b) {
  constexpr double told_apart = 1.5; // one length half as long again
  constexpr double beginning = 0.15; // or a note that much later
  if (a.size() != b.size()) return true;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (i % 2 == 0 && std::abs(a[i] - b[i]) >= beginning) return true;
    if (i % 2 == 1 && std::max(a[i], b[i]) / std::min(a[i], b[i]) >= told_apart) return true;
  }
  return false;
}

} // namespace

TEST_CASE("any two cues differ by rhythm, and by pitch as well") {
  constexpr double two_semitones = 1.12;
  for (const cue one : all_cues) {
    for (const cue other : all_cues) {
      if (one == other) continue;
      INFO("cues " << static_cast<int>(one) << " and " << static_cast<int>(other));
      CHECK(rhythms_differ(rhythm(one), rhythm(other)));
      const double a = sounding(one).front().hz;
      const double b = sounding(other).front().hz;
      CHECK(std::max(a, b) / std::min(a, b) >= two_semitones);
    }
  }
}

TEST_CASE("no cue has three pulses or two alike, as alarms of medical devices have") {
  for (const cue c : all_cues) {
    const auto notes = sounding(c);
    INFO("cue " << static_cast<int>(c));
    CHECK(notes.size() <= 2);
    if (notes.size() < 2) continue;
    const double longer = std::max(notes[0].seconds, notes[1].seconds);
    CHECK(longer / std::min(notes[0].seconds, notes[1].seconds) >= 1.5);
    CHECK(notes[0].hz != notes[1].hz);
  }
}
