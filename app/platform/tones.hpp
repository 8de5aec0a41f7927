// Sounds as numbers: tones with a few harmonics, and the cues of a test made of them.
// Pure functions; playing them is sound.hpp's business. Cues differ by rhythm as well as by pitch.
//
// The program raises no medical alarms and must not be taken for a device that does, so no cue has
// that family's bursts (three pulses, or three and two, repeated): see the test of the rhythms.
#pragma once

#include <cstdint>
#include <vector>

namespace qb {

inline constexpr int sample_rate = 48'000; // samples a second, one channel

enum class cue {
  heads_up,     // a minute to go: two soft notes, rising, once
  now,          // due: a long note, then a higher one held
  breath_start, // blow: one short note that rises into a long one
  breath_end,   // enough: a high note falling to a low one
  done,         // the tube is closed and written down: one low, long note
  tick,         // each second of the lead-in: one very short note
};

// One note of a cue. Silence when `hz` is 0.
struct note {
  double hz{};
  double seconds{};
};

// A tone with harmonics 1 to 5 falling off as 1/h, attack 20 ms, release 50 ms (shorter for very
// short tones). `level` is the peak as a share of full scale, 0 to 1. Pitch 100 to 4000 Hz.
[[nodiscard]] std::vector<std::int16_t> tone(double hz, double seconds, double level);

[[nodiscard]] std::vector<note> notes_of(cue which);

// The samples of a whole cue at that level, at most 2 seconds.
[[nodiscard]] std::vector<std::int16_t> samples_of(cue which, double level = 0.5);

} // namespace qb
