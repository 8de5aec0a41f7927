// One test on the machine's real clocks, closed and opened again under clocks that somebody
// shifted. All other faults of the clocks are simulated; here the program's own look at the machine
// is tried, with the wall clock and the boot clock bent from outside (tests/faults/run_table).
// Usage: real_clocks JOURNAL begin: from nothing to tube 1 closed; says `closed` at that moment.
//        real_clocks JOURNAL look: opens it again as a program does that was started anew, and says
//        in one line of JSON what it holds to be true.
#include "app/machine/own_machine.hpp"
#include "app/patient/shell/test_clock.hpp"
#include "app/store/journal_keeper.hpp"
#include "core/base/json.hpp"
#include "core/findings/findings.hpp"
#include "tests/support/scripted_test.hpp"

#include <cstdio>
#include <fmt/core.h>
#include <string>
#include <thread>

namespace {

using namespace qb;
using namespace qb::test;

clock_reading look_at(test_clock& clock) {
  own_machine here({});
  return clock.look(here).now;
}

int refused(const refusal& no) {
  fmt::print(stderr, "{}\n", sentence(no));
  return 1;
}

int begin(engine& e, test_clock& clock) {
  const instant start = look_at(clock).wall + 1h;
  const auto tell = [&](const std::vector<payload>& all) -> std::optional<refusal> {
    for (const payload& p : all) {
      if (const auto done = e.submit(command{p}, look_at(clock)); !done) return done.error();
    }
    return std::nullopt;
  };
  if (const auto no = tell({opened{"real", "quarterbreath", false, fenwick_text()},
                            invented_person(), plan_of(start)}))
    return refused(*no);
  if (const auto no = tell(gate_answers(e.current(), look_at(clock)))) return refused(*no);
  if (const auto no =
          tell({sugar_set_aside{}, reported_symptoms{sample_number(1), {{"bloating", 0}}, ""},
                breath_begun{sample_number(1)}}))
    return refused(*no);
  std::this_thread::sleep_for(fenwick().bounds.lead_in + lactulose().breath_most);
  const auto closed = e.submit(command{tube_closed{sample_number(1)}}, look_at(clock));
  if (!closed) return refused(closed.error());
  fmt::print("closed\n");
  return 0;
}

int look(engine& e, test_clock& clock) {
  const auto back = e.submit(command{resumed{}}, look_at(clock));
  if (!back) return refused(back.error());
  const clock_reading now = look_at(clock);
  const state& s = e.current();
  const elapsed since = s.grid->at(now);
  json::array found;
  for (const finding& f : findings_of(s, now, clock.place())) {
    json::array figures;
    for (const std::int64_t x : f.figures)
      figures.emplace_back(x);
    found.emplace_back(json::object{{"rule", f.rule}, {"figures", std::move(figures)}});
  }
  const sample_number two(2);
  const instant due = due_on_wall(s, two, now);
  fmt::print("{}\n", json::canonical(json::object{
                         {"length_ms", std::int64_t{since.length.count()}},
                         {"at_least_ms", std::int64_t{since.at_least.count()}},
                         {"exact", since.how == certainty::exact},
                         {"synchronised", since.synchronised},
                         {"to_due_ms", std::int64_t{(due - now.wall).count()}},
                         {"due_after_ms", std::int64_t{duration{s.test->offset_of(two)}.count()}},
                         {"closed_ms", to_unix_ms(s.of(sample_number(1)).taken->closed)},
                         {"zone", now.zone},
                         {"findings", std::move(found)}}));
  return 0;
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  auto journal = open_journal(argv[1]);
  if (!journal) return refused(journal.error());
  engine e(journal->keeper, std::move(journal->events));
  test_clock clock;
  return std::string(argv[2]) == "begin" ? begin(e, clock) : look(e, clock);
}
