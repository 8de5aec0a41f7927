// A device that several people use: when the open test is to be erased, and the notice before it.
// Pure but for what it remembers: since when the notice stands, and when the other tests were last
// looked at. Erasing is the shell's.
#pragma once

#include "app/patient/screens/view.hpp"
#include "core/session/keeping.hpp"

#include <optional>

namespace qb::inline shells {

// Of the test that is open; `forget` when another is opened.
class sharing {
public:
  // What is to be said of the open test, which is kept until `until` (nothing: no such term); and
  // whether its time is over and its notice has stood for the whole of its length.
  struct answer {
    std::optional<shared_device> said;
    bool erase_now{false};
  };
  [[nodiscard]] answer look(const std::optional<kept_until>& until, duration notice,
                            duration evenly);

  // Whether the other tests are to be looked at now: once an hour, since the terms are in hours.
  [[nodiscard]] bool sweep_due(duration evenly);

  void forget() { notice_since_.reset(); }

private:
  std::optional<duration> notice_since_; // since when it says that it is going to be erased
  std::optional<duration> swept_at_;
};

} // namespace qb::inline shells
