// The ALSA writer: a buffer as long as the longest cue, opened non-blocking, started by hand.
// The library's own messages to standard error are silenced: a missing card is a value here.
#include "app/platform/sound.hpp"
#include "app/platform/tones.hpp"

#include <alsa/asoundlib.h>

#include <algorithm>

namespace qb {

namespace {

constexpr unsigned buffer_us = 2'000'000;

void no_message(const char*, int, const char*, int, const char*, ...) {}

refusal failed(const char* doing, int code) {
  return {refusal_kind::machine, "", doing, snd_strerror(code), "a sound output"};
}

} // namespace

struct sound::line {
  snd_pcm_t* pcm{nullptr};
  std::vector<std::int16_t> samples;
  std::size_t sent{0};

  line() = default;
  line(const line&) = delete;
  line& operator=(const line&) = delete;
  ~line() {
    if (pcm != nullptr) snd_pcm_close(pcm);
  }
};

sound::sound(std::unique_ptr<line> opened) : line_(std::move(opened)) {}
sound::sound(sound&&) noexcept = default;
sound& sound::operator=(sound&&) noexcept = default;
sound::~sound() = default;

result<sound> sound::open() {
  snd_lib_error_set_handler(no_message);
  auto made = std::make_unique<line>();
  int code = snd_pcm_open(&made->pcm, "default", SND_PCM_STREAM_PLAYBACK, SND_PCM_NONBLOCK);
  if (code < 0) return tl::unexpected(failed("open the sound output", code));
  code = snd_pcm_set_params(made->pcm, SND_PCM_FORMAT_S16, SND_PCM_ACCESS_RW_INTERLEAVED, 1,
                            sample_rate, 1, buffer_us);
  if (code < 0) return tl::unexpected(failed("set up the sound output", code));
  return sound(std::move(made));
}

result<void> sound::play(std::vector<std::int16_t> samples) {
  (void)snd_pcm_drop(line_->pcm);
  const int code = snd_pcm_prepare(line_->pcm);
  if (code < 0) return tl::unexpected(failed("start a sound", code));
  line_->samples = std::move(samples);
  line_->sent = 0;
  pump();
  return {};
}

bool sound::pump() {
  line& l = *line_;
  const std::size_t left = l.samples.size() - l.sent;
  if (left == 0) return false;
  const auto n = snd_pcm_writei(l.pcm, l.samples.data() + l.sent, left);
  if (n == -EAGAIN) return true;
  if (n < 0) {
    // An output that has run dry is made ready again; any other failure ends this cue.
    if (snd_pcm_recover(l.pcm, static_cast<int>(n), 1) < 0) l.sent = l.samples.size();
    return l.sent < l.samples.size();
  }
  l.sent += static_cast<std::size_t>(n);
  // ALSA by itself would start only with a full buffer.
  if (snd_pcm_state(l.pcm) == SND_PCM_STATE_PREPARED) (void)snd_pcm_start(l.pcm);
  return l.sent < l.samples.size();
}

} // namespace qb
