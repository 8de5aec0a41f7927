// Everything that was ever written down under one kit number, before anybody asks whose it is: the
// laboratory's rows as they were entered, and what named persons said of them since.
#pragma once

#include "core/receiving/received.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// What a person's ruling is about. The last four are of a tube as one entry of its box told it.
enum class ruled {
  kit,
  box,
  sheet,
  scan,
  reading,
  choice,
  set_aside,
  conclusion,
  lid,
  absence,
  extra,
  label
};

// What the person said.
enum class row_word {
  is_of,      // it is of that test, whatever it was entered for
  taken_back, // it was told by mistake: it counts no more, and stays in the store
  moved,      // a reading is of another tube, or of another kit's
  stands,     // an earlier word of one of these was wrong
};

// Their stable keys ("set-aside", "taken-back"); nothing of another text.
[[nodiscard]] const char* ruled_text(ruled r);
[[nodiscard]] std::optional<ruled> read_ruled(std::string_view text);
[[nodiscard]] const char* row_word_text(row_word v);
[[nodiscard]] std::optional<row_word> read_row_word(std::string_view text);

// A named person's word on a row. The last word on each counts; all of them stay.
struct ruling {
  std::string kit; // the kit number the row was entered under
  ruled what{ruled::kit};
  std::int64_t of{0}; // the row's entry; of a tube that of its box; 0: of the whole kit number
  int tube{0};        // of the last four
  row_word says{row_word::is_of};
  std::string test;               // is_of: whose it is; moved: whose it is there
  std::string to_kit;             // moved
  int to_tube{0};                 // moved
  std::vector<std::string> known; // the tests that were known under the number then
  std::string by;
  std::string reason;
  instant at;
  row_mark mark{};
};

// Each list by rising entry, of all tests that ever bore the number.
struct kit_rows {
  std::string kit;
  std::vector<arrival> arrivals;
  std::vector<received_tube> tubes; // of every entry of the box
  std::vector<tube_scan> scans;
  std::vector<paper_record> papers;
  std::vector<gas_reading> readings;
  std::vector<reading_choice> choices;
  std::vector<override_of> overrides;
  std::vector<conclusion> conclusions;
  std::vector<ruling> rulings;
};

} // namespace qb::inline receiving
