// Who works in the laboratory, and who may do what: one question that every command asks.
// A name that anybody may type signs nothing. Once a laboratory is set up, a person is one of its
// list, and what they may do follows from their roles alone.
#pragma once

#include "core/base/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline laboratories {

// What somebody is in the laboratory; a person may be both.
struct work_roles {
  bool bench{false};  // opens boxes, enters sheets and readings
  bool reader{false}; // qualified to read a test, and answers for the laboratory
};

// One of the laboratory's people.
struct person_at_work {
  std::string name;
  std::string code; // short, to be typed: "ra"
  work_roles roles;
  std::string key;      // the public half of the key they sign with ("RW…"); empty: none
  std::string key_file; // where the sealed other half lies; never the key itself
};

// Everything that a command does in a person's name.
enum class work_act {
  receive,     // a box, its tubes
  enter_paper, // a sheet
  measure,     // take in a table of readings
  choose,      // which of several readings counts
  settle,      // which box or sheet is whose, what was told by mistake, which log counts
  set_aside,   // a finding
  conclude,
  forget,        // a test
  issue_kits,    // kit codes for the boxes
  take_requests, // a list of what was asked for
  make_key,      // one's own, to sign with
  set_up,        // the laboratory's own settings
  change_people,
};
inline constexpr work_act all_work_acts[] = {
    work_act::receive,      work_act::enter_paper,   work_act::measure,  work_act::choose,
    work_act::settle,       work_act::set_aside,     work_act::conclude, work_act::forget,
    work_act::issue_kits,   work_act::take_requests, work_act::make_key, work_act::set_up,
    work_act::change_people};

// In words: "conclude a test".
[[nodiscard]] const char* act_words(work_act act);

// Whether somebody with these roles may do that. Only a reader concludes, sets aside, forgets, and
// changes who is who; only the bench receives, enters and issues; either chooses between readings
// and says whose a box is.
[[nodiscard]] bool may(const work_roles& roles, work_act act);

// "bench", "reader", "bench+reader"; and back, nothing of another text or of no role.
[[nodiscard]] std::string roles_text(const work_roles& roles);
[[nodiscard]] std::optional<work_roles> read_roles(std::string_view text);

// The person of a list whose whole name or code that is, however it is written; refuses a blank or
// unknown one with the list.
[[nodiscard]] result<person_at_work> person_on_list(const std::vector<person_at_work>& people,
                                                    const std::string& named);

// Who acts: the person whose whole name or code was given, where they may do that. Nothing but
// `people` (nullptr: no laboratory was ever set up) decides: with a list, a blank or unknown name
// is refused with the list, and a role is asked for; without one any plain name will do, never a
// blank one.
[[nodiscard]] result<person_at_work> acting_person(const std::vector<person_at_work>* people,
                                                   const std::string& named, work_act act);

// Whether a list may stand: names and codes each once (however they are written), no code that is
// another's name, one reader at least.
[[nodiscard]] result<void> check_people(const std::vector<person_at_work>& people);

// "NAME / CODE / ROLES", as a person is told on a command line. Refuses what cannot be one.
[[nodiscard]] result<person_at_work> read_person_at_work(std::string_view text);

} // namespace qb::inline laboratories
