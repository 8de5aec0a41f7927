// SIGTERM and SIGINT as a question that can be asked, and a call that wakes whoever sleeps.
// A handler may hardly do anything, so it only writes to a pipe that a small thread waits on.
#pragma once

#include <functional>
#include <memory>

namespace qb::glass {

// Whether somebody asked the process to end. The old handlers come back with its end.
class stop_signal {
public:
  // From now on the two signals no longer end the process. `wake` is called from another thread
  // when one comes; it must be safe there. One at a time in a process.
  explicit stop_signal(std::function<void()> wake);
  stop_signal(const stop_signal&) = delete;
  stop_signal& operator=(const stop_signal&) = delete;
  ~stop_signal();

  [[nodiscard]] bool came() const;

private:
  struct inside;
  std::unique_ptr<inside> inside_;
};

} // namespace qb::glass
