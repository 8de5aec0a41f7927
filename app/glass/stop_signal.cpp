// The self-pipe: the handler writes a byte, the thread reads it and wakes the loop.
// On leaving, another byte ends the thread and the old handlers come back.
#include "app/glass/stop_signal.hpp"

#include <array>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <thread>
#include <unistd.h>

namespace qb::glass {

namespace {

constexpr char stop = 's';
constexpr char leave = 'l';

// The one thing a handler can reach.
std::atomic<int> pipe_in{-1};

void on_signal(int) {
  const int kept = errno;
  const int fd = pipe_in.load();
  if (fd >= 0) {
    const ssize_t n = ::write(fd, &stop, 1);
    (void)n;
  }
  errno = kept;
}

} // namespace

struct stop_signal::inside {
  std::array<int, 2> ends{-1, -1};
  std::atomic<bool> came{false};
  std::function<void()> wake;
  struct sigaction old_term {};
  struct sigaction old_int {};
  std::thread waiter;

  void wait() {
    char byte = 0;
    for (;;) {
      const ssize_t n = ::read(ends[0], &byte, 1);
      if (n < 0 && errno == EINTR) continue;
      if (n <= 0 || byte == leave) return;
      came = true;
      if (wake) wake();
    }
  }
};

stop_signal::stop_signal(std::function<void()> wake) : inside_(std::make_unique<inside>()) {
  inside_->wake = std::move(wake);
  if (::pipe2(inside_->ends.data(), O_CLOEXEC) != 0) return; // the signals keep their old meaning
  pipe_in = inside_->ends[1];
  inside_->waiter = std::thread([in = inside_.get()] { in->wait(); });
  struct sigaction action {};
  action.sa_handler = on_signal;
  sigemptyset(&action.sa_mask);
  (void)sigaction(SIGTERM, &action, &inside_->old_term);
  (void)sigaction(SIGINT, &action, &inside_->old_int);
}

stop_signal::~stop_signal() {
  if (!inside_->waiter.joinable()) return;
  (void)sigaction(SIGTERM, &inside_->old_term, nullptr);
  (void)sigaction(SIGINT, &inside_->old_int, nullptr);
  pipe_in = -1;
  const ssize_t n = ::write(inside_->ends[1], &leave, 1);
  (void)n;
  inside_->waiter.join();
  (void)::close(inside_->ends[0]);
  (void)::close(inside_->ends[1]);
}

bool stop_signal::came() const {
  return inside_->came;
}

} // namespace qb::glass
