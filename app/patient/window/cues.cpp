// Changes of the step, heard.
#include "app/patient/window/cues.hpp"

namespace qb {

cue_player::cue_player() {
  if (auto opened = sound::open()) sound_ = std::move(*opened);
}

void cue_player::play(cue which) {
  if (!sound_) return;
  // A card that fails while it plays is gone; the picture goes on.
  if (!sound_->play(samples_of(which))) sound_.reset();
}

void cue_player::follow(const now_answer& now) {
  const bool first_look = !last_step_;
  const bool moved = first_look || *last_step_ != now.what || last_sample_ != now.sample;
  const bool due = now.what == step::breathe && now.to_due && *now.to_due <= duration{0};
  if (!first_look && moved) {
    if (now.what == step::heads_up) play(cue::heads_up);
    if (now.what == step::blowing) play(cue::breath_start);
    if (now.what == step::close) play(cue::breath_end);
    if (now.what == step::label && *last_step_ == step::close) play(cue::done);
  }
  if (due && (moved || !was_due_)) play(cue::now);
  if (now.what == step::lead_in) {
    const auto second = std::chrono::ceil<std::chrono::seconds>(*now.phase_left).count();
    if (second != last_tick_) play(cue::tick);
    last_tick_ = second;
  }
  was_due_ = due;
  last_step_ = now.what;
  last_sample_ = now.sample;
  if (sound_) sound_->pump();
}

} // namespace qb
