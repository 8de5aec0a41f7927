// How the person is called during this test: by sound or by the screen alone, on a device that is
// kept awake or not. What holds is told in the record, since a late breath may be explained by it.
#pragma once

#include "app/patient/screens/view.hpp"

namespace qb::inline shells {

// The name of the list in the record.
inline constexpr const char* attention_list = "attention";

// By what the person can be reached now.
struct attention {
  bool sound{false};  // there is a sound output; at the gate the person said that they hear it
  bool silent{false}; // they chose to watch the screen
  bool awake{false};  // the device agreed not to sleep and not to go dark
};

// What is told: "sound heard", "silent chosen" or "no sound card", and "awake held" or "awake
// refused".
[[nodiscard]] reported_checklist reported_attention(const attention& a);

// Whether a test runs: from the gate's pass to its finish or its end.
[[nodiscard]] bool is_under_way(const state& s, const now_answer& now);

// What is to be told now: while a test runs, what the record does not yet say of it.
[[nodiscard]] std::optional<reported_checklist>
attention_to_report(const state& s, const now_answer& now, const attention& a);

// Whether the whole screen calls, by standing in swapped colours: a tube is due, and no sound can.
// It changes once when the tube is due and once when it no longer calls; it never flashes.
[[nodiscard]] bool screen_calls(const now_answer& now, const attention& a);

// The look in which a page stands out from its usual one: dark for a light one, light for dark.
[[nodiscard]] look swapped_look(look usual);

} // namespace qb::inline shells
