// A whole test as events, made by hand: an invented person, ten tubes on the grid, nothing amiss.
// What a test changes it changes in the events, so that each shows what it is about.
#pragma once

#include "core/base/json.hpp"
#include "core/record/log.hpp"
#include "core/report/report.hpp"
#include "core/session/now.hpp"

#include "tests/support/repository.hpp"

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

namespace qb {

// A file of the source tree's assets, in its canonical form.
inline std::string canonical_asset(const std::string& name) {
  std::ifstream in(repository() + "/assets/" + name, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  return json::canonical(json::parse(text).value());
}

// Adds facts one after the other, on a clock that moves as it is told.
class event_list {
public:
  event_list() {
    clock_.wall = parse_rfc3339_utc("2027-03-08T10:00:00Z").value();
    clock_.boot = boot_time{std::chrono::hours{1}};
    clock_.boot_id = "boot-1";
    clock_.zone = "Europe/London";
    clock_.synchronised = true;
  }
  void pass(duration d) {
    clock_.wall += d;
    *clock_.boot += d;
  }
  void until(instant t) { pass(t - clock_.wall); }
  void add(payload p) {
    events_.push_back({static_cast<std::int64_t>(events_.size()) + 1, clock_, std::move(p)});
  }
  void show_offset(std::chrono::seconds offset) { clock_.offset = offset; }
  [[nodiscard]] const std::vector<event>& all() const { return events_; }

private:
  clock_reading clock_;
  std::vector<event> events_;
};

struct made_test {
  std::string test_id{"test-1"};
  std::string kit_number{"FV-3001"};
  bool rehearsal{false};
  std::chrono::seconds tube_4_late{0};
  bool food_told{false};
};

inline instant made_start() {
  return parse_rfc3339_utc("2027-04-06T06:30:00Z").value();
}

inline std::vector<event> make_events(const made_test& m = {}) {
  using std::chrono::seconds;
  const std::string protocol_text = canonical_asset("protocols/lactulose-10g.json");
  const protocol test = read_protocol(protocol_text).value();
  const zone london = zone::fixed("Europe/London", seconds{3600});
  event_list list;
  list.add(opened{m.test_id, "quarterbreath 0.1.0", m.rehearsal,
                  canonical_asset("laboratories/fenwick-vale.json")});
  list.add(reported_person{"Odile Marchbank", std::chrono::year{1948} / 5 / 17, "Dr Ivo Brandreth",
                           m.kit_number, "Fenwick Vale Breath Laboratory"});
  // Every question is answered: nothing stands in the way.
  for (const caution& c : test.cautions)
    list.add(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
  for (const washout& w : test.washouts) {
    reported_washout never;
    never.what.rule = w.why.rule;
    list.add(never);
  }
  list.add(plan_made{protocol_text, "syrup", make_plan(test, made_start(), london).value()});
  list.show_offset(seconds{3600});
  list.until(made_start() - seconds{600});
  if (m.food_told)
    list.add(reported_slip{"fast", parse_rfc3339_utc("2027-04-05T21:10:00Z").value(),
                           how_known::told, "a piece of toast"});
  for (const caution& c : test.morning)
    list.add(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
  list.add(reported_packet{test.sugar.name, 15, "ml"});
  list.add(reported_ready{gate_checks()});
  list.add(sugar_set_aside{});
  for (std::size_t i = 0; i < test.samples(); ++i) {
    const sample_number n = sample_number::from_index(i);
    const bool late = n == sample_number(4);
    const seconds after = i == 0 ? seconds{0} : late ? seconds{12} + m.tube_4_late : seconds{12};
    list.until(made_start() + test.offsets[i] + after - seconds{10});
    reported_symptoms how{n, {}, n == sample_number(2) ? "a little wind" : ""};
    for (const symptom& s : test.symptoms)
      how.scores.push_back({s.id, static_cast<int>(i % 4)});
    list.add(how);
    list.add(breath_begun{n});
    list.pass(seconds{10});
    list.add(tube_closed{n});
    if (i > 0) continue;
    list.pass(seconds{30});
    list.add(drink_started{});
    list.pass(seconds{60});
    list.add(drink_ended{});
  }
  return list.all();
}

inline std::string make_log(const made_test& m = {}) {
  return write_log(make_events(m), "quarterbreath 0.1.0", "");
}

// The text with one place changed; the place must be there, once.
inline std::string changed(const std::string& text, const std::string& from,
                           const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos)
    throw std::runtime_error("not there, or more than once: " + from);
  return text.substr(0, at) + to + text.substr(at + from.size());
}

// Zones as the tests have them: London in summer, and nothing else.
inline result<zone> london_only(const std::string& name) {
  if (name == "Europe/London") return zone::fixed(name, std::chrono::seconds{3600});
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "zone", name, "Europe/London"});
}

} // namespace qb
