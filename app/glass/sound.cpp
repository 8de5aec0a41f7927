// The ALSA writer: a buffer as long as the longest cue, opened non-blocking, started by hand.
// The library's own messages to standard error are silenced: a missing card is a value here.
#include "app/glass/sound.hpp"
#include "app/glass/tones.hpp"

#include <alsa/asoundlib.h>

namespace qb::glass {

namespace {

constexpr unsigned buffer_us = 2'000'000;

void no_message(const char*, int, const char*, int, const char*, ...) {}

refusal failed(const char* doing, long code) {
  return {refusal_kind::machine, "", doing, snd_strerror(static_cast<int>(code)), "a sound output"};
}

class alsa_line final : public sound_sink {
public:
  alsa_line() = default;
  ~alsa_line() override {
    if (pcm_ == nullptr) return;
    (void)snd_pcm_drop(pcm_); // what is left of a cue is not waited for
    snd_pcm_close(pcm_);
  }

  result<void> open() {
    int code = snd_pcm_open(&pcm_, "default", SND_PCM_STREAM_PLAYBACK, SND_PCM_NONBLOCK);
    if (code < 0) return tl::unexpected(failed("open the sound output", code));
    code = snd_pcm_set_params(pcm_, SND_PCM_FORMAT_S16, SND_PCM_ACCESS_RW_INTERLEAVED, 1,
                              sample_rate, 1, buffer_us);
    if (code < 0) return tl::unexpected(failed("set up the sound output", code));
    return {};
  }

  result<void> play(std::vector<std::int16_t> samples) override {
    (void)snd_pcm_drop(pcm_);
    const int code = snd_pcm_prepare(pcm_);
    if (code < 0) return tl::unexpected(failed("start a sound", code));
    samples_ = std::move(samples);
    sent_ = 0;
    under_way_ = true;
    const auto handed = pump();
    if (!handed) return tl::unexpected(handed.error());
    return {};
  }

  result<bool> pump() override {
    if (!under_way_) return false;
    const std::size_t left = samples_.size() - sent_;
    return left > 0 ? hand_over(left) : watch();
  }

private:
  result<bool> hand_over(std::size_t left) {
    const auto n = snd_pcm_writei(pcm_, samples_.data() + sent_, left);
    if (n == -EAGAIN) return true;
    if (n < 0) {
      // An output that has run dry or was suspended is made ready again; any other is gone.
      const int code = snd_pcm_recover(pcm_, static_cast<int>(n), 1);
      if (code < 0) return lost(code);
      return true;
    }
    sent_ += static_cast<std::size_t>(n);
    // ALSA by itself would start only with a full buffer.
    if (snd_pcm_state(pcm_) == SND_PCM_STATE_PREPARED) {
      const int code = snd_pcm_start(pcm_);
      if (code < 0) return lost(code);
    }
    return sent_ < samples_.size();
  }

  // All of it is with the card: is the card still there? Running dry is how a cue ends.
  result<bool> watch() {
    const auto room = snd_pcm_avail_update(pcm_);
    if (room == -EPIPE) under_way_ = false;
    const bool gone = room < 0 && room != -EPIPE && room != -EAGAIN && room != -ESTRPIPE;
    if (gone) return lost(room);
    return false;
  }

  result<bool> lost(long code) {
    under_way_ = false;
    return tl::unexpected(failed("play a sound", code));
  }

  snd_pcm_t* pcm_{nullptr};
  std::vector<std::int16_t> samples_;
  std::size_t sent_{0};
  bool under_way_{false};
};

} // namespace

result<std::unique_ptr<sound_sink>> open_sound() {
  snd_lib_error_set_handler(no_message);
  auto made = std::make_unique<alsa_line>();
  if (const auto opened = made->open(); !opened) return tl::unexpected(opened.error());
  return std::unique_ptr<sound_sink>(std::move(made));
}

} // namespace qb::glass
