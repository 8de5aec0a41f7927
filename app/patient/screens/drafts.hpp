// What is typed or chosen and not yet a fact, field by field.
// Drafts survive a kill: the shell keeps them in the test's journal under keys
// (app/patient/shell/draft_fields.hpp). What is marked as not kept is worth nothing once its page
// is gone.
#pragma once

#include "core/plan/plan.hpp"
#include "core/session/event.hpp"

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace qb::inline screens {

// A line of the person's own. No text yet: what is known already is filled in when it is drawn.
struct answer_draft {
  std::optional<std::string> text{};
  bool seen{false}; // "next" was pressed under it: an empty answer may be an answer
  bool operator==(const answer_draft&) const = default;
};

// Who does the test.
struct person_draft {
  answer_draft name;
  answer_draft birth; // as it is typed
  answer_draft doctor;
  answer_draft kit; // the number that a code brings, or that is typed without one
  answer_draft laboratory;
  std::optional<std::string> code{};
  std::optional<bool> no_code{}; // whether the box has none
  bool operator==(const person_draft&) const = default;
};

// When a medicine that is taken ends.
enum class medicine_end { unsaid, no_longer, until_a_day };

// What is being told of one medicine or happening.
struct medicine_draft {
  bool again{false}; // to be asked once more
  medicine_end ends{medicine_end::unsaid};
  std::optional<civil_date> day{}; // that is being stepped to
  bool operator==(const medicine_draft&) const = default;
};

// Who may have said that the test can go on.
enum class adviser { laboratory, doctor, diabetes, pharmacist, midwife, myself, other };
inline constexpr std::array all_advisers{adviser::laboratory, adviser::doctor,  adviser::diabetes,
                                         adviser::pharmacist, adviser::midwife, adviser::myself,
                                         adviser::other};
// "laboratory", as in the keys of sentences.
[[nodiscard]] const char* adviser_key(adviser a);

// What somebody who was asked has answered.
struct advice_draft {
  asked_outcome outcome{asked_outcome::not_asked};
  std::optional<adviser> who{};
  std::string other; // written, where it is none of them
  std::string words;
  bool operator==(const advice_draft&) const = default;
};

// Days of the week on which the person can be at home: all of them at first.
struct home_days {
  bool any{false};                             // "any day", which binds nothing
  std::set<int> weekdays{1, 2, 3, 4, 5, 6, 7}; // 1 Monday
  bool operator==(const home_days&) const = default;
};
struct home_draft {
  home_days days;
  std::optional<int> from{}; // awake, in minutes after midnight
  std::optional<int> to{};
  bool answered{false};
  bool operator==(const home_draft&) const = default;
};

// The plan that is being made.
struct plan_draft {
  std::string test; // id of its protocol
  std::string form;
  std::optional<civil_date> date{};
  std::optional<int> minute{};                     // after midnight
  fold which{fold::unasked};                       // of a time that the clock shows twice
  bool use_earliest{false};                        // the shell puts the earliest start in; not kept
  std::map<std::string, medicine_draft> medicines; // by rule
  std::set<std::string> asks_later; // rules of what the person goes away to ask about
  advice_draft advice;
  home_draft home;
  bool operator==(const plan_draft&) const = default;
};

// Something that was not kept, while it is being told.
struct slip_draft {
  std::string rule; // empty: nothing is chosen yet
  std::string subject;
  std::optional<instant> at{};
  std::string words;
  bool told{false}; // "tell" was pressed
  bool operator==(const slip_draft&) const = default;
};

// What is told of one sample before it is a fact.
struct sample_draft {
  std::map<std::string, std::optional<int>> scores; // by symptom; nothing: left out on purpose
  std::string comment;
  bool operator==(const sample_draft&) const = default;
};

// What is told later or put right; not kept.
struct later_draft {
  std::optional<sample_number> tube{};
  std::optional<score_time> after{}; // scores that belong to none, in place of a tube
  std::optional<instant> opened{};   // when the page was, so that a time does not move while read
  int minutes_ago{0};
  how_known how{how_known::told};
  drink_mishap mishap{drink_mishap::unfinished};
  drink_part part{drink_part::all}; // of the drink that was kept
  bool operator==(const later_draft&) const = default;
};
enum class right_what { time, tube, score, drink };
struct right_draft {
  right_what what{right_what::time};
  bool emptied{false};                  // of the drink: its end, not its beginning
  int minutes{0};                       // by which the time moves
  std::optional<sample_number> other{}; // the tube that it was
  std::string symptom;                  // empty: it is asked
  std::optional<int> score{};           // nothing: left out
  std::string reason;                   // one that is known already; else it is asked
  bool operator==(const right_draft&) const = default;
};

// An answer that would take an earlier one back, while it is asked once more.
struct taken_back {
  std::string rule;
  caution_answer now{caution_answer::no};
  bool operator==(const taken_back&) const = default;
};

// All of them, as one value.
struct all_drafts {
  person_draft who;
  plan_draft plan;
  slip_draft slip;
  std::map<sample_number, sample_draft> samples;
  std::array<sample_draft, 2> after; // by score_time
  later_draft later;
  right_draft right;
  std::string comment;    // for the laboratory
  std::string own_reason; // why something is put right
  std::string call_off_reason;
  std::optional<answerer> answers{};       // who answers the questions; nothing: not asked yet
  std::optional<taken_back> taking_back{}; // not kept
  // The same of a medicine, or what else is waited for; as it would be told. Not kept.
  std::optional<reported_washout> taking_back_washout{};
  bool taking_back_packet{false};          // the plan's packet is told after another one; not kept
  std::string gate_adviser;                // the name of whoever agreed or answered
  std::optional<releaser> gate_releaser{}; // what they are; not kept
  std::string packet_says;                 // the packet, where it says something else
  bool silent{false};              // the person will watch the screen, and nothing is sounded
  bool afterwards_read{false};     // what to eat first and look out for; not kept
  std::string handed_to;           // where the record was written to, in words
  std::vector<std::string> ticked; // of the open list; not kept
  bool operator==(const all_drafts&) const = default;
};

} // namespace qb::inline screens
