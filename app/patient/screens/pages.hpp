// Which page is open: a side page or the screen of the step, and the page within it.
// Every page is a value of a type of its screen, so that no screen takes another's page for its
// own; in one file, since this is the map of the whole window.
#pragma once

#include "core/session/now.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

namespace qb::inline screens {

// Pages beside the step of the test; `draw_screen` has the function of each.
enum class side_page {
  none, // follow the test
  who,
  choose,
  timeline,
  slip,
  evening,
  morning,
  foods,
  low_sugar,
  call_off,
  history,
  reminders,
  labels,
  gate,
  mishap,
  tell,
  comment,
  copy,
  pack,
  hand_over,
  code,
  papers,
  erase,
  erased,
  label_again,
  put_right,
  broken,
  drink_told,
  no_baseline,
  drink_trouble,
  scorer,
  drink_again,
  drink_part,
  unwell,
  returned,
  salvaged,
  scores_later
};

// The pages of each screen that has several. The first value is where it begins.

// Before the record is opened.
enum class agree_page { what, kept };

// `unanswered`: the first question that has no answer yet, after the last of them the check.
enum class who_page { unanswered, name, birth, doctor, kit, laboratory, check, change };

// Making a plan. `unanswered`: the first page that has no answer yet.
enum class plan_page {
  unanswered,
  test,
  form,
  answerer, // who answers the questions
  hours,
  days,  // only some weekdays
  times, // only some hours
  start,
  fold, // the clock shows the chosen time twice
  review,
  trying,    // the laboratory is invented: that is said before a plan is kept
  waiting,   // what must be asked before there can be a date
  ask_packet // the packet says something else
};
// One caution, by its rule.
enum class caution_part {
  question,
  ask,    // it is true, or perhaps: whom to ask, or not this test
  answer, // what they said
  who,    // who said so
  said    // and in which words
};
struct caution_page {
  std::string rule;
  caution_part part{caution_part::question};
  bool operator==(const caution_page&) const = default;
};
// One washout, by its rule.
enum class medicine_part {
  question,   // was there any in the days that matter
  how,        // no longer, until a day, or for good
  prescriber, // it is to end: whom to ask before a day is taken
  last_dose,  // the day
  advice,     // nobody knows, or it goes on: whom to ask
  who,
  said
};
struct medicine_page {
  std::string rule;
  medicine_part part{medicine_part::question};
  bool operator==(const medicine_page&) const = default;
};
using choose_page = std::variant<plan_page, caution_page, medicine_page>;

// The days before: now, and what else there is.
enum class prepare_page { now, more };
// What fits the test, and where nothing does.
enum class foods_page { lists, nothing };
// Alarms to set, and files to write.
enum class reminders_page { alarms, files };
// What was not kept, which medicine, when, and in what words.
enum class slip_page { what, medicine, when, words };

// Labels written ahead.
struct labels_page {
  std::optional<sample_number> tube{}; // the label that is written; none: how it is done
  bool operator==(const labels_page&) const = default;
};

// The checks before the drink.
enum class gate_page {
  intro,
  sugar,
  wrong_sugar,
  morning,    // what may have come up since the plan
  each,       // the same one by one, each in full
  ask,        // a question that nobody answered, in full
  told_again, // slips may be lost: whether there is one to tell
  not_today,
  things,
  time,   // everything stands ready, and it is before the planned start
  check,  // every rule against this moment
  agreed, // who agreed to a start in spite of what is not kept
  rules   // all rules by how they stand
};

// Something stands against going on. `who`: who may say that it is all right said so.
enum class held_page { what, question, who, packet, other_packet, not_today };

// `expect`: what the drink may do and what it should not, read before it is drunk.
enum class sugar_page { prepare, expect };
// `how`: before tube 1 how a breath is blown; `close`: two tubes close together are asked about
// first.
enum class breathe_page { how, begin, close };
enum class label_page { time, whole };
// `signs`: which warning signs are there, asked before going on; `passed`: some were told, and it
// is asked whether they have passed.
enum class unwell_page { what_to_do, stop, signs, passed };

// `which`: any of the tubes may be meant; `known`: it is clear which.
enum class tell_page { which, known, close };
// `earlier`: a breath that is not the latest; `told`: it is written down for the laboratory.
enum class mishap_page { what, earlier, told };
enum class drink_trouble_page { what, kept, when };
enum class right_page { which, right, why, own_words };

// The record copied to paper, row by row.
struct copy_page {
  std::size_t row{0}; // of the sheet
  bool operator==(const copy_page&) const = default;
};
// The result by code, one symbol after another.
struct code_page {
  std::size_t symbol{0}; // from 1; 0: what it is for
  bool operator==(const code_page&) const = default;
};
// What erasing means, and whether it is meant.
enum class erase_page { meaning, sure };

using any_page =
    std::variant<std::monostate, agree_page, who_page, choose_page, prepare_page, foods_page,
                 reminders_page, slip_page, labels_page, gate_page, held_page, sugar_page,
                 breathe_page, label_page, unwell_page, tell_page, mishap_page, drink_trouble_page,
                 right_page, copy_page, code_page, erase_page>;

// Where the test stood when a page was drawn last: a step, at a tube, held by something.
struct test_place {
  step what{step::who};
  std::optional<sample_number> sample{};
  std::optional<hindrance> held_by{};
  bool operator==(const test_place&) const = default;
};

// Where the window stands: a side page or the step's screen, and the page within it.
struct navigation {
  side_page open{side_page::none};
  any_page page{};                       // of the screen that is shown
  std::optional<test_place> came_from{}; // when the step changes, pages begin anew

  [[nodiscard]] bool is_side() const { return open != side_page::none; }
  // The page of that screen; its first one while the page is another screen's.
  template <typename Page>
  [[nodiscard]] Page page_in() const {
    const Page* own = std::get_if<Page>(&page);
    return own == nullptr ? Page{} : *own;
  }
  // Opens that side page at its first page, or at that one of it.
  void open_side(side_page which, any_page at = {}) {
    open = which;
    page = std::move(at);
  }
  // Follows the test again.
  void close_side() { open_side(side_page::none); }
};

} // namespace qb::inline screens
