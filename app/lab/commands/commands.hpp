// The laboratory's commands: each answers on `out`, complains on `err`, and returns an exit status
// (0 done, 2 input or usage refused, 1 the machine failed).
#pragma once

#include "app/lab/context/console.hpp"

#include <cstdio>
#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// Takes logs into the store, making it where there is none. Paths are files, or folders whose
// *.json, *.pdf and *.age below them are taken in the order of their names, or "-" for standard
// input. A log may be attached to a PDF, and either may be sealed (app/lab/intake/unpack.hpp). In a
// folder a PDF without a log, and a sealed file that lies there unsealed too, are passed over.
// Links to folders are not followed. Bad files are told one line each and the others still taken
// in.
struct import_options {
  std::vector<std::string> paths;
  bool rehearsals{false};             // take practice too, marked as such
  bool codes{false};                  // the paths hold text that a scanner typed, not logs
  std::FILE* standard_input{nullptr}; // read for "-"
  std::string identity{};             // file with the age identities that open sealed files
  bool not_issued{false};             // kits that were never issued here too, on purpose
};
[[nodiscard]] int import_logs(const shared_options& shared, const import_options& o,
                              const console& to);

// One line a test.
[[nodiscard]] int list_tests(const shared_options& shared, const console& to);

// All there is on the tests of a kit number, or on one test by its id.
[[nodiscard]] int show_tests(const shared_options& shared, const std::string& kit_or_test,
                             const console& to);

// One test as a FHIR R4 bundle (core/fhir/bundle.hpp). Refused where a kit has several tests, or
// where only a result by code came.
struct fhir_options {
  std::string kit_or_test;
  std::string assets;     // folder of data files, for its codes
  std::string out{"-"};   // a file, its owner's alone; "-" is standard output
  bool with_name{false};  // name and birth date too
  bool rehearsals{false}; // practice too, marked as such
  bool replace{false};    // a file that is there may be written over
};
[[nodiscard]] int write_fhir(const shared_options& shared, const fhir_options& o,
                             const console& to);

// Prints kit codes, one a line with kit number, protocol and last day: of one serial, or of `count`
// serials from `first` on. Where a laboratory is set up, or `by` says who, they are kept as issued
// first (app/store/laboratory_store.hpp); without either no store is needed.
struct kit_code_options {
  std::string assets;   // folder of data files
  std::string protocol; // id or path
  std::string profile;  // id or path
  std::string expires;  // the last day of use, YYYY-MM-DD
  std::string serial;   // one serial, or
  std::string first;    // the first of
  std::optional<long long> count;
  output_format format{output_format::text};
  std::string store{}; // where issued kits are kept
  std::string by{};    // who issues them
  std::string lot{};   // of what is in the boxes
  bool another_profile{false};
};
[[nodiscard]] int make_kit_codes(const kit_code_options& o, const console& to);

// Judges a bare curve, or a batch of them, by the criteria of its test. Needs no store. The
// profile says what is on time, which carbon dioxide is too little and which changes are plausible.
// One curve is a CSV file (core/curve/curve_csv.hpp); a batch is lines of JSON, answered line by
// line in JSON (core/curve/curve_line.hpp, app/lab/render/judge_json.hpp). "-" is standard input. A
// bad line is answered with its error, and the status of the whole is then 2.
struct judge_options {
  std::string assets;       // folder of data files
  std::string curve;        // path of one curve, or
  std::string curves;       // of a batch
  std::string profile;      // the laboratory's: an id or a path
  std::string test;         // a protocol's id or path; in a batch, of lines that name none
  std::string window_slack; // minutes; empty is none
  output_format format{output_format::text};
  std::FILE* standard_input{nullptr}; // read for "-"
};
[[nodiscard]] int judge_curves(const judge_options& o, const console& to);

} // namespace qb::lab
