// Which sound belongs to which change of the step, and when a call is repeated. Sound is the second
// channel: every cue has its picture, and a device without sound goes on.
#pragma once

#include "app/glass/sound.hpp"
#include "app/glass/tones.hpp"
#include "core/session/now.hpp"

#include <memory>
#include <optional>

namespace qb::inline shells {

// How a call (`heads_up`, `now`) is repeated while nobody answers it. These are no clinical numbers
// but manners: soon enough for someone in the next room who was not sure, then ever less often, so
// that it does not drive someone who cannot come, and never more often than a cue can be heard out.
namespace call_again {
inline constexpr duration first{12'000};   // from the first call to the second
inline constexpr duration longest{60'000}; // no pause grows beyond this
// Each pause is half as long again as the one before.
[[nodiscard]] constexpr duration after(duration pause) {
  const duration longer = pause * 3 / 2;
  return longer < longest ? longer : longest;
}
} // namespace call_again

// Follows the answers of `what_now` and keeps the one sound output.
class cue_player {
public:
  // Opens a sound output with `open` if there is one.
  explicit cue_player(glass::sound_opener open = glass::open_sound);

  [[nodiscard]] bool has_sound() const { return sink_ != nullptr; }
  // There was an output, and it went away. Each cue looks for it again.
  [[nodiscard]] bool lost() const { return lost_; }

  // The person has chosen to watch the screen: nothing is played.
  void set_silent(bool silent) { silent_ = silent; }
  // Plays what the change from the last answer to this one calls for, and repeats a call that
  // nobody answers until the tube's last call. `at` is a time that runs on evenly, such as the time
  // since boot: a repeat is for ears, whatever pace practice has.
  void follow(const now_answer& now, duration at);
  // Something was pressed: whoever is called has come. This call is not repeated.
  void acknowledge() { answered_ = true; }
  void play(glass::cue which);
  // Seconds until follow() wants to be called again for the sound's sake; infinity when never.
  [[nodiscard]] double wanted_in() const;

private:
  void sound_change(const now_answer& now);
  void call(const now_answer& now, duration at, bool moved);
  void tick(const now_answer& now);
  void pump();
  void look_for_output();
  void lose();

  glass::sound_opener open_;
  std::unique_ptr<glass::sound_sink> sink_;
  bool lost_{false};
  bool silent_{false};
  bool busy_{false}; // part of a cue waits for room in the output's buffer
  std::optional<step> last_step_;
  std::optional<sample_number> last_sample_;
  std::int64_t last_tick_{-1};
  std::optional<glass::cue> calling_; // the call that stands, answered or not
  bool answered_{false};
  duration called_at_{0};
  duration pause_{0};
};

} // namespace qb::inline shells
