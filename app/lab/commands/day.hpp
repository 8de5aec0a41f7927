// The commands of the laboratory's day: each answers an exit status, as those of commands.hpp do.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/person_options.hpp"
#include "core/receiving/readings.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// Boxes as they come, from standard input: a kit (its number, its code, or scanned code text), then
// a line of options (app/lab/intake/box_options.hpp). Each is kept as it is told. With `kit` one
// box alone, told by `box`.
struct receive_options {
  std::string kit;
  std::string box;
  std::string tube_codes; // a file: maker_code,kit,tube
  person_options who{};   // with `kit`: whose the label says it is
  std::string posted{};   // a day: of every box whose own words tell none
};
// The list of a file; none where the path is empty.
[[nodiscard]] result<tube_codes> load_tube_codes(const std::string& path);
[[nodiscard]] int receive_boxes(const shared_options& shared, const lab_context_options& at,
                                const receive_options& o, const console& to);

// One paper sheet in a line (`read_sheet_options`). What a hand may have slipped in is refused with
// its question until `confirmed` names it.
struct paper_options {
  std::string kit;
  std::string sheet;
  std::string test; // where no box, log or kit code tells it
  std::vector<std::string> confirmed;
  person_options who{}; // by the sheet
};
[[nodiscard]] int enter_paper(const shared_options& shared, const lab_context_options& at,
                              const paper_options& o, const console& to);

// A table of gas readings (core/receiving/readings.hpp), all of it or nothing. And which of several
// readings of one tube counts.
struct readings_options {
  std::string file;       // path, or "-" for standard input
  std::string tube_codes; // a file: maker_code,kit,tube
  std::string layout{};   // the table's description; empty: the one that is set up, if any
};
[[nodiscard]] int take_readings(const shared_options& shared, const lab_context_options& at,
                                const readings_options& o, const console& to);

// Every table of the folder that is set up and was not taken in by this before: a table that is
// refused costs itself, and is tried again.
[[nodiscard]] int take_new_tables(const shared_options& shared, const lab_context_options& at,
                                  const readings_options& o, const console& to);

// How such a table is read, without taking it in: what each row comes to, or what is wrong.
[[nodiscard]] int check_readings_file(const shared_options& shared, const lab_context_options& at,
                                      const readings_options& o, const console& to);

// `readings-layout check FILE...`: one line a file, "FILE: ok" or what is wrong.
[[nodiscard]] int check_layouts(const std::vector<std::string>& files, const console& to);
struct choice_options {
  std::string kit;
  int tube{0};
  long long reading{0}; // the number that was told of it
  std::string reason;
};
[[nodiscard]] int choose_reading(const shared_options& shared, const lab_context_options& at,
                                 const choice_options& o, const console& to);

// What is here, what it waits for and when it is due, the oldest first; `all`: what waits for
// nothing too. JSON: {"work":[{kit, protocol, arrived, due, overdue, waits_for, unread, to_review,
// again (more came after its conclusion), rehearsal}]}.
[[nodiscard]] int show_work(const shared_options& shared, const lab_context_options& at, bool all,
                            const console& to);

// How well patients keep time, as a table, or as CSV with `csv` naming a file ("-" is standard
// output).
[[nodiscard]] int audit_times(const shared_options& shared, const lab_context_options& at,
                              const std::string& csv, const console& to);

// Everything for a data warehouse, into that folder: tests.csv, tubes.csv
// (app/lab/render/export_rows.hpp) and fhir.ndjson. Without names and birth dates; the tables
// without anybody's own words too. `only_new`: of kits of which something changed since they were
// exported last, the others are left out.
[[nodiscard]] int export_all(const shared_options& shared, const lab_context_options& at,
                             const std::string& folder, const console& to, bool only_new = false);

// Whose what was entered is: the box, sheet or reading that is named, or all that is nobody's, is
// of the test that `--test` names. Said by a person who sees every test of the kit number: without
// `--test` they are shown.
struct assign_options {
  std::string kit;
  std::string reason;
  long long box{0}; // an entry; 0: not named
  long long sheet{0};
  long long reading{0};
};
[[nodiscard]] int assign_rows(const shared_options& shared, const lab_context_options& at,
                              const assign_options& o, const console& to);

// What was told by mistake counts no more; a reading may be moved to another tube or kit. It stays
// in the store with who said so, and why; `stands` lets it count again.
struct take_back_options {
  std::string kit; // or a test's id
  std::string what;
  long long number{0}; // a tube's, or an entry
  std::string reason;
  std::string to_kit{}; // or a test's id
  int to_tube{0};
  bool stands{false};
};
[[nodiscard]] int take_back(const shared_options& shared, const lab_context_options& at,
                            const take_back_options& o, const console& to);

// Takes one test out of the store, by name and reason: log, code and rows. Leaves counts and a
// keyed hash of its id. Without `sure` only says what would go; one that was concluded goes before
// the profile's retention is over only where that is meant on purpose.
struct forget_options {
  std::string kit; // or a test's id
  std::string reason{};
  bool sure{false};
  bool although_concluded{false};
};
[[nodiscard]] int forget_test(const shared_options& shared, const lab_context_options& at,
                              const forget_options& o, const console& to);

} // namespace qb::lab
