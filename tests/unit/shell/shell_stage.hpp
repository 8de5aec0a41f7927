// The whole patient's side without a window: shell, screens and a real journal, on a made machine.
// A person presses what stands in the outline; time passes when told to; a kill is leaving it.
#pragma once

#include "app/patient/shell/shell.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"
#include "tests/support/repository.hpp"
#include "tests/unit/shell/made_machine.hpp"
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

class shell_stage {
public:
  explicit shell_stage(const std::string& wall = "2027-04-06T06:00:00Z",
                       const std::string& profile = "fenwick-vale", float width = 360,
                       float height = 640)
      : m(utc(wall), folder.path()), h(width, height) {
    options.data = folder.path();
    options.assets = repository() + "/assets";
    options.profile = profile;
    options.program = "quarterbreath test";
    cues_ = std::make_unique<cue_player>([]() -> result<std::unique_ptr<glass::sound_sink>> {
      return tl::unexpected(refusal{refusal_kind::machine, "", "sound", "no card", "a card"});
    });
    h.draw_frame = [this](toolkit& k, float w, float high) { next = running->frame(k, w, high); };
  }

  // A record as it stood when `p` did what was done so far; the clock goes on from there.
  void keep(const patient& p, const std::string& id, bool practice = false) {
    const std::string tests = tests_folder(options.data, practice);
    REQUIRE(this_disk().make_folder(tests));
    auto journal = open_journal(journal_path(tests, id));
    REQUIRE(journal);
    REQUIRE(journal->keeper.append(p.e.events()));
    m.clock = p.clock;
  }
  // Starts the program; what it refuses is answered.
  std::optional<refusal> start(bool rehearsal = false) {
    options.rehearsal = rehearsal;
    auto opened = shell::open(options, m, *cues_);
    if (!opened) return opened.error();
    running = std::move(*opened);
    h.frames(2);
    return std::nullopt;
  }
  // Ends it as a kill does: nothing is told to it.
  void kill() { running.reset(); }
  void restart() {
    kill();
    REQUIRE_FALSE(start());
  }

  [[nodiscard]] const std::string& screen() const { return h.seen().screen; }
  void pass(duration d) {
    m.clock.pass(d);
    h.frames(2);
  }
  // A press half a second after the last one, so that it is no tremble; on a later leaf where it
  // is not on this one.
  bool press(const std::string& key) {
    pass(std::chrono::milliseconds{600});
    while (h.find(key) == nullptr && h.find("page-more") != nullptr && h.press("page-more"))
      pass(std::chrono::milliseconds{600});
    return h.press(key);
  }
  // Goes on after "I feel unwell": none of the warning signs is there.
  void feels_better() {
    REQUIRE(press("unwell-over"));
    REQUIRE(press("red-flags-none"));
  }
  // All words of the page, of this panel.
  [[nodiscard]] std::string words() const {
    std::string out;
    for (const element& e : h.seen().elements)
      out += e.name + " " + e.value + " ";
    return out;
  }
  [[nodiscard]] bool says(const std::string& text) const {
    return words().find(text) != std::string::npos;
  }
  // What is durable in that test's journal; the program must not be running on it.
  [[nodiscard]] std::vector<event> journal_of(const std::string& id, bool practice = false) const {
    auto open = open_journal(journal_path(tests_folder(options.data, practice), id));
    REQUIRE(open);
    return open->events;
  }

  own_folder folder;
  made_machine m;
  harness h;
  shell_options options;
  std::unique_ptr<shell> running;
  double next{0}; // seconds until the next frame is wanted, as the last one said

private:
  std::unique_ptr<cue_player> cues_;
};

// Tube 1 is closed and labelled.
inline patient at_the_drink() {
  patient p;
  p.through_tube_1();
  p.label(1);
  return p;
}

} // namespace qb::test
