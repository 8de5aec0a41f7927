// Submitting and settling.
#include "core/session/engine.hpp"

namespace qb::inline sessions {

result<std::vector<event>> batch_of(const state& s, const command& c, const clock_reading& now) {
  const auto facts = decide(s, c, now);
  if (!facts) return tl::unexpected(facts.error());
  std::vector<event> batch;
  std::int64_t seq = s.seq;
  for (const payload& fact : *facts)
    batch.push_back(event{++seq, now, fact});
  return batch;
}

engine::engine(event_keeper& keeper, std::vector<event> kept)
    : keeper_(keeper), events_(std::move(kept)), state_(fold_events(events_)) {}

result<void> engine::submit(const command& c, const clock_reading& now) {
  if (saving()) {
    // After a failure nothing more is promised: whoever reopens the keeper keeps it.
    if (const auto failed = keeper_.failure()) return tl::unexpected(*failed);
    if (const auto batch = batch_of(expected(), c, now); !batch)
      return tl::unexpected(batch.error());
    heard_.push_back({c, now});
    return {};
  }
  const auto done = hand_over(c, now);
  settle();
  return done;
}

result<void> engine::hand_over(const command& c, const clock_reading& now) {
  if (const auto failed = keeper_.failure()) return tl::unexpected(*failed);
  auto batch = batch_of(state_, c, now);
  if (!batch) return tl::unexpected(batch.error());
  const auto accepted = keeper_.append(*batch);
  if (!accepted) return tl::unexpected(accepted.error());
  in_flight_ = std::move(*batch);
  return {};
}

void engine::fold_what_is_durable() {
  if (in_flight_.empty() || keeper_.durable() < in_flight_.back().seq) return;
  for (event& e : in_flight_) {
    state_ = apply(std::move(state_), e);
    events_.push_back(std::move(e));
  }
  in_flight_.clear();
}

void engine::settle() {
  fold_what_is_durable();
  while (in_flight_.empty() && !heard_.empty()) {
    const auto& [next, at] = heard_.front();
    const auto done = hand_over(next, at);
    // Where the keeper fails it is not lost: it waits until it is taken by whoever reopens it.
    if (!done && done.error().kind == refusal_kind::machine) return;
    // It was judged when it was pressed, by this very state.
    heard_.pop_front();
    fold_what_is_durable();
  }
}

std::vector<accepted_command> engine::take_unwritten() {
  std::vector<accepted_command> out;
  if (!in_flight_.empty()) out.push_back({command{in_flight_.back().what}, in_flight_.back().at});
  out.insert(out.end(), heard_.begin(), heard_.end());
  in_flight_.clear();
  heard_.clear();
  return out;
}

state engine::expected() const {
  state s = state_;
  for (const event& e : in_flight_)
    s = apply(std::move(s), e);
  for (const auto& [wanted, at] : heard_) {
    const auto batch = batch_of(s, wanted, at);
    for (const event& e : batch ? *batch : std::vector<event>{})
      s = apply(std::move(s), e);
  }
  return s;
}

} // namespace qb::inline sessions
