// What the laboratory itself writes down of a kit, as plain values: the box that arrived, its
// tubes, a sheet that came on paper, readings, and what a named person decided. All else of a kit
// comes from the patient's log; these are the laboratory's own words, kept beside it.
// Samples are plain numbers from 1 here, not sample_number: a box may hold a tube that is none.
#pragma once

#include "core/curve/curve.hpp"
#include "core/receiving/person.hpp"
#include "core/session/event.hpp"
#include "core/time/civil.hpp"
#include "core/time/instant.hpp"

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// The highest number that a tube of any kit can bear; more is a slip of the finger.
inline constexpr int most_tube_number = 99; // two digits on a label

// A time of day as people write it: minutes after midnight, 0 to 1439, with no day of its own.
using day_minute = std::chrono::minutes;

// "07:30", and back from "7:30", "07.30", "0730"; nothing where it is no time of day.
[[nodiscard]] std::string day_minute_text(day_minute m);
[[nodiscard]] std::optional<day_minute> read_day_minute(std::string_view text);

// Which row of the store a value is, and the test it was entered for. Whose it is in the end is
// asked of core/receiving/whose.hpp alone.
struct row_mark {
  std::int64_t entry{0}; // its place in its table, rising; 0 before it is kept
  std::string test{};    // a test's id; empty: none was known under its kit number then
};

// A question that may not have been asked.
enum class stated { not_stated, yes, no };

// Their stable keys: "not-told", "yes", "no"; nothing of another.
[[nodiscard]] const char* stated_text(stated t);
[[nodiscard]] std::optional<stated> read_stated(std::string_view text);

// How long a lot may be, in bytes.
inline constexpr std::size_t most_lot = 40;

// The lot of a kit's tubes and sugar, and their last day of use.
struct kit_supply {
  std::string lot{};                   // empty: nobody told
  std::optional<civil_date> expires{}; // the same
  std::string protocol{};              // the test that it was issued for
};

// How tubes may have lain until they were posted, as a sheet tells it: "room", "cool", "warm",
// "frozen".
[[nodiscard]] bool is_storage(std::string_view text);

// A box that arrived.
struct arrival {
  std::string kit;                        // its number: "FV-2071"
  instant at;                             // when it arrived, by the laboratory's clock
  std::string by;                         // who received it
  stated identifiers{stated::not_stated}; // the two on the label are those of the request
  std::string protocol;                   // from kit code or log, empty where neither is known
  std::optional<civil_date> tested;       // by the label or sheet, where there is no log
  std::optional<civil_date> posted;       // by the postmark
  stated completed{stated::not_stated};   // by the sheet, where there is no log
  stated stopped{stated::not_stated};     // stopped, or vomited, by the sheet
  std::optional<instant> entered{};       // when this was told; none: kept by an earlier version
  told_person who{};                      // by the box's label or the request
  row_mark mark{};
  kit_supply supply{};  // by the box itself
  std::string stored{}; // how the tubes lay until they were posted, as told: "room", "cool"
};

// How a tube's lid was found.
enum class lid_state { good, bad };

// One tube as it was found in the box, or was not. Several of one sample are several of these.
struct received_tube {
  int sample{1};
  bool present{true};
  lid_state lid{lid_state::good};
  std::optional<day_minute> label; // the time that stands on its label
  std::string maker_code;          // the manufacturer's own code, empty where none was read
  std::int64_t box{0};             // the entry of the box it was told with
};

// A tube's code that was scanned before its box was told.
struct tube_scan {
  std::string kit;
  std::int64_t boxes{0}; // how many entries of its box there were then
  std::string code;
  row_mark mark{};
};

// Scores of a paper sheet that belong to no tube: its rows A and B, with the time written there.
struct paper_after {
  score_time what{score_time::after_last};
  std::optional<day_minute> at; // nothing: none is written
  std::vector<std::optional<int>> scores;

  friend bool operator==(const paper_after& a, const paper_after& b) = default;
};

// What a paper sheet says of the drink.
struct paper_drink {
  std::optional<day_minute> start; // none: unknown
  std::optional<day_minute> end;
};

// The scores of one tube, by the test's symptoms; nothing where none was given.
using tube_scores = std::vector<std::optional<int>>;

// A sheet of a kit without a log: written by the patient, to the minute.
struct paper_record {
  std::string kit;
  std::string protocol;                         // an id
  civil_date day{};                             // of the first time
  std::vector<std::optional<day_minute>> times; // one a sample, in their order; none is a gap
  bool past_midnight{false}; // confirmed: a time that is less than the one before is the next day's
  paper_drink drink;
  std::string written; // the line as it was typed, before anything was asked
  std::string by;      // who entered it
  instant entered;
  std::vector<tube_scores> scores{}; // one a sample, a gap's too; empty: none were entered
  std::vector<paper_after> after{};  // rows A and B, where they were entered
  told_person who{};                 // by the sheet itself
  row_mark mark{};
};

