// A disk that refuses: what was pressed is kept in memory with its own time, the person is told
// what to write on paper, and it is written when the disk takes it.
#pragma once

#include "app/patient/shell/running_test.hpp"
#include "core/session/decide.hpp"

#include <deque>
#include <memory>
#include <string>
#include <utility>

namespace qb {

// What to write on paper, beside which time: the key of a sentence, the tube it names, the moment.
struct on_paper {
  std::string key;
  std::string tube; // empty where the sentence names none
  instant at;
};

// What was pressed and is not on the disk, in the order in which it was pressed.
class recovery {
public:
  // Something that was pressed waits for the disk. Until it took it nothing else is written.
  [[nodiscard]] bool waiting() const { return !unwritten_.empty(); }
  // The record could not be opened again yet; what was known last stays on the screen.
  [[nodiscard]] bool lost(const std::unique_ptr<running_test>& running) const {
    return !running && !path_.empty();
  }
  // Something waits, or the journal takes nothing more until it was opened again.
  [[nodiscard]] bool needed(const std::unique_ptr<running_test>& running) const {
    return waiting() || lost(running) || (running && running->session().failure());
  }

  // The first press is the one that counts; the same pressed again while nothing moves is the same.
  void keep(const command& c, const clock_reading& r);

  // Opens and rereads the record and submits what waits, each with its own time. `running` is
  // closed first, since the lock must be let go, and is empty while it cannot be opened again; its
  // last state then stands in `meanwhile`. What is refused otherwise than by the disk is dropped,
  // as it would have been when it was pressed.
  void try_again(std::unique_ptr<running_test>& running, state& meanwhile);

  // Nothing where no press waits whose time counts.
  [[nodiscard]] std::optional<on_paper> paper() const;

private:
  std::deque<std::pair<command, clock_reading>> unwritten_; // the oldest first
  std::string path_; // of the record that could not be opened again meanwhile
};

} // namespace qb
