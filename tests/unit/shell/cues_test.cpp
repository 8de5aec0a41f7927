// What is sounded when, with a sink that only remembers: calls are repeated until they are
// answered, ever less often, and not past the tube's last call; an output may go away at any time.
#include "app/patient/shell/cues.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace qb;

namespace {

// What happened to the made-up output, outliving it.
struct heard {
  std::vector<glass::cue> cues;
  int opened{0};
  bool card{true};        // there is one to open
  bool breaks{false};     // it goes away in the middle of the next cue
  bool short_room{false}; // its buffer takes a cue only in parts
};

glass::cue cue_of(const std::vector<std::int16_t>& samples) {
  for (const glass::cue c : {glass::cue::heads_up, glass::cue::now, glass::cue::breath_start,
                             glass::cue::breath_end, glass::cue::done}) {
    if (samples == glass::samples_of(c)) return c;
  }
  REQUIRE(samples == glass::samples_of(glass::cue::tick));
  return glass::cue::tick;
}

class made_up_sink final : public glass::sound_sink {
public:
  explicit made_up_sink(heard& log) : log_(log) {}
  result<void> play(std::vector<std::int16_t> samples) override {
    if (!log_.card) return tl::unexpected(gone());
    log_.cues.push_back(cue_of(samples));
    return {};
  }
  result<bool> pump() override {
    if (log_.breaks) return tl::unexpected(gone());
    return log_.short_room;
  }

private:
  static refusal gone() { return {refusal_kind::machine, "", "play", "no such device", "a card"}; }
  heard& log_;
};

struct stage {
  heard log;
  cue_player player;
  now_answer now;
  duration at{1'000'000};

  explicit stage(bool card = true) : log{{}, 0, card}, player([this] { return open(); }) {}

  result<std::unique_ptr<glass::sound_sink>> open() {
    ++log.opened;
    if (!log.card)
      return tl::unexpected(refusal{refusal_kind::machine, "", "open", "no card", "a card"});
    return std::unique_ptr<glass::sound_sink>(std::make_unique<made_up_sink>(log));
  }
  void look() { player.follow(now, at); }
  // A frame a second for so long, with tube `n` due at first.
  void wait(int seconds) {
    for (int i = 0; i < seconds; ++i) {
      at += duration{1000};
      if (now.to_due) *now.to_due -= duration{1000};
      if (now.to_last_call) *now.to_last_call -= duration{1000};
      look();
    }
  }
  void step_to(step what, int sample = 2) {
    now = {};
    now.what = what;
    now.sample = sample_number(sample);
    look();
  }
  void due(int last_call_s = 600, int sample = 2) {
    now = {};
    now.what = step::breathe;
    now.sample = sample_number(sample);
    now.to_due = duration{0};
    now.to_last_call = duration{last_call_s * 1000};
    look();
  }
  [[nodiscard]] long count(glass::cue c) const {
    return std::count(log.cues.begin(), log.cues.end(), c);
  }
};

} // namespace

TEST_CASE("a due tube calls at once, and again with pauses that grow to a minute") {
  stage s;
  s.step_to(step::wait);
  s.due();
  CHECK(s.count(glass::cue::now) == 1);
  std::vector<int> at;
  for (int second = 1; second <= 300; ++second) {
    const long before = s.count(glass::cue::now);
    s.wait(1);
    if (s.count(glass::cue::now) > before) at.push_back(second);
  }
  CHECK(at == std::vector<int>{12, 30, 57, 98, 158, 218, 278});
}

TEST_CASE("no pause is so short that a cue could not be heard out before the next") {
  const auto longest_cue =
      static_cast<double>(glass::samples_of(glass::cue::now).size()) / glass::sample_rate;
  CHECK(static_cast<double>(call_again::first.count()) / 1000 > 4 * longest_cue);
  CHECK(call_again::after(call_again::longest) == call_again::longest);
  CHECK(call_again::after(call_again::first) > call_again::first);
}

TEST_CASE("a press answers the call for this tube, and the next tube calls again") {
  stage s;
  s.step_to(step::wait);
  s.due();
  s.player.acknowledge();
  s.wait(300);
  CHECK(s.count(glass::cue::now) == 1);
  s.step_to(step::wait, 3);
  s.due(600, 3);
  CHECK(s.count(glass::cue::now) == 2);
}

