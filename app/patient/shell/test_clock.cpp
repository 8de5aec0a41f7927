// Reading the machine's clocks, and bending them for practice.
#include "app/patient/shell/test_clock.hpp"

#include "app/assets/zone_files.hpp"

#include <cstdio>
#include <fmt/core.h>

namespace qb::inline shells {

std::string practice_base_text(const practice_base& b) {
  return fmt::format("{} {} {}", b.sim_ms, b.real_ms, b.rate);
}

std::optional<practice_base> parse_practice_base(const std::string& text) {
  long long sim = 0;
  long long real = 0;
  int rate = 0;
  if (std::sscanf(text.c_str(), "%lld %lld %d", &sim, &real, &rate) != 3 || rate < 1)
    return std::nullopt;
  return practice_base{sim, real, rate};
}

std::int64_t test_clock::practice_ms(std::int64_t real_ms) const {
  return base_->sim_ms + (real_ms - base_->real_ms) * base_->rate;
}

frame_time test_clock::look(machine& asked) {
  const machine_clocks m = asked.look();
  real_ms_ = m.wall_ms;
  if (m.zone != zone_.name()) {
    if (auto z = load_zone(m.zone)) zone_ = std::move(*z);
  }
  clock_reading r;
  r.wall = from_unix_ms(m.wall_ms);
  if (m.boot_ms >= 0) {
    r.boot = boot_time{std::chrono::milliseconds{m.boot_ms}};
    r.boot_id = m.boot_id;
  }
  r.synchronised = m.synchronised;
  if (base_) {
    // Practice has one boot of its own, so that a restart of the program is not one of the machine.
    const std::int64_t ms = practice_ms(m.wall_ms);
    r.wall = from_unix_ms(ms);
    r.boot = boot_time{std::chrono::milliseconds{ms}};
    r.boot_id = "practice";
    r.synchronised = true;
  }
  r.zone = zone_.name();
  r.offset = zone_.offset_at(r.wall);
  return {r, since_boot(m)};
}

void test_clock::set_rate(int rate) {
  base_ = practice_base{practice_ms(real_ms_), real_ms_, rate};
}

void test_clock::begin_practice() {
  base_ = practice_base{real_ms_, real_ms_, 1};
}

void test_clock::jump(duration by) {
  base_->sim_ms += by.count();
}

} // namespace qb::inline shells
