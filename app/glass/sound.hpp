// Playing a cue through ALSA, without a thread and without ever waiting.
// Sound is the second channel, never the only one: without a card the program says so and goes on.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

namespace qb::glass {

// Where the samples of a cue go: a card, or in a test a list.
class sound_sink {
public:
  sound_sink() = default;
  sound_sink(const sound_sink&) = delete;
  sound_sink& operator=(const sound_sink&) = delete;
  virtual ~sound_sink() = default;

  // Starts these samples (mono, sample_rate), in place of what may still be playing. The whole of
  // it is handed over at once if it fits, so that a busy machine leaves no gaps; pump() hands over
  // the rest. Refuses as `machine` when the output is gone.
  [[nodiscard]] virtual result<void> play(std::vector<std::int16_t> samples) = 0;

  // To be called each frame. Answers true while there is something left to hand over. Refuses as
  // `machine` when the output went away in the middle of a cue.
  [[nodiscard]] virtual result<bool> pump() = 0;
};

using sound_opener = std::function<result<std::unique_ptr<sound_sink>>()>;

// Opens the machine's usual output. Refuses as `machine`, at once, when there is none.
[[nodiscard]] result<std::unique_ptr<sound_sink>> open_sound();

} // namespace qb::glass
