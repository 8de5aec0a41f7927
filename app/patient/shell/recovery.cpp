// After a failed write nothing more is written until the file was opened and read again.
#include "app/patient/shell/recovery.hpp"

namespace qb::inline shells {

namespace {

// No press but these has a time that counts.
std::string paper_key(const command& c) {
  if (std::holds_alternative<tube_closed>(c.wanted)) return "trouble.paper.closed";
  if (std::holds_alternative<drink_started>(c.wanted)) return "trouble.paper.drink-began";
  if (std::holds_alternative<drink_ended>(c.wanted)) return "trouble.paper.drink-empty";
  return "";
}

std::string tube_of(const command& c) {
  const auto* closed = std::get_if<tube_closed>(&c.wanted);
  return closed == nullptr ? "" : std::to_string(closed->sample.value());
}

} // namespace

result<void> recovery::tell(const command& c, const clock_reading& r,
                            const std::unique_ptr<running_test>& running) {
  const auto done = facts_.tell(running ? &running->session() : nullptr, c, r);
  if (done && rewriting(running)) again_ = running->session().expected();
  return done;
}

void recovery::try_again(std::unique_ptr<running_test>& running, durable_writes& writes) {
  if (running) {
    path_ = running->path();
    facts_.take_over(running->session());
    running.reset();
  }
  again_.reset();
  told_ = paper_of_waiting();
  auto again = running_test::open(path_, writes);
  if (!again) return; // tried again at the next look
  running = std::move(*again);
  path_.clear();
  facts_.write_to(running->session());
  if (running->session().saving()) again_ = running->session().expected();
}

void recovery::settle(const std::unique_ptr<running_test>& running) {
  if (rewriting(running)) return;
  again_.reset();
  told_.reset();
}

std::optional<on_paper> recovery::paper() const {
  const auto waits = paper_of_waiting();
  return waits || !again_ ? waits : told_;
}

std::optional<on_paper> recovery::paper_of_waiting() const {
  const auto& all = facts_.all();
  for (auto one = all.rbegin(); one != all.rend(); ++one) {
    const std::string key = paper_key(one->wanted);
    if (!key.empty()) return on_paper{key, tube_of(one->wanted), one->at.wall};
  }
  return std::nullopt;
}

} // namespace qb::inline shells
