// A laboratory's profile: the choices that no publication makes for it.
// Tolerances, time zero, working days and whom to call are each laboratory's own; this program
// ships an invented laboratory's, and a real one writes its own file.
#pragma once

#include "core/protocol/consequence.hpp"
#include "core/protocol/judging_choices.hpp"
#include "core/protocol/opening_hours.hpp"
#include "core/protocol/protocol.hpp"
#include "core/time/civil.hpp"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline protocols {

// From which moment minutes are counted when gases are judged.
enum class time_zero { tube_1_closed, drink_start, drink_end };

// How long things may take at the start, in elapsed seconds.
struct drink_bounds {
  std::chrono::seconds after_tube_1{0}; // the drink begins within this after tube 1 is closed
  std::chrono::seconds drink_within{0}; // and is finished within this
};

// What a laboratory holds a box that arrived against. Each may be left out: then it is not asked.
struct receiving_terms {
  rule_ref label_why;
  std::optional<std::chrono::minutes> label_within; // a label's time and the record's, either way
  rule_ref transit_why;
  std::optional<std::chrono::days> transit_within; // from posting to arrival
  rule_ref age_why;
  std::optional<std::chrono::days> tube_age_within; // from a tube's closing to its reading
  rule_ref co2_why;
  std::optional<int> co2_reference_tenths; // readings are corrected to this, tenths of a per cent
  rule_ref closed_why;
  std::vector<civil_date> closed_days; // on which it does not work, whatever the day of the week
};

// What this laboratory lets follow from a finding, in place of what assets/findings says.
struct own_consequence {
  std::string finding; // its rule id
  consequence weight{consequence::note};
  std::optional<consequence> lesser; // where the finding is a mere note
};

// How long a shared device keeps a test. What was told before the first entry is what holds, so the
// terms are those frozen in the record.
struct kiosk_terms {
  bool erase_after_handover{false}; // once it is safely written and the person says they have it
  std::chrono::hours unhanded_after{0}; // after its end and the last entry, if nobody did that
  std::chrono::minutes notice{0};       // stands on the screen before, in which it can be saved
};

// The laboratory's own choices, each with its rule's id and source.
struct lab_profile {
  std::string id;
  std::string name;
  bool for_trying{false}; // an invented laboratory, for trying the program; version 1: no
  std::string telephone;
  std::string telephone_hours;                  // in words; in version 2 those of `opening_hours`
  std::vector<qb::opening_hours> opening_hours; // when somebody answers; version 1: empty
  std::string outside_hours;                    // what to do at other times; version 1: empty
  std::vector<std::string> address;
  std::string kit_letters; // two characters that name the laboratory in kit codes
  std::string emergency;   // the number to call in danger: digits, with spaces and a leading "+";
                           // version 1 may have any text
  std::string emergency_country; // where it is that number, ISO 3166-1 alpha-2; version 1: empty
  std::string seal_to; // age recipient ("age1…") a handed-over file is sealed to; empty: none
  rule_ref time_zero_why;
  time_zero zero{time_zero::tube_1_closed};
  rule_ref bounds_why;
  sample_bounds bounds;
  rule_ref drink_why;
  drink_bounds drink;
  rule_ref rise_why;
  // A score this much above the first asks the warning signs, where the protocol does not say.
  std::optional<int> rise;
  rule_ref slack_why;
  std::chrono::minutes window_slack{0}; // how far past a criterion's window a sample still counts
  rule_ref water_why;
  std::string water_during_test; // "none", "sips" or "free"
  rule_ref analysis_why;
  int analysis_working_days{0}; // from arrival to result
  std::set<int> working_days;   // 1 Monday to 7 Sunday
  receiving_terms receiving;
  judging_choices judging; // version 1: none
  rule_ref label_sheet_why;
  std::string label_sheet; // the sheet or roll of labels it sends; empty: the most common one
  rule_ref kiosk_why;
  std::optional<kiosk_terms> kiosk; // nothing: the device is the person's own, and keeps its tests
  rule_ref retention_why;
  // A concluded test is kept this long after its last conclusion; nothing: not told; version 1:
  // none.
  std::optional<std::chrono::years> retention;
  rule_ref consequences_why;
  std::vector<own_consequence> consequences; // each finding once; none: as assets/findings has it
  std::vector<source> sources;

  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  lab_profile();
  lab_profile(const lab_profile&);
  lab_profile(lab_profile&&) noexcept;
  lab_profile& operator=(const lab_profile&);
  lab_profile& operator=(lab_profile&&) noexcept;
  ~lab_profile();
};

// Reads a profile file's text, of version 1 or 2; refuses with line and field, as `read_protocol`
// does. In version 2 an emergency number that cannot be dialled, a country that no code names, and
// hours that end before they begin or that overlap on a day.
[[nodiscard]] result<lab_profile> read_profile(std::string_view text);

// "tube 1 closed", "start of the drink" or "end of the drink".
[[nodiscard]] const char* time_zero_text(time_zero z);

} // namespace qb::inline protocols
