// Playing a cue through ALSA, without a thread and without ever waiting.
// Sound is the second channel, never the only one: without a card the program says so and goes on.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <memory>
#include <vector>

namespace qb {

class sound {
public:
  // Opens the machine's usual output. Refuses as `machine` when there is none.
  [[nodiscard]] static result<sound> open();

  sound(sound&&) noexcept;
  sound& operator=(sound&&) noexcept;
  sound(const sound&) = delete;
  sound& operator=(const sound&) = delete;
  ~sound();

  // Starts these samples (mono, sample_rate), in place of what may still be playing. The whole of
  // it is handed over at once if it fits; pump() hands over the rest.
  [[nodiscard]] result<void> play(std::vector<std::int16_t> samples);

  // To be called each frame. Answers true while there is something left to hand over.
  bool pump();

private:
  struct line;
  explicit sound(std::unique_ptr<line> opened);
  std::unique_ptr<line> line_;
};

} // namespace qb
