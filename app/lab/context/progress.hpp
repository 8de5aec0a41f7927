// How far long work is, on a terminal's last line, written over itself. Where nobody looks on, in a
// pipe or a file, nothing is written.
#pragma once

#include "app/lab/context/console.hpp"

#include <chrono>
#include <cstddef>
#include <functional>

namespace qb::lab {

// Time that runs on evenly, from whenever it was begun.
using even_time = std::function<std::chrono::milliseconds()>;
// The machine's own.
[[nodiscard]] even_time machine_time();

// Asks the time rarely where work goes fast, and after each piece where it is slow.
class pace {
public:
  pace(even_time now, std::chrono::milliseconds every);
  // One piece is done: whether that long has passed since it last was so.
  [[nodiscard]] bool is_due();
  [[nodiscard]] std::chrono::milliseconds since_start() const { return last_ - start_; }

private:
  even_time now_;
  std::chrono::milliseconds every_;
  std::chrono::milliseconds start_;
  std::chrono::milliseconds last_;
  std::size_t between_looks_{1};
  std::size_t done_since_look_{0};
};

// "1,200 of 40,000 files (3 %), about 2 min left"; the time only once something can be said of it.
[[nodiscard]] std::string progress_words(std::size_t done, std::size_t all,
                                         std::chrono::milliseconds since_start);

// The line. It is taken away before anything else is written to the terminal, and at the end.
class progress_line {
public:
  explicit progress_line(const console& to) : to_(to) {}
  ~progress_line() { clear(); }
  progress_line(const progress_line&) = delete;
  progress_line& operator=(const progress_line&) = delete;

  void show(const std::string& words);
  void clear();

private:
  const console& to_;
  bool is_there_{false};
};

} // namespace qb::lab
