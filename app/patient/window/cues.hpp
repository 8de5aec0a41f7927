// Which sound belongs to which change of the step. Sound is the second channel: every cue has its
// picture, and a device without sound goes on.
#pragma once

#include "app/platform/sound.hpp"
#include "app/platform/tones.hpp"
#include "core/session/now.hpp"

#include <optional>
#include <string>

namespace qb {

class cue_player {
public:
  // Opens the sound card if there is one.
  cue_player();

  [[nodiscard]] bool has_sound() const { return sound_.has_value(); }
  // Plays what the change from the last answer to this one calls for.
  void follow(const now_answer& now);
  void play(cue which);

private:
  std::optional<sound> sound_;
  std::optional<step> last_step_;
  std::optional<sample_number> last_sample_;
  bool was_due_{false};
  std::int64_t last_tick_{-1};
};

} // namespace qb