// How paper is spoken of, and how far one of its minutes may be off.
inline constexpr const char* paper_words = "patient-written, to the minute";
inline constexpr std::chrono::minutes paper_precision{1};

// The run of the analyser that a reading is of, as its file tells it; what that leaves out is
// empty.
struct reading_run {
  std::string run;         // its number or name
  std::string analyser;    // which one
  std::string calibration; // which, or when
  std::string control;     // how the control gas came out: "passed", "failed"

  friend bool operator==(const reading_run& a, const reading_run& b) = default;
};

// One reading of one tube, as the instrument gave it: never corrected here.
struct gas_reading {
  std::string kit;
  int sample{1};
  std::optional<exact> h2_ppm;
  std::optional<exact> ch4_ppm;
  std::optional<exact> co2_pct;
  std::string measured_at;                    // as it stands in the file
  std::string raw;                            // the file's own line
  std::optional<instant> taken_in{};          // when the laboratory took it in
  reading_range h2_is{reading_range::within}; // of a figure that the reading is below or above
  reading_range ch4_is{reading_range::within};
  reading_range co2_is{reading_range::within};
  bool invalid{false}; // marked so by the analyser: it stays in sight and decides nothing
  row_mark mark{};
  reading_run of{};
  std::string by{}; // who took it in; empty: kept by an earlier version
};

// Which of several readings of one tube a named person chose.
struct reading_choice {
  int sample{1};
  std::int64_t entry{0}; // the reading's
  std::string by;
  std::string reason;
  instant at;
  row_mark mark{};
};

// A named person's word that a finding shall not count.
struct override_of {
  std::string kit;
  std::string rule;          // the finding's
  std::optional<int> sample; // the tube it is about; none: the test
  std::string by;
  std::string reason;
  instant at;
  bool withdrawn{false}; // the person took it back; it stays in the record
  row_mark mark{};
};

// What a conclusion is: the first of a test, or one that stands in place of an earlier one because
// more became known (amended) or it was not right (corrected); or that there can be no report.
enum class conclusion_kind { final_one, amended, corrected, cannot_be_reported };

// Their stable keys: "final", "amended", "corrected", "cannot-be-reported"; nothing of another.
[[nodiscard]] const char* conclusion_kind_text(conclusion_kind k);
[[nodiscard]] std::optional<conclusion_kind> read_conclusion_kind(std::string_view text);

// A qualified reader's own words. Nothing is edited: a later one replaces it, and both are kept.
// The last one counts; without any a report is a draft.
struct conclusion {
  std::string kit;
  std::string words;
  std::string by;
  instant at;
  std::string seen{}; // the case it was drawn from (core/case/conclusion_basis.hpp); empty: an
                      // earlier version's
  conclusion_kind kind{conclusion_kind::final_one};
  int number{1};        // of its test, from 1
  std::string reason{}; // why there is a later one
  std::string lack{};   // why readings that are missing do not stand against it
  row_mark mark{};
};

// Everything the laboratory wrote down of one test, each list in the order in which it was written.
// Nothing is edited: a later arrival or paper record stands in place of an earlier one.
struct received_kit {
  std::string kit;
  std::string test{};                 // the test's id; empty: none is known under the kit number
  std::vector<std::string> stopped{}; // why its kit number stops it: see core/receiving/whose.hpp
  std::vector<arrival> arrivals;
  std::vector<received_tube> tubes; // as they stand now: of the last entry of the box
  std::vector<std::string> scanned; // tubes' codes since the last entry of the box, each once
  std::vector<paper_record> papers;
  std::vector<gas_reading> readings;
  std::vector<reading_choice> choices;
  std::vector<override_of> overrides;
  std::vector<conclusion> conclusions;
  std::size_t rulings{0}; // how often a named person ruled on a row that was or is the test's
};

// The one reading of a tube that counts.
struct counted_reading {
  gas_reading reading;
  bool several{false}; // others, which differ, are kept beside it
  bool chosen{false};  // by a named person, the last choice made
};

// Of each tube that was read: the reading that was chosen, else the first. Rising by sample. A
// second reading nobody chose between (`several` without `chosen`) is a question that stands open.
[[nodiscard]] std::vector<counted_reading> counted_readings(const received_kit& kit);

// The overrides that stand: the last word on each rule and tube, where it was not taken back.
[[nodiscard]] std::vector<override_of> standing_overrides(const received_kit& kit);

} // namespace qb::inline receiving
