// A test in a test: shipped files read once, clocks that move when told to, keepers in memory, and
// a person who follows the program step by step.
// Every unit and property test that needs a session stands on this, so that none invents its own.
#pragma once

#include "core/session/engine.hpp"
#include "core/session/going_on.hpp"
#include "core/time/zone.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace qb::test {

using namespace std::chrono_literals;

// A file of the source tree, whole; stops the test program where there is none.
[[nodiscard]] std::string source_file(const std::string& path);

// The shipped lactulose protocol and the invented laboratory, as canonical text and as values.
[[nodiscard]] const std::string& lactulose_text();
[[nodiscard]] const protocol& lactulose();
// The same test with scores after the last tube (15 min) and later (240 min after the drink).
[[nodiscard]] const std::string& scored_after_text();
[[nodiscard]] const protocol& glucose();
// The five shipped protocols, by id, and one of them as canonical text.
[[nodiscard]] const std::vector<std::string>& shipped_ids();
[[nodiscard]] const protocol& shipped(const std::string& id);
[[nodiscard]] std::string shipped_file(const std::string& id);
[[nodiscard]] const std::string& fenwick_text();
[[nodiscard]] const lab_profile& fenwick();

// The machine's zone of that name.
[[nodiscard]] const zone& zone_named(const std::string& name);

// "2027-04-06T06:30:00Z" as an instant.
[[nodiscard]] instant utc(const std::string& text);

// The local times of plans: "2027-03-28 09:00" in that zone; must be unique.
[[nodiscard]] instant local(const std::string& text, const std::string& zone_name);

// A machine's clocks that move when told to.
class clock_double {
public:
  explicit clock_double(instant wall) : wall_(wall) {}
  [[nodiscard]] clock_reading look() const;
  // True time passes: both clocks run on.
  void pass(duration d);
  // Somebody sets the wall clock.
  void step(duration by) { wall_ += by; }
  // The machine is off for so long and starts anew; the last half minute of it is its start.
  void reboot(duration off);
  [[nodiscard]] instant wall() const { return wall_; }
  // Elapsed since this double was made, whatever the clocks show.
  [[nodiscard]] duration truly() const { return truly_; }

  bool has_boot_clock{true};
  bool synchronised{true}; // whether the system calls its wall clock so
  std::string zone_name{"Europe/London"};

private:
  instant wall_;
  duration boot_{std::chrono::hours{1}};
  duration truly_{0};
  int boots_{1};
};

// Those of one kind, in their order.
template <typename Fact>
std::vector<event> all_of(const std::vector<event>& events) {
  std::vector<event> out;
  for (const event& e : events)
    if (std::holds_alternative<Fact>(e.what)) out.push_back(e);
  return out;
}

// Keeps events in memory; can be slow to make them durable, and can fail.
class memory_keeper : public event_keeper {
public:
  [[nodiscard]] result<std::int64_t> append(const std::vector<event>& batch) override;
  [[nodiscard]] std::int64_t durable() const override { return durable_; }
  [[nodiscard]] std::optional<refusal> failure() const override { return failed_; }

  // What was handed over becomes durable (only needed while `slow`).
  void catch_up() { durable_ = static_cast<std::int64_t>(kept.size()); }

  std::vector<event> kept;
  bool slow{false};
  bool fails{false}; // the next append fails, as on a full disk

private:
  std::int64_t durable_{0};
  std::optional<refusal> failed_;
};

// A person with a clock and a running test.
class patient {
public:
  // The program is opened on 8 March 2027; the start will be 6 April 2027, 07:30 in London.
  patient();

  // Tells the engine; true when it became a fact. `no` holds the last refusal.
  bool tell(payload wanted);
  // The key of the refusal that telling this meets, or "" where it is accepted.
  std::string refused(payload wanted);
  [[nodiscard]] now_answer now() const { return what_now(e.current(), clock.look()); }
  [[nodiscard]] const state& current() const { return e.current(); }
  [[nodiscard]] const sample_state& tube(int n) const { return e.current().of(sample_number(n)); }

  // One after another, as a person who follows the program does them.
  void open_and_plan();
  void answer_the_gate(); // what is asked there, up to the gate itself
  void pass_the_gate();   // at two minutes before the start
  void score(int n);      // symptoms of one sample
  void breathe(int n);    // from the press to the tube closed, 10 s later
  void label(int n);
  void through_tube_1();    // ends with tube 1 closed, about 07:30
  void through_the_drink(); // ends with the drink finished and tube 1's label written
  void wait_for(int n);     // until that tube's due time
  void sample(int n);       // wait, breathe, label, score
  void through_the_tubes(); // from the first fact to the last tube scored
  // After these: bloating 4 and a skipped pain after the last tube, told 90 s after it was asked;
  // bloating 7 later the same day. The warning signs are asked and none is there.
  void score_after_the_tubes();

  clock_double clock;
  memory_keeper keeper;
  engine e;
  refusal no;
  bool scores_after{false}; // the plan is of the test that asks for them
};

// What a person tells at that step who does what the page says and nothing else; nothing where
// time must pass, where more than one thing is asked, or where there is nothing to tell.
[[nodiscard]] std::optional<payload> told_at(const now_answer& a);

// What somebody with nothing to report still has to say at the gate, in order: every question that
// is to be answered, the right packet, and that all stands ready. Where the preparation was cut
// short, the laboratory agreed.
[[nodiscard]] std::vector<payload> gate_answers(const state& s, const clock_reading& now);

// The plan of that start with the shipped lactulose protocol, in London.
[[nodiscard]] plan_made plan_of(instant start);
// The same with scores after the tubes.
[[nodiscard]] plan_made scored_after_plan(instant start);
[[nodiscard]] reported_person invented_person();

} // namespace qb::test
