// Changes of the step, heard; calls, repeated.
#include "app/patient/shell/cues.hpp"

#include <limits>

namespace qb::inline shells {

namespace {

// What calls the person to a tube at this step. A tube that is blown again needs no call: whoever
// asked for it is there.
std::optional<glass::cue> call_of(const now_answer& now) {
  if (now.what == step::heads_up) return glass::cue::heads_up;
  const bool due = now.what == step::breathe && now.to_due && *now.to_due <= duration{0};
  const bool over = now.to_last_call && *now.to_last_call <= duration{0};
  if (due && !over && !now.repeating) return glass::cue::now;
  return std::nullopt;
}

bool is_breath(step s) {
  return s == step::lead_in || s == step::hold_breath || s == step::blowing || s == step::close;
}

} // namespace

cue_player::cue_player(glass::sound_opener open) : open_(std::move(open)) {
  look_for_output();
}

void cue_player::look_for_output() {
  auto opened = open_();
  if (!opened) return;
  sink_ = std::move(*opened);
  lost_ = false;
}

// A card that fails while it plays is gone; the picture goes on.
void cue_player::lose() {
  sink_.reset();
  busy_ = false;
  lost_ = true;
}

void cue_player::play(glass::cue which) {
  if (silent_) return;
  if (!sink_ && which != glass::cue::tick) look_for_output();
  if (!sink_) return;
  if (!sink_->play(glass::samples_of(which))) lose();
}

void cue_player::pump() {
  if (!sink_) return;
  const auto left = sink_->pump();
  if (!left) return lose();
  busy_ = *left;
}

double cue_player::wanted_in() const {
  constexpr double soon = 0.05; // shorter than any buffer that is worth the name
  return busy_ ? soon : std::numeric_limits<double>::infinity();
}

void cue_player::sound_change(const now_answer& now) {
  if (now.what == step::blowing) play(glass::cue::breath_start);
  if (now.what == step::close) play(glass::cue::breath_end);
  if (now.what == step::symptoms_after && *last_step_ == step::rest) play(glass::cue::heads_up);
  if (now.what == step::label && *last_step_ == step::close) play(glass::cue::done);
}

void cue_player::call(const now_answer& now, duration at, bool moved) {
  const std::optional<glass::cue> wanted = call_of(now);
  if (!wanted) {
    calling_.reset();
    return;
  }
  if (moved || calling_ != wanted) {
    // After a breath that was broken off the person is there: only a repeat calls again.
    const bool is_there = last_step_ && is_breath(*last_step_) && last_sample_ == now.sample;
    calling_ = wanted;
    answered_ = false;
    called_at_ = at;
    pause_ = call_again::first;
    if (!is_there) play(*wanted);
    return;
  }
  if (answered_ || at - called_at_ < pause_) return;
  called_at_ = at;
  pause_ = call_again::after(pause_);
  play(*wanted);
}

void cue_player::tick(const now_answer& now) {
  const bool counts = now.what == step::lead_in || now.what == step::hold_breath;
  if (!counts || !now.phase_left) {
    last_tick_ = -1;
    return;
  }
  const auto second = std::chrono::ceil<std::chrono::seconds>(*now.phase_left).count();
  if (second != last_tick_) play(glass::cue::tick);
  last_tick_ = second;
}

void cue_player::follow(const now_answer& now, duration at) {
  const bool first_look = !last_step_;
  const bool moved = first_look || *last_step_ != now.what || last_sample_ != now.sample;
  if (!first_look && moved) sound_change(now);
  call(now, at, moved);
  tick(now);
  last_step_ = now.what;
  last_sample_ = now.sample;
  pump();
}

} // namespace qb::inline shells
