// One sentence a kind of change.
#include "app/patient/screens/clock_words.hpp"

#include "app/patient/screens/mending/mending.hpp"

namespace qb::inline screens {

namespace {

struct clock_event {
  clock_change what;
  bool synchronised{false}; // the clock after it is kept right by the system
};

std::optional<clock_event> latest_change(const view& v) {
  if (v.s.last_reading) {
    const auto unnoted = changes_between(*v.s.last_reading, v.at);
    if (!unnoted.empty()) return clock_event{unnoted.back(), v.at.synchronised};
  }
  const auto n = latest_closed(v);
  const std::int64_t since = n ? v.s.of(*n).taken->seq : 0;
  if (v.s.clock_changes.empty() || v.s.clock_changes.back().seq < since) return std::nullopt;
  return clock_event{v.s.clock_changes.back().what, v.s.clock_changes.back().at.synchronised};
}

// How far a clock was set, as a person would say it: whole minutes where there are any.
std::string jump_in_words(duration by) {
  const duration far = by < duration{0} ? -by : by;
  if (far < std::chrono::minutes{1}) return length_in_words(far);
  return length_in_words(std::chrono::round<std::chrono::minutes>(far));
}

// After a restart only the clock says how long the device was off; where nothing vouches for it,
// what is sure is said too.
std::string restart_words(const view& v, bool synchronised) {
  if (!v.s.grid || synchronised) return v.t("wait.restarted");
  const elapsed since = v.s.grid->at(v.at);
  return since.how == certainty::exact
             ? v.t("wait.restarted")
             : v.t("clock.restarted", {{"least", jump_in_words(since.at_least)}});
}

} // namespace

std::string clock_news(const view& v) {
  const auto change = latest_change(v);
  if (!change) return "";
  switch (change->what.what) {
  case clock_change::kind::rebooted: return restart_words(v, change->synchronised);
  case clock_change::kind::zone_changed: return v.t("clock.zone");
  case clock_change::kind::stepped: break;
  }
  constexpr std::chrono::days day{1};
  if (change->what.by >= day || -change->what.by >= day) return v.t("clock.set-far");
  const bool on = change->what.by > duration{0};
  return v.t(on ? "clock.set-on" : "clock.set-back", {{"by", jump_in_words(change->what.by)}});
}

} // namespace qb::inline screens
