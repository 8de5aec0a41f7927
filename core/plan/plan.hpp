// The preparation timeline that follows from a start: what holds when, when samples are due.
// Hours are elapsed time, days are calendar days in the zone; nothing here reads a clock.
#pragma once

#include "core/base/result.hpp"
#include "core/protocol/profile.hpp"
#include "core/protocol/protocol.hpp"
#include "core/time/zone.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline plans {

// A preparation window on the time line. `until` is not part of it.
struct planned_window {
  std::string rule;
  instant from;
  instant until;
};

// The last civil date on which a dose may have been taken.
struct planned_washout {
  std::string rule;
  civil_date last_dose_on_or_before;
};

// When a sample is due if the test starts as planned.
struct planned_sample {
  sample_number number;
  instant due;
};

// The whole preparation and the due times of one start, all instants resolved.
struct plan {
  std::string protocol_id;
  std::string zone_name;
  instant start; // when sample 1 is meant to be closed
  std::vector<planned_window> windows;
  std::vector<planned_washout> washouts;
  std::vector<planned_sample> samples;
  instant ends; // the last sample's due time
  civil_date post_on_or_before;
  // Local time minus UTC in its zone at the start. Records before version 3 do not say.
  std::optional<std::chrono::seconds> start_offset{};
};

// The plan of a start. Total for any start whose dates stay within first_year..last_year; refuses
// one too near those ends.
[[nodiscard]] result<plan> make_plan(const protocol& p, instant start, const zone& z);

// Whether a plan says of its start what these rules say: windows, due times and end. Its dates
// need the zone and are not looked at.
[[nodiscard]] bool follows(const plan& made, const protocol& p);

// Which of two meanings a start that happens twice has.
enum class fold { unasked, first, second };

// The instant of a civil start. A start that does not exist is refused (the sentence names the last
// time before the jump and the first after it); one that happens twice is refused unless `choice`
// picks one (the sentence names both).
[[nodiscard]] result<instant> resolve_start(civil_time start, const zone& z, fold choice);

// What holds from the first sample to the last, in the protocol's words, with the laboratory's
// choice on water.
[[nodiscard]] std::vector<std::string> during_test_texts(const protocol& p, const lab_profile& l);

} // namespace qb::inline plans
