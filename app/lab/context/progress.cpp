// The words, and the two signs that write a terminal's line anew.
#include "app/lab/context/progress.hpp"

#include "app/machine/clocks.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace qb::lab {

namespace {

constexpr const char* begin_line_anew = "\r\x1b[K"; // ECMA-48: carriage return, erase in line

std::string grouped(std::size_t n) {
  constexpr std::size_t group = 3;
  std::string digits = fmt::format("{}", n);
  for (std::size_t at = digits.size(); at > group;)
    digits.insert(at -= group, 1, ',');
  return digits;
}

} // namespace

even_time machine_time() {
  return [] { return since_boot(read_clocks()); };
}

pace::pace(even_time now, std::chrono::milliseconds every)
    : now_(std::move(now)), every_(every), start_(now_()), last_(start_) {}

bool pace::is_due() {
  constexpr std::size_t most_between = 64;
  if (++done_since_look_ < between_looks_) return false;
  done_since_look_ = 0;
  const std::chrono::milliseconds now = now_();
  if (now - last_ < every_) {
    between_looks_ = std::min(between_looks_ * 2, most_between);
    return false;
  }
  between_looks_ = std::max<std::size_t>(between_looks_ / 2, 1);
  last_ = now;
  return true;
}

std::string progress_words(std::size_t done, std::size_t all,
                           std::chrono::milliseconds since_start) {
  constexpr std::size_t per_cent = 100;
  std::string out = fmt::format("{} of {} files ({} %)", grouped(done), grouped(all),
                                all == 0 ? per_cent : done * per_cent / all);
  constexpr std::chrono::seconds enough_to_tell{2};
  if (done == 0 || since_start < enough_to_tell) return out;
  const auto left =
      since_start * static_cast<std::int64_t>(all - done) / static_cast<std::int64_t>(done);
  const auto seconds = std::chrono::ceil<std::chrono::seconds>(left);
  const auto minutes = std::chrono::round<std::chrono::minutes>(left);
  constexpr std::chrono::minutes in_seconds{2}; // under it they are told
  return out + (seconds < in_seconds ? fmt::format(", about {} s left", seconds.count())
                                     : fmt::format(", about {} min left", minutes.count()));
}

void progress_line::show(const std::string& words) {
  if (!to_.terminal) return;
  to_.terminal(begin_line_anew + words);
  is_there_ = true;
}

void progress_line::clear() {
  if (is_there_) to_.terminal(begin_line_anew);
  is_there_ = false;
}

} // namespace qb::lab
