// A disk that refuses: what was pressed is kept in memory with its own time, the person is told
// what to write on paper, and it is written when the disk takes it. Meanwhile the test goes on as
// if it were written (core/record/waiting.hpp).
#pragma once

#include "app/patient/shell/running_test.hpp"
#include "core/record/waiting.hpp"

#include <memory>
#include <string>
#include <vector>

namespace qb::inline shells {

// What to write on paper, beside which time: the key of a sentence, the tube it names, the moment.
struct on_paper {
  std::string key;
  std::string tube; // empty where the sentence names none
  instant at;
};

// Of one test, which must stay the open one until nothing waits and the record is open again.
class recovery {
public:
  // Something that was pressed waits for the disk. Until it took it nothing else is written.
  [[nodiscard]] bool waiting() const { return !facts_.empty(); }
  // The record could not be opened again yet; what was known last stays on the screen.
  [[nodiscard]] bool lost(const std::unique_ptr<running_test>& running) const {
    return !running && !path_.empty();
  }
  // What waited was handed over again, and is not durable yet.
  [[nodiscard]] bool rewriting(const std::unique_ptr<running_test>& running) const {
    return again_ && running && running->session().saving();
  }
  // Whether the state of what was pressed is `shown`, not the open record's.
  [[nodiscard]] bool holds(const std::unique_ptr<running_test>& running) const {
    return waiting() || lost(running) || rewriting(running);
  }
  // Something waits, or the journal takes nothing more until it was opened again.
  [[nodiscard]] bool needed(const std::unique_ptr<running_test>& running) const {
    return waiting() || lost(running) || (running && running->session().failure());
  }
  // The test as it is with all that was pressed, where it `holds` that.
  [[nodiscard]] const state& shown() const { return again_ ? *again_ : facts_.shown(); }

  // Tells it to the open record. Refused by the disk it is kept for later and counts as told at
  // once; what a test refuses is refused. Asked while a record is open, or was and is lost.
  [[nodiscard]] result<void> tell(const command& c, const clock_reading& r,
                                  const std::unique_ptr<running_test>& running);

  // Opens and rereads the record and writes what waits, each with its own time. `running` is
  // closed first, since the lock must be let go, and is empty while it cannot be opened again.
  void try_again(std::unique_ptr<running_test>& running, durable_writes& writes);
  // Asked once a frame: what was handed over again may have become durable.
  void settle(const std::unique_ptr<running_test>& running);

  // The latest of what waits, or was handed over again, whose time counts; nothing where there is
  // none.
  [[nodiscard]] std::optional<on_paper> paper() const;

  // What is not in the record as it was pressed, until the person has seen it.
  [[nodiscard]] const std::vector<put_aside>& aside() const { return facts_.aside(); }
  void forget_aside() { facts_.forget_aside(); }

private:
  [[nodiscard]] std::optional<on_paper> paper_of_waiting() const;

  waiting_facts facts_;
  std::string path_;             // of the record that could not be opened again meanwhile
  std::optional<state> again_;   // with all that was handed over again and is not durable yet
  std::optional<on_paper> told_; // of that
};

} // namespace qb::inline shells
