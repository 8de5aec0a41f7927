// Letters and slips that the laboratory drafts for a person to sign: an A4 page each.
// What stands there was decided before (app/lab/render/letters.hpp); here it is only set in type.
#pragma once

#include "core/base/result.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// A headline with what stands under it.
struct letter_part {
  std::string title;              // may be empty
  std::vector<std::string> lines; // whole sentences
  std::vector<std::string> items; // each with a dash before it
};

// One paper, from whom it is addressed to down to the hand that signs it.
struct letter {
  std::string to; // empty: a line to write on
  std::string title;
  std::vector<sheet_fact> facts;
  std::vector<letter_part> parts;
  std::vector<std::string> blanks; // what a hand fills in: "New kit number"
};

// What stands on all of them.
struct letter_set {
  bool practice{false};
  std::string mark;              // such as that the laboratory is invented; empty: none
  std::vector<std::string> from; // the laboratory's name and address, a line each
  std::string foot;
  std::vector<letter> letters;
};

// What says on each of them that nobody has signed it.
inline constexpr const char* letter_draft =
    "DRAFT for a named person to read, to change and to sign";

// One PDF, tagged, fonts embedded, text extractable; each letter begins a page. `made_at` becomes
// the file's date; the same input gives the same bytes. Marked as a draft among its keywords, as a
// report is. Refuses characters that no installed font has.
[[nodiscard]] result<std::string> draw_letters_pdf(const letter_set& all,
                                                   const std::string& made_at);

} // namespace qb::page
