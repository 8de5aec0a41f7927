// One running test: commands in, durable facts out, a state that shows durable facts only.
// The one code path from a tap to the disk, for the window, the rehearsal and the tests.
#pragma once

#include "core/session/decide.hpp"

#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

namespace qb::inline sessions {

// Where facts are kept for good. An append is a promise: nothing counts until `durable` says so.
class event_keeper {
public:
  virtual ~event_keeper() = default;
  // Hands over one batch, whole or not at all; answers the last seq of it. After a failure every
  // further append is refused until the keeper was reopened and reread.
  [[nodiscard]] virtual result<std::int64_t> append(const std::vector<event>& batch) = 0;
  // Everything up to this seq survives a power cut.
  [[nodiscard]] virtual std::int64_t durable() const = 0;
  // The failure that stopped the keeper, if one did.
  [[nodiscard]] virtual std::optional<refusal> failure() const = 0;
};

// A command that was accepted, with the reading of its press: what is not durable yet.
struct accepted_command {
  command wanted;
  clock_reading at;
};

// The batch that a command makes, as the events that follow `s`; the wanted one is the last.
[[nodiscard]] result<std::vector<event>> batch_of(const state& s, const command& c,
                                                  const clock_reading& now);

// Owns the state of one test and hands facts to its keeper, one batch at a time.
class engine {
public:
  // `kept` are the keeper's events as they were reread; the keeper must outlive the engine.
  engine(event_keeper& keeper, std::vector<event> kept);

  // Decides and hands the facts to the keeper. Refuses as `machine` when the keeper cannot write;
  // the state changes only once the facts are durable. While a batch is in flight all that is told
  // is judged as if it were durable, waits for it with the reading of now, and is handed over by
  // `settle`: a slow keeper changes when a fact counts, never which ones do.
  [[nodiscard]] result<void> submit(const command& c, const clock_reading& now);

  // Folds what has become durable. Called after submit and once a frame.
  void settle();

  // What was accepted and is not durable, the oldest first, for whoever reopens a keeper that
  // failed: this engine forgets it. It may have reached the disk all the same.
  [[nodiscard]] std::vector<accepted_command> take_unwritten();

  // The state as it will be once all that was accepted is durable. Never to be shown as kept.
  [[nodiscard]] state expected() const;

  [[nodiscard]] const state& current() const { return state_; }
  [[nodiscard]] const std::vector<event>& events() const { return events_; }
  [[nodiscard]] bool saving() const { return !in_flight_.empty() || !heard_.empty(); }
  [[nodiscard]] std::optional<refusal> failure() const { return keeper_.failure(); }

private:
  [[nodiscard]] result<void> hand_over(const command& c, const clock_reading& now);
  void fold_what_is_durable();

  event_keeper& keeper_;
  std::vector<event> events_;          // durable
  std::vector<event> in_flight_;       // handed over, not yet durable
  std::deque<accepted_command> heard_; // wait for that, the oldest first
  state state_;
};

} // namespace qb::inline sessions
