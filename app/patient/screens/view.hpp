// What a screen is given and what it gives back.
// A screen draws from the view and answers at most one wish; it decides nothing, reads no clock and
// keeps nothing but what is in ui_state: which page is open, and drafts.
#pragma once

#include "app/patient/screens/drafts.hpp"
#include "app/patient/screens/pages.hpp"
#include "app/patient/ui/toolkit.hpp"
#include "core/code/symbol.hpp"
#include "core/findings/findings.hpp"
#include "core/plan/earliest.hpp"
#include "core/session/now.hpp"
#include "core/words/words.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace qb::inline screens {

// One test that can be chosen, with its texts.
struct offered_test {
  std::string id;
  std::string canonical_text;
  protocol test;
};

// What the chosen day and time of the plan's draft come to; made by the shell each frame.
struct plan_preview {
  std::optional<plan> possible;    // set when the start can be used
  std::string start_text;          // "Tuesday 6 April 07:30"
  bool twofold{false};             // the clock shows this time twice: first or second must be said
  std::vector<broken_rule> broken; // what stands against it
  std::string problem;             // a start that does not exist, in words; else empty
  std::optional<civil_time> next_that_exists{}; // for such a start: the first time after the jump
  bool too_soon{false};      // what stands against it is gone at the earliest start
  std::string earliest_text; // the earliest start that works; empty where none does
  std::string earliest_rule; // the rule that makes it so, or leaves none
};

// Where files can be written to.
struct export_place {
  std::string folder;
  std::string words;
  bool drive{false};   // it can be pulled out
  std::string label{}; // the drive's own name
  bool gone{false};    // it was pulled out while its row is shown
};

// What was safely written: synced, read back and complete.
struct written_files {
  side_page page{side_page::none}; // the side page that asked for them; none: nothing was written
  std::vector<std::string> paths;  // in full
  export_place to;
  bool renamed{false};                 // a file of the wanted name was somebody else's
  bool shortened{false};               // words of a label did not fit in full
  std::vector<std::string> left_out{}; // wanted too, but could not be made or written
};

// What a shared device does with the test that is open: how long it is kept.
struct shared_device {
  instant until;                  // erased by then
  std::optional<duration> left{}; // due: what is left of the notice that stands before
};

// A damaged record was read again, and the test goes on with it.
struct salvage_note {
  int lost{0};           // entries that are known to be lost
  bool complete{false};  // none is, at the end neither
  std::string kept_as{}; // the name of the damaged file, beside the new one
};

// Why nothing can be recorded, and the test goes on with paper.
enum class paper_why {
  newer,      // the record is a newer program's
  unreadable, // nothing of it that a test needs could be read
  not_written // it was damaged, and the disk takes no new one
};

// All a screen may know.
struct view {
  const state& s;
  const now_answer& now;
  const clock_reading& at;
  const zone& z;
  const words& t;
  const std::vector<offered_test>& tests;
  const lab_profile& lab; // of the device before the test is opened, then the frozen one
  const plan_preview& preview;
  std::vector<export_place> places;
  std::string kept_in;      // the folder the record is kept in
  std::string trouble;      // a disk that refuses, a refused command: in words; else empty
  std::string paper_what{}; // while a disk refuses: what to write on paper, and the time
  std::string paper_time{};
  duration off{0};                              // how long the program was off before this run
  std::optional<sample_number> due_while_off{}; // the last tube that was due meanwhile
  bool disk_failed{false};
  bool practice{false};
  bool can_practise{false};
  bool trial{false};                 // three tubes for trying the program
  bool sound{false};                 // a sound card was found
  bool sound_lost{false};            // it was there, and went away
  bool may_go_dark{false};           // the device was asked to stay awake and did not agree
  const zone* plan_zone{nullptr};    // of the standing plan, where the device is in another by now
  std::vector<code::symbol> codes{}; // the result by code, for a scanner; none before tube 1
  written_files written{};           // just now, until it is seen
  std::optional<export_place> writing_to{}; // files are being written there
  std::string label_sheet{};                // the sheet of labels that will be written, by its name
  std::optional<shared_device> shared{};    // on a shared device, once a test is open
  bool others{false};                       // asked while erasing: another test is on this device
  std::optional<salvage_note> salvaged{};   // just now, as the test was opened
  std::optional<paper_why> on_paper{};      // nothing is recorded
  bool tubes_gone{false};                   // the test that was just erased had filled tubes
};

// What a screen keeps that is no fact.
struct ui_state {
  navigation nav;
  all_drafts drafts;
};

// Wishes that are not facts.
struct jump_ahead {};     // practice: to the next change
struct begin_practice {}; // leave for a practice test
struct try_first {};      // three tubes at once, as an invented person
struct leave_practice {};
struct try_sound {};
struct hand_over {
  export_place to;
};
struct begin_anew {};   // after a finished test
struct open_earlier {}; // the test written last, of those that are still on this device
struct erase_test {};   // from this device, for good
// The plan's calendar file and its page.
struct write_reminder_files {
  export_place to;
};
// Labels to print and the empty sheet, of the plan that stands.
struct write_papers {
  export_place to;
};
struct files_seen {}; // what was written, and where, was read
// Several facts told by one press, recorded in this order: the answers of a page of questions.
struct record_all {
  std::vector<payload> facts;
};
using any_wish = std::variant<payload, jump_ahead, begin_practice, try_first, leave_practice,
                              try_sound, hand_over, begin_anew, record_all, write_reminder_files,
                              files_seen, erase_test, write_papers, open_earlier>;

// One wish, as std::get_if and std::visit see it; a type of its own so that copying it is compiled
// once (view.cpp) and not in every screen.
struct wish : any_wish {
  using any_wish::any_wish;
  wish();
  wish(const wish&);
  wish(wish&&) noexcept;
  wish& operator=(const wish&);
  wish& operator=(wish&&) noexcept;
  ~wish();
};
using maybe_wish = std::optional<wish>;

} // namespace qb::inline screens
