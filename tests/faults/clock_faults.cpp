// Whatever happens to the clocks, at every single event boundary of a whole test: set by a second
// to ten years either way, suspended, restarted with a right and a wrong clock, carried to another
// zone, summer time beginning and ending.
// The truth is a clock of the test's own that nothing can fool: due times must lie within a second
// of it; where they can only be bounded, the truth must lie within what the record says.
// Usage: clock_faults FOLDER. One line `row | tried | held` a fault; some logs go into FOLDER, for
// a reader that shares no code with ours.
#include "core/record/log.hpp"
#include "tests/faults/life.hpp"

#include <cstdio>
#include <fstream>

namespace {

using namespace qb;
using namespace qb::test;

const instant morning = utc("2027-04-06T06:30:00Z");

std::string says_nothing(const life& l) {
  for (const char* rule : {"clock-stepped", "clock-rebooted", "zone-changed", "clocks-changed"}) {
    if (l.found(rule)) return fmt::format("the log says {} and nothing was", rule);
  }
  return "";
}

// Up to two seconds are slewing and no finding; the two clocks of the events show them all the
// same.
std::string says_step(const life& l, duration by) {
  const auto f = l.found("clock-stepped");
  const duration size = by < duration{0} ? -by : by;
  if (size > 2s) {
    if (!f) return "the log does not say that the clock was set";
    return duration{std::chrono::seconds{f->figures.at(0)}} == by ? "" : "with another size";
  }
  if (f) return "slewing is called a step";
  const clock_reading& first = l.events().front().at;
  const clock_reading& last = l.events().back().at;
  const duration seen = (last.wall - first.wall) - (*last.boot - *first.boot);
  return seen == by ? "" : "the events do not show it";
}

std::string says_restart(const life& l) {
  const auto f = l.found("clock-rebooted");
  if (!f) return "the log does not say that the device was restarted";
  const auto gap = std::chrono::duration_cast<std::chrono::seconds>(l.true_gap).count();
  if (f->figures.size() < 2 || f->figures[1] > gap + 4) return "with a bound above the truth";
  return f->figures[1] > 0 ? "" : "without a bound";
}

std::string says_set_right(const life& l) {
  if (const auto missing = says_restart(l); !missing.empty()) return missing;
  if (!l.found("clock-stepped")) return "the log does not say that the clock was set right";
  const bool after_tube_1 = l.current().clock_changes.front().seq > l.current().grid->anchor_seq;
  if (after_tube_1 && !l.found("clock-measured-anew")) return "nor that the time was measured anew";
  return "";
}

// Found where it lies between two tubes, and only there.
std::string says_summer_time(const life& l) {
  const auto f = l.found("clocks-changed");
  const auto& samples = l.current().samples;
  const auto by = samples.back().taken->offset - samples.front().taken->offset;
  if (by == 0s) return f ? "the log says that the clocks changed between two tubes" : "";
  return f && f->figures.at(0) == by.count() ? "" : "the log does not say so, or not how far";
}

fault step_fault(const std::string& name, duration by) {
  return {"clock set " + name, [by](life& l) { l.clock.step(by); },
          [by](const life& l) { return says_step(l, by); }};
}

// Off for ten minutes, with the wall clock behind by so much, or in 1970 where nothing is given.
fault restart_fault(const std::string& name, std::optional<duration> behind, bool set_right) {
  const auto strike = [=](life& l) {
    const instant starts = l.clock.wall() + 10min;
    const duration off = behind ? -*behind : utc("1970-01-01T00:00:30Z") - starts;
    l.restart(10min, off, off == duration{0});
    if (set_right) l.set_right_after(100s, -off);
  };
  return {name, strike, set_right ? says_set_right : says_restart};
}

std::vector<fault> faults_of_the_clocks() {
  constexpr std::chrono::hours years{87660}; // ten of them
  std::vector<fault> out;
  const std::vector<std::pair<std::string, duration>> sizes{
      {"1 s", 1s}, {"1 min", 1min}, {"1 h", 1h}, {"1 day", 24h}, {"10 years", years}};
  for (const auto& [name, by] : sizes) {
    out.push_back(step_fault("forward by " + name, by));
    out.push_back(step_fault("back by " + name, -by));
  }
  out.push_back({"suspended for 10 min", [](life& l) { l.pass(10min); }, says_nothing});
  out.push_back(restart_fault("restarted, clock right", 0s, false));
  out.push_back(restart_fault("restarted, 3 h behind", 3h, false));
  out.push_back(restart_fault("restarted, 3 h behind, then set right", 3h, true));
  out.push_back(restart_fault("restarted, 5 min behind, then set right", 5min, true));
  out.push_back(restart_fault("restarted in 1970", std::nullopt, false));
  out.push_back(restart_fault("restarted in 1970, then set right", std::nullopt, true));
  out.push_back(
      {"carried to another zone", [](life& l) { l.clock.zone_name = "Asia/Kathmandu"; },
       [](const life& l) { return l.found("zone-changed") ? "" : "the log does not say so"; }});
  return out;
}

struct score {
  int tried{0};
  int held{0};
};

void mark(score& sum, const std::string& name, int boundary, const std::string& wrong) {
  ++sum.tried;
  sum.held += wrong.empty() ? 1 : 0;
  if (!wrong.empty()) fmt::print("FAIL {} after event {}: {}\n", name, boundary, wrong);
}

void keep_log(const life& l, const std::string& folder, std::size_t row, int boundary) {
  constexpr int some = 4; // one log in so many is read by another program
  if (boundary % some != 0) return;
  std::ofstream(fmt::format("{}/{}-{}.log.json", folder, row, boundary), std::ios::binary)
      << write_log(l.events(), "quarterbreath");
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const fault nothing{"nothing happens", [](life&) {}, says_nothing};
  life calm(morning);
  if (const std::string wrong = calm.live(nothing, 0); !wrong.empty()) {
    fmt::print("FAIL a test to which nothing happens: {}\n", wrong);
    return 1;
  }
  const std::vector<duration> reported_at = calm.reported_at();
  const int boundaries = static_cast<int>(reported_at.size()) - 1; // the last says "after it all"
  bool good = true;
  const auto row = [&](const std::string& name, const std::function<void(score&)>& fill) {
    score sum;
    fill(sum);
    fmt::print("{} | {} | {}\n", name, sum.tried, sum.held);
    good = good && sum.held == sum.tried;
  };
  const std::vector<fault> all = faults_of_the_clocks();
  for (std::size_t i = 0; i < all.size(); ++i) {
    row(all[i].name, [&](score& sum) {
      for (int b = 1; b <= boundaries; ++b) {
        life l(morning);
        mark(sum, all[i].name, b, l.live(all[i], b));
        keep_log(l, argv[1], i, b);
      }
    });
  }
  // The clocks change just after the b-th event: the start is put that long before.
  for (const char* change : {"2027-03-28T01:00:00Z", "2027-10-31T01:00:00Z"}) {
    const fault none{"", [](life&) {}, says_summer_time};
    row(fmt::format("summer time changes on {:.10}", change), [&](score& sum) {
      for (int b = 1; b <= boundaries; ++b) {
        life l(utc(change) + 30min - reported_at[static_cast<std::size_t>(b) - 1] - 1ms);
        mark(sum, change, b, l.live(none, 0));
      }
    });
  }
  return good ? 0 : 1;
}
