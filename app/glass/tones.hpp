// Sounds as numbers: tones with a few harmonics, and the cues of a test made of them.
// Pure functions; playing them is sound.hpp's business. Cues differ by rhythm as well as by pitch.
//
// The program raises no medical alarms and must not be taken for a device that does. So no cue has
// three pulses, nor two alike: bursts of three, of three and two, and pairs of equal pulses are
// what such devices sound. Rhythm tells the cues apart for an ear that does not catch pitch.
#pragma once

#include <cstdint>
#include <vector>

namespace qb::glass {

inline constexpr int sample_rate = 48'000; // samples a second, one channel

// The sounds there are, and how each is told from the others.
enum class cue {
  heads_up,     // a minute to go: a short note, a pause, a longer one; softly, rising
  now,          // due: a long note and hard upon it a higher one held twice as long
  breath_start, // blow: the briefest note, bound to a higher one that lasts
  breath_end,   // enough: a long note, a pause, a low short one
  done,         // the tube is closed and written down: one low, long note
  tick,         // each second of lead-in and holding: one very short note
};

// One note of a cue. Silence when `hz` is 0.
struct note {
  double hz{};
  double seconds{};
};

// A tone with harmonics 1 to 5 falling off as 1/h, attack 20 ms, release 50 ms (shorter for very
// short tones). `level` is the peak as a share of full scale, 0 to 1. Pitch 100 to 4000 Hz.
[[nodiscard]] std::vector<std::int16_t> tone(double hz, double seconds, double level);

// The notes of that cue in their order, pauses among them.
[[nodiscard]] std::vector<note> notes_of(cue which);

// The peak of that cue as a share of full scale: what asks to be done now is loudest.
[[nodiscard]] double level_of(cue which);

// The samples of a whole cue, at most 2 seconds, from silence to silence.
[[nodiscard]] std::vector<std::int16_t> samples_of(cue which);

} // namespace qb::glass
