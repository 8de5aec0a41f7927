// What can stand against going on towards the sugar; how it is found is in going_on.hpp.
// A header of its own, because the state keeps those that stood when a drink was begun.
#pragma once

#include <string>

namespace qb::inline sessions {

// What kind of thing stands against going on.
enum class hindrance_kind {
  never,          // by an answer this test is not for this person: nothing told releases it
  refused,        // somebody was asked, and said not this test
  ask_first,      // somebody who may release it must be asked
  not_agreed,     // a medicine is paused, or goes on, on the word of nobody who may say so
  old_rules,      // the plan waits by rules of an earlier version, which asked less: planned anew
  wrong_age,      // the test is for another age
  other_kit,      // the kit is for another test
  kit_expired,    // the kit's last day is past
  packet_differs, // the packet says another sugar or another amount
  unwell,         // the person said that they feel unwell and has not gone on
  signs_unasked,  // scores call for the warning signs, and nobody answered
  unanswered,     // a question that nobody answered, or not since this start was planned
  packet_unread,  // nobody read out what the packet says
  below_least,    // a rule is kept for less than its least, and nobody agreed
};

// One thing that stands against it. `rule` is the id of the caution or rule it rests on; empty for
// earlier rules, the packet and for feeling unwell.
struct hindrance {
  hindrance_kind what{hindrance_kind::never};
  std::string rule;

  friend bool operator==(const hindrance& a, const hindrance& b) = default;
};

} // namespace qb::inline sessions
