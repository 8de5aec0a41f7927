// Plays cues through the machine's usual sound output, so that a reader of another make can measure
// what comes out. What is checked is app/glass: this only calls it as the window does.
//
// Usage: sound_cues [--card-goes-away] NAME...
//   cues by name, one after another, each handed over whole; the card may go away once it has one
//   exit 0; 4 when there is no sound output, 5 when it was lost, 2 for a name that is none
#include "app/glass/sound.hpp"
#include "app/glass/tones.hpp"

#include <cerrno>
#include <chrono>
#include <dlfcn.h>
#include <fmt/core.h>
#include <map>
#include <string>
#include <thread>

namespace {

bool card_goes_away = false;

} // namespace

// Stands before the sound library's own function, as this program's symbols come first: what it
// says of a card that was pulled out.
extern "C" long snd_pcm_avail_update(void* line) {
  if (card_goes_away) return -ENODEV;
  using function = long (*)(void*);
  static const auto real = reinterpret_cast<function>(dlsym(RTLD_NEXT, "snd_pcm_avail_update"));
  return real(line);
}

namespace {

const std::map<std::string, qb::glass::cue> cues{{"heads-up", qb::glass::cue::heads_up},
                                                 {"now", qb::glass::cue::now},
                                                 {"breath-start", qb::glass::cue::breath_start},
                                                 {"breath-end", qb::glass::cue::breath_end},
                                                 {"done", qb::glass::cue::done},
                                                 {"tick", qb::glass::cue::tick}};

// Hands over until all is with the output, as the window's frames do.
bool play(qb::glass::sound_sink& out, qb::glass::cue which) {
  if (!out.play(qb::glass::samples_of(which))) return false;
  for (;;) {
    const auto left = out.pump();
    if (!left) return false;
    if (!*left) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
  }
}

} // namespace

int main(int argc, char** argv) {
  const auto out = qb::glass::open_sound();
  if (!out) {
    fmt::print(stderr, "{}\n", qb::sentence(out.error()));
    return 4;
  }
  for (int i = 1; i < argc; ++i) {
    if (std::string(argv[i]) == "--card-goes-away") {
      card_goes_away = true;
      continue;
    }
    const auto found = cues.find(argv[i]);
    if (found == cues.end()) return 2;
    if (!play(**out, found->second)) return 5;
  }
  return 0;
}
