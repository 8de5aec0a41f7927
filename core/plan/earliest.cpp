// Preparation rules have the form "not before"; a person's days allow some starts and others not.
// The earliest start is the first point of their intersection.
#include "core/plan/earliest.hpp"

#include "core/plan/allowed_starts.hpp"
#include "core/plan/wall_hours.hpp"

#include <algorithm>

namespace qb::inline plans {

const char* washout_key(washout_answer a) {
  switch (a) {
  case washout_answer::never: return "never";
  case washout_answer::last_on: return "last-on";
  case washout_answer::until: return "until";
  case washout_answer::cannot_stop: return "cannot-stop";
  case washout_answer::unknown: return "unknown";
  }
  QB_BELIEVE(false);
  return "";
}

namespace {

// The earliest start that a rule allows by itself; none: somebody must be asked first.
struct bound {
  std::string rule;
  std::optional<instant> at;
};

instant bound_of(const preparation_window& w, const circumstances& c, instant now) {
  std::optional<instant> last;
  for (const reported_moment& m : c.moments) {
    if (m.rule == w.why.rule && (!last || m.last > *last)) last = m.last;
  }
  return last.value_or(now) + w.from;
}

// No bound where nothing that counts was told; an empty one where somebody must be asked.
std::optional<bound> bound_of(const washout& w, const circumstances& c, const zone& z) {
  std::optional<civil_date> last;
  for (const answered_washout& t : c.washouts) {
    if (t.rule != w.why.rule || t.agreed || t.answer == washout_answer::never) continue;
    const bool dated = t.answer == washout_answer::last_on || t.answer == washout_answer::until;
    if (!dated || !t.on) return bound{w.why.rule, std::nullopt};
    if (!last || std::chrono::local_days{*t.on} > std::chrono::local_days{*last}) last = t.on;
  }
  if (!last) return std::nullopt;
  return bound{w.why.rule, day_before_is_over(plus_days(*last, w.days), z)};
}

// Now, then the protocol's rules in its order.
std::vector<bound> bounds_of(const protocol& p, const circumstances& c, instant now,
                             const zone& z) {
  std::vector<bound> out{{rule_now, now}};
  for (const preparation_window& w : p.windows)
    out.push_back({w.why.rule, bound_of(w, c, now)});
  for (const washout& w : p.washouts) {
    if (auto b = bound_of(w, c, z)) out.push_back(std::move(*b));
  }
  return out;
}

// What is left of the starts from the bounds on, with each of the three limits of a person's days
// left out or not.
class days_of {
public:
  days_of(const protocol& p, const circumstances& c, const zone& z, instant from)
      : from_(from),
        home_(starts_at_home(p, c, z, from, from + search_horizon)),
        awake_(starts_awake(p, c, z, from, from + search_horizon)),
        too_late_(too_late_for_kit(p, c, z)) {}

  [[nodiscard]] std::optional<instant> first(bool home = true, bool awake = true,
                                             bool kit = true) const {
    intervals<instant> left({{from_, from_ + search_horizon}});
    if (home) left = left & home_;
    if (awake) left = left & awake_;
    const auto start = left.first_from(from_);
    if (kit && start && too_late_ && *start >= *too_late_) return std::nullopt;
    return start;
  }

  // The rule that moves the start on from `from`.
  [[nodiscard]] const char* moving_on(instant start) const {
    const instant before = start - duration{1};
    if (home_.holds(before)) return rule_awake_hours;
    if (awake_.holds(before) || first(false) < start) return rule_home;
    return first(true, false) < start ? rule_awake_hours : rule_home;
  }

  // The rule that leaves no start.
  [[nodiscard]] const char* leaving_none() const {
    if (first(true, true, false)) return rule_kit_expiry;
    if (first(false)) return rule_home;
    if (first(true, false)) return rule_awake_hours;
    // More than one of them: the first that does so alone.
    if (!first(false, false)) return rule_kit_expiry;
    if (!first(true, false, false)) return rule_home;
    return first(false, true, false) ? rule_home : rule_awake_hours;
  }

private:
  instant from_;
  intervals<instant> home_;
  intervals<instant> awake_;
  std::optional<instant> too_late_;
};

} // namespace

earliest_start find_earliest(const protocol& p, const circumstances& c, instant now,
                             const zone& z) {
  const std::vector<bound> bounds = bounds_of(p, c, now, z);
  earliest_start out;
  for (const bound& b : bounds) {
    if (!b.at) out.ask.push_back(b.rule);
  }
  if (!out.ask.empty()) {
    out.binding_rule = out.ask.front();
    return out;
  }
  const bound& latest = *std::max_element(
      bounds.begin(), bounds.end(), [](const bound& a, const bound& b) { return *a.at < *b.at; });
  const days_of life(p, c, z, *latest.at);
  out.at = life.first();
  if (!out.at) {
    out.binding_rule = life.leaving_none();
    return out;
  }
  out.binding_rule = *out.at == *latest.at ? latest.rule : life.moving_on(*out.at);
  out.post_on_or_before = plus_days(date_of(z.civil_at(*out.at + length_of(p))), p.post_within);
  return out;
}

std::vector<broken_rule> rules_broken(const protocol& p, const circumstances& c, instant start,
                                      instant now, const zone& z) {
  std::vector<broken_rule> out;
  for (const bound& b : bounds_of(p, c, now, z)) {
    if (!b.at)
      out.push_back({b.rule, std::nullopt});
    else if (*b.at > start)
      out.push_back({b.rule, *b.at - start});
  }
  const auto check = [&](const char* rule, const intervals<instant>& allowed) {
    const auto next = allowed.first_from(start);
    if (next != start)
      out.push_back({rule, next ? std::optional<duration>(*next - start) : std::nullopt});
  };
  check(rule_home, starts_at_home(p, c, z, start, start + search_horizon));
  check(rule_awake_hours, starts_awake(p, c, z, start, start + search_horizon));
  const auto too_late = too_late_for_kit(p, c, z);
  if (too_late && start >= *too_late) out.push_back({rule_kit_expiry, std::nullopt});
  return out;
}

} // namespace qb::inline plans