TEST_CASE("the breath, once begun, ends the call") {
  stage s;
  s.step_to(step::wait);
  s.due();
  s.step_to(step::lead_in);
  s.step_to(step::blowing);
  s.step_to(step::close);
  s.step_to(step::label);
  s.wait(300);
  CHECK(s.log.cues == std::vector<glass::cue>{glass::cue::now, glass::cue::breath_start,
                                              glass::cue::breath_end, glass::cue::done});
}

TEST_CASE("a breath that was broken off calls again, but not upon the person who is there") {
  stage s;
  s.step_to(step::wait);
  s.due();
  s.step_to(step::blowing);
  s.due();
  CHECK(s.count(glass::cue::now) == 1);
  s.wait(12);
  CHECK(s.count(glass::cue::now) == 2);
}

TEST_CASE("the last call ends the calls") {
  stage s;
  s.step_to(step::wait);
  s.due(60);
  s.wait(60);
  const long called = s.count(glass::cue::now);
  CHECK(called == 4);
  s.wait(600);
  CHECK(s.count(glass::cue::now) == called);
}

TEST_CASE("a heads-up is repeated too, and answering it does not silence the call") {
  stage s;
  s.step_to(step::wait);
  s.step_to(step::heads_up);
  s.wait(13);
  CHECK(s.count(glass::cue::heads_up) == 2);
  s.player.acknowledge();
  s.wait(40);
  CHECK(s.count(glass::cue::heads_up) == 2);
  s.due();
  CHECK(s.count(glass::cue::now) == 1);
}

TEST_CASE("a tube that is blown again and the first tube call nobody: the person is there") {
  stage s;
  s.step_to(step::label);
  s.now = {};
  s.now.what = step::breathe;
  s.now.sample = sample_number(1);
  s.wait(60);
  s.now.to_due = duration{-60'000};
  s.now.repeating = true;
  s.wait(60);
  CHECK(s.log.cues.empty());
}

TEST_CASE("a program that is started while a tube is due calls for it") {
  stage s;
  s.due();
  CHECK(s.log.cues == std::vector<glass::cue>{glass::cue::now});
}

TEST_CASE("each second of the lead-in, and of holding, ticks once") {
  stage s;
  s.step_to(step::breathe);
  s.now.what = GENERATE(step::lead_in, step::hold_breath);
  for (int ms = 3000; ms > 0; ms -= 100) {
    s.now.phase_left = duration{ms};
    s.look();
  }
  CHECK(s.log.cues ==
        std::vector<glass::cue>{glass::cue::tick, glass::cue::tick, glass::cue::tick});
}

TEST_CASE("without a card nothing is played and nothing is said to be lost") {
  stage s(false);
  s.due();
  CHECK_FALSE(s.player.has_sound());
  CHECK_FALSE(s.player.lost());
  CHECK(s.log.cues.empty());
}

TEST_CASE("a card that goes away in the middle of a cue is lost, and the next cue looks for it") {
  stage s;
  s.step_to(step::wait);
  s.log.breaks = true;
  s.due();
  CHECK_FALSE(s.player.has_sound());
  CHECK(s.player.lost());
  const int tried = s.log.opened;
  s.log.card = false;
  s.wait(11);
  CHECK(s.log.opened == tried); // not in every frame
  s.wait(1);
  CHECK(s.log.opened == tried + 1);
  CHECK(s.player.lost());
  s.log.card = true;
  s.log.breaks = false;
  s.wait(18);
  CHECK(s.player.has_sound());
  CHECK_FALSE(s.player.lost());
  CHECK(s.count(glass::cue::now) == 2);
}

TEST_CASE("silence is kept in every step") {
  stage s;
  s.player.set_silent(true);
  s.step_to(step::heads_up);
  s.due();
  s.wait(60);
  s.step_to(step::blowing);
  s.step_to(step::close);
  s.player.play(glass::cue::now);
  CHECK(s.log.cues.empty());
  CHECK(s.player.has_sound());
}

TEST_CASE("an output with a small buffer is fed soon again, a large one not at all") {
  stage s;
  s.due();
  CHECK(std::isinf(s.player.wanted_in()));
  s.log.short_room = true;
  s.look();
  CHECK(s.player.wanted_in() <= 0.1);
}
