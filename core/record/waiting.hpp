// What was accepted while the disk refused: judged and shown as if the disk had taken it at once,
// and written with its own times once it does.
// Nothing that was accepted is dropped in silence. What the record refuses when it is written at
// last is kept in the form in which it is never refused, else as a comment, and is told.
#pragma once

#include "core/session/engine.hpp"

#include <cstdint>
#include <deque>
#include <vector>

namespace qb::inline records {

// What was pressed at that instant is not in the record as it was pressed: there is a note of it,
// or nothing at all.
struct put_aside {
  instant pressed;
  bool noted{false};
};

// The forms in which a fact is kept, the best first: as it was pressed; where that is refused by
// then, as what is told of it and not refused; else as a comment that names it.
[[nodiscard]] std::vector<payload> forms_of(const accepted_command& a);

// In the order in which it was pressed.
class waiting_facts {
public:
  [[nodiscard]] bool empty() const { return waiting_.empty(); }
  [[nodiscard]] const std::deque<accepted_command>& all() const { return waiting_; }

  // The last durable state with all that waits folded in: what is shown and decided rests on it.
  [[nodiscard]] const state& shown() const { return shown_; }

  // Tells it to the open record, or keeps it where the disk refuses. While something waits all
  // waits behind it, and is taken or refused as it would be if nothing waited; but a correction of
  // what itself waits is refused, since only the record can name it. `open` is nullptr while the
  // record cannot be opened.
  [[nodiscard]] result<void> tell(engine* open, const command& c, const clock_reading& r);

  // An engine whose keeper has failed: its state is what is durable, and what it accepted and
  // could not write waits first of all. Afterwards the engine may go.
  void take_over(engine& failed);

  // Writes what waits to an engine whose record was reread; what stays when the keeper fails again
  // waits on.
  void write_to(engine& reread);

  // What is not kept as it was pressed, since it was last forgotten.
  [[nodiscard]] const std::vector<put_aside>& aside() const { return aside_; }
  void forget_aside() { aside_.clear(); }

private:
  [[nodiscard]] result<void> take(const command& c, const clock_reading& r);
  void stand_on(const engine& e);
  // False: the keeper cannot write now.
  [[nodiscard]] bool write_one(engine& reread, const accepted_command& a);
  [[nodiscard]] bool is_written(const engine& reread, const accepted_command& a) const;

  std::deque<accepted_command> waiting_;
  state shown_;
  std::int64_t durable_seq_{0}; // the last event that is known to be durable
  std::vector<put_aside> aside_;
};

} // namespace qb::inline records
