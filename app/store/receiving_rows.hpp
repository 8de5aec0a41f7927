// The rows of receiving's tables, as texts and whole numbers: app/store/receiving_store.hpp tells
// the tables. A file of their own, so that who only reads rows needs no store.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace qb::inline store {

// A box as it came, or as it was told again.
struct arrival_row {
  std::int64_t entry{0}; // given by the store
  std::string kit;
  std::string at;
  std::string by;
  std::string identifiers;
  std::string protocol;
  std::string tested;
  std::string posted;
  std::string completed;
  std::string stopped;
  std::string entered{};
  std::string test{};   // in every table: the test it was entered for; empty: none was known
  std::string person{}; // who the box or sheet is of, by its label or the request
  std::string lot{};
  std::string expires{};
  std::string stored{};
};

// One tube of a box.
struct tube_row {
  std::int64_t entry{0};
  std::string kit;
  std::int64_t box{0}; // the arrival's entry
  std::int64_t sample{0};
  bool present{true};
  std::string lid;
  std::string label;
  std::string maker_code;
  std::string test{};
};

// A tube's code that was scanned, before its box was told.
struct scan_row {
  std::int64_t entry{0};
  std::string kit;
  std::int64_t boxes{0}; // how many entries of its box there were then
  std::string code;
  std::string by;
  std::string at;
  std::string test{};
};

// The times of a paper sheet.
struct paper_row {
  std::int64_t entry{0};
  std::string kit;
  std::string protocol;
  std::string day;
  std::string times;
  bool past_midnight{false};
  std::string drink_start;
  std::string drink_end;
  std::string written;
  std::string by;
  std::string at;
  std::string scores{};
  std::string test{};
  std::string person{};
};

// One reading of one tube, never corrected.
struct reading_row {
  std::int64_t entry{0};
  std::string kit;
  std::int64_t sample{0};
  std::string h2;
  std::string ch4;
  std::string co2;
  std::string measured_at;
  std::string raw;
  std::string at;     // when it was taken in
  std::string file;   // the file's SHA-256
  std::string mark{}; // the analyser's own: "invalid", or nothing
  std::string test{};
  std::string run{};
  std::string analyser{};
  std::string calibration{};
  std::string control{};  // "passed", "failed", or nothing
  std::string taken_by{}; // who took it in
};

// Which of several readings of a tube counts.
struct choice_row {
  std::int64_t entry{0};
  std::string kit;
  std::int64_t sample{0};
  std::int64_t reading{0};
  std::string by;
  std::string reason;
  std::string at;
  std::string test{};
};

// A finding that a named person set aside, or took up again.
struct override_row {
  std::int64_t entry{0};
  std::string kit;
  std::string rule;
  std::int64_t sample{0};
  std::string by;
  std::string reason;
  std::string at;
  bool withdrawn{false};
  std::string test{};
};

// What a qualified reader concluded.
struct conclusion_row {
  std::int64_t entry{0};
  std::string kit;
  std::string words;
  std::string by;
  std::string at;
  std::string seen{};
  std::string test{};
  std::string kind{};   // empty: final, of an earlier version
  std::string number{}; // of the test's conclusions, from 1; empty: of an earlier version
  std::string reason{}; // why there is a later one
  std::string lack{};   // why missing readings do not stand against it
};

// A named person's word on a row of one of the tables above (core/receiving/kit_rows.hpp).
struct ruling_row {
  std::int64_t entry{0};
  std::string kit;
  std::string what;
  std::int64_t about{0}; // the row's entry
  std::int64_t tube{0};
  std::string says;
  std::string test;
  std::string to_kit;
  std::int64_t to_tube{0};
  std::string known; // a JSON list of test ids
  std::string by;
  std::string reason;
  std::string at;
};

// Bytes that are no text.
struct stored_bytes {
  std::string value;
};

// The bytes that went out with a conclusion.
struct issued_row {
  std::int64_t entry{0};
  std::string kit;
  std::string test;
  std::int64_t number{0}; // the conclusion's
  std::string format;     // "pdf", "json", "fhir"
  stored_bytes body;
};

// A reader's signature under a conclusion.
struct conclusion_signature_row {
  std::int64_t entry{0};
  std::string kit;
  std::string test;
  std::int64_t number{0}; // the conclusion's
  std::string body;       // the very bytes that were signed
  std::string signature;  // minisign's four lines
  std::string key;        // the public half: "RW…"
};

// What is left of people who were forgotten.
struct forgotten_row {
  std::string protocol;
  std::int64_t tests{0};
  std::int64_t due{0};
  std::int64_t taken{0};
  std::int64_t on_time{0};
  std::int64_t early{0};
  std::int64_t late{0};
  std::int64_t missed{0};
};

// All rows of a kit, or of all kits, each list by rising entry.
struct receiving_rows {
  std::vector<arrival_row> arrivals;
  std::vector<tube_row> tubes;
  std::vector<scan_row> scans;
  std::vector<paper_row> papers;
  std::vector<reading_row> readings;
  std::vector<choice_row> choices;
  std::vector<override_row> overrides;
  std::vector<conclusion_row> conclusions;
  std::vector<ruling_row> rulings;
};

} // namespace qb::inline store
