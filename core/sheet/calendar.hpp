// The reminders of a plan as a calendar file: one event a step of the preparation, the evening's
// list, the test itself as one event, and what was told of medicines.
// A phone rings for it even when this device is off. Titles are discreet, since a phone may show
// them to others; single samples are not in it, since calendars round and delay.
#pragma once

#include "core/sheet/icalendar.hpp"
#include "core/sheet/prepared_plan.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::inline sheets {

// The file's bytes; the same inputs give the same bytes. Identities are TEST_ID.STEP, so that a
// calendar replaces what it holds of the same test; the sequence is the plan's revision. A plan
// that was called off gives the same identities, cancelled; so do steps that an earlier plan had
// and this one has not. Nothing begins after the start. `stamp` is when this is said.
[[nodiscard]] std::string calendar_of(const prepared_plan& p, const zone& z, instant stamp);

// The events of it, in the order of time.
[[nodiscard]] std::vector<calendar_event> calendar_events(const prepared_plan& p, const zone& z);

// When an ordinary alarm clock should ring as well: a little before each step and the start.
struct second_alarm {
  instant at;
  instant step_begins;
  std::string rule; // of the step; `start_step` for the start
  std::string words;
};
[[nodiscard]] std::vector<second_alarm> second_alarms(const prepared_plan& p);

// Steps of our own; with a dot, so that no rule of a protocol has that name.
inline constexpr const char* start_step = "test.start";
inline constexpr const char* evening_step = "test.evening";

// Whether these bytes are a calendar file with reminders of that test.
[[nodiscard]] bool is_calendar_of(std::string_view bytes, const std::string& test_id);
// Whether a name can be the root of identities: letters, digits and hyphens, not empty, not long.
[[nodiscard]] bool is_calendar_identity(std::string_view test_id);

} // namespace qb::inline sheets
