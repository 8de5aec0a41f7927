// A whole world for one property: clocks, a keeper, a running engine that can be killed, a person
// who mostly follows and sometimes does anything, and beside them a model that is too simple to be
// wrong.
#pragma once

#include "tests/property/row_keeper.hpp"
#include "tests/support/scripted_test.hpp"

#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace qb::test {

// One random thing that happens: what, to which tube, and how much of it.
struct deed {
  int what{0};
  int tube{1};
  int much{0};
};

void showValue(const deed& d, std::ostream& os);

// Anything that can be told about a test, wherever it stands.
[[nodiscard]] payload anything_about(const deed& d, instant wall);

// The model: which tubes were closed how often, and when true time began to count.
struct simple_model {
  std::map<int, std::size_t> closings;   // by tube
  std::optional<duration> anchor;        // true time of tube 1, while the clocks can know it
  std::optional<std::int64_t> frozen_at; // the anchor's event once the drink has begun
  bool ended{false};
  std::vector<std::string> confirmed; // the bodies of all events that were confirmed
};

// A person so far: 0 with a plan, 1 with tube 1 closed, 2 with it labelled, 3 with the drink begun.
[[nodiscard]] patient far_gone(int begun);

class world {
public:
  explicit world(row_keeper& keeper);

  void happen(const deed& d);
  // The first belief that does not hold, in words; "" where all do.
  [[nodiscard]] std::string broken() const;
  // The same for what reopening gives; costs more.
  [[nodiscard]] std::string broken_on_reopening() const;

  [[nodiscard]] const state& current() const { return engine_->current(); }
  [[nodiscard]] const simple_model& model() const { return model_; }
  [[nodiscard]] int kills() const { return kills_; }
  [[nodiscard]] std::size_t tubes() const { return model_.closings.size(); }

private:
  void let_happen(const deed& d);
  void follow(const deed& d);
  void anything(const deed& d);
  void tell(payload wanted);
  void note(const payload& became_a_fact, const clock_reading& at);
  void step_the_clock(const deed& d);
  void reboot(const deed& d);
  void kill(const deed& d);
  void settle();

  row_keeper& keeper_;
  clock_double clock_;
  std::optional<engine> engine_;
  simple_model model_;
  std::vector<payload> on_the_way_;
  std::optional<clock_reading> told_at_;
  duration told_truly_{0};
  bool wall_was_set_{false}; // since the last event
  bool was_off_{false};      // since the last event
  bool set_before_{false};   // the same two as they were before the write on its way
  bool off_before_{false};
  int kills_{0};
};

} // namespace qb::test
