// May this person go on towards the sugar, and what stands against it?
// The one judgement of safety before the drink. `decide` asks it for every command that leads on,
// from the gate to the beginning of the drink; `what_now` asks it, so that an answer that forbids
// brings its own page wherever it was given; window, rehearsal and laboratory rest on the two.
// No screen decides any of this.
#pragma once

#include "core/session/hindrance.hpp"
#include "core/session/readiness.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sessions {

// What stands against going on at `now`, the weightiest first; empty: this person may go on. Asked
// while a plan stands and the drink has not been begun; without a plan, empty.
[[nodiscard]] std::vector<hindrance> hindrances(const state& s, const clock_reading& now);

// The same, if the gate were passed with what `gate` shows as not kept, and who agreed to it.
[[nodiscard]] std::vector<hindrance> hindrances_with(const state& s, const clock_reading& now,
                                                     const reported_ready& gate);

// Now as the judgement counts it: from the gate on by elapsed time, so that a clock that is set
// between gate and drink neither holds anybody back nor lets anybody through.
[[nodiscard]] instant counted_now(const state& s, const clock_reading& now);

// Every rule of the preparation against a start now; calendar days are those the device shows, and
// what is told past the gate happened as long ago as was said, whatever became of the clock.
[[nodiscard]] std::vector<rule_check> readiness_now(const state& s, const clock_reading& now);

// What an answer, a date or a packet brings: a page of its own at once. The rest is asked by the
// gate, which comes again until it is answered.
[[nodiscard]] bool has_own_page(const hindrance& h);

// The first that has, or nothing. Asked before the drink.
[[nodiscard]] std::optional<hindrance> holding_back(const state& s, const clock_reading& now);

// What one answer says against that protocol's test. A question that it does not ask is one of
// another sugar's, as long as no kit's code says which one it is; else it says nothing.
[[nodiscard]] std::optional<hindrance> against_answer(const state& s, const protocol& p,
                                                      const reported_caution& told);

// What stands against a plan of that test which ends on that day, as far as was told.
[[nodiscard]] std::vector<hindrance> against_plan(const state& s, const protocol& p,
                                                  civil_date ends_on);

// The list's name under which the record keeps that the person knows: this laboratory is invented,
// and nobody reads the test.
inline constexpr const char* trying_list = "trying";

// Whether a plan that is no practice still wants that said: the profile is marked for trying.
[[nodiscard]] bool wants_trying_said(const state& s);

// Whether the packet that was read out is the one of this test, in the form that was planned: one
// of the sugar's names, and the amount of one dose.
[[nodiscard]] bool is_right_packet(const state& s, const reported_packet& told);

// The packet that was told last to be another than the plan's, and was not taken back since,
// whatever start is planned; nullptr where there is none. The plan's packet is told after it only
// where both were read once more.
[[nodiscard]] const noted_packet* other_packet_standing(const state& s);

// The packet of this test in the planned form, with one dose's amount.
[[nodiscard]] reported_packet right_packet(const state& s);

// The refusal that says so: `where` is the key of its sentence, `expected` the sentence in English.
[[nodiscard]] refusal refusal_of(const state& s, const hindrance& h);

// Whether that question is one of the morning's, whose answers belong to their day.
[[nodiscard]] bool is_of_the_morning(const protocol& p, const std::string& rule);

// Whether the person may say that they are well again: never after a warning sign that is final by
// the protocol, and not after a sugar was drunk that is never for them.
[[nodiscard]] bool may_feel_well_again(const state& s);

// Whether a warning sign was told since the person last went on: going on then asks that it has
// passed.
[[nodiscard]] bool has_warning_signs(const state& s);

// How long the morning's answers hold until the drink: who waited longer is asked again. This
// program's own choice, by no source.
inline constexpr std::chrono::hours morning_answers_hold{2};

} // namespace qb::inline sessions
