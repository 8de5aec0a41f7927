// The patient program's commands that need no window: each reads, answers on standard output, and
// returns an exit status (0 done, 2 input refused, 1 the machine failed).
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <vector>

namespace qb::inline plans {
struct plan;
} // namespace qb::inline plans
namespace qb::inline protocols {
struct protocol;
struct lab_profile;
} // namespace qb::inline protocols
namespace qb::inline times {
class zone;
} // namespace qb::inline times

namespace qb::patient {

// Options every command shares.
struct shared_options {
  std::string assets; // folder of data files
  std::string format{"text"};
};

// The options of `plan`. Dates and instants are as they were typed; the command reads them.
struct plan_options {
  std::string protocol;
  std::string start;
  std::string zone;
  std::string fold;
  std::string profile;
  std::string calendar;            // a file to write the reminders to; may be empty
  std::string page;                // a file to write the preparation page to; may be empty
  std::string made_at;             // what both carry as their moment; empty: the machine's clock
  std::string identity;            // root of the reminders' identities; empty: the protocol's id
  std::string kit;                 // kit number for the page; may be empty
  std::vector<std::string> taking; // washouts of which something is taken
  long long sequence{0};           // how often the plan was moved
  bool called_off{false};
};
// Prints the due times and the preparation that follow from a start.
[[nodiscard]] int plan_command(const shared_options& shared, const plan_options& o);

// Writes the calendar and the page of that plan where `o` asks for them; answers what was written.
[[nodiscard]] result<std::vector<std::string>> write_reminders(const plan_options& o, const plan& p,
                                                               const protocol& test,
                                                               const lab_profile& lab,
                                                               const zone& z);

struct earliest_options {
  std::string protocol;
  std::string zone;
  std::string now;   // a civil time in the zone, or RFC 3339
  std::string told;  // a file of what the person told; may be empty
  std::string start; // a start to judge, as `now`; may be empty
};
[[nodiscard]] int earliest_command(const shared_options& shared, const earliest_options& o);

// Plays a script to its end; journal, files and a report go into the folder `out`.
struct rehearse_options {
  std::string script;
  std::string out;
  bool confirm{false}; // say each durable event on standard error
};
[[nodiscard]] int rehearse_command(const shared_options& shared, const rehearse_options& o);

// What a paper is made from: a record's log, or a protocol and what is known of kit and person.
struct paper_options {
  std::string log; // a timing log; then nothing else is asked
  std::string protocol;
  std::string profile;
  std::string kit;
  std::string name;
  std::string born; // YYYY-MM-DD
  std::string doctor;
  std::string made_at; // of a paper without a log; empty: the machine's clock
  std::string page;    // the file to write
};

// Labels for the tubes as a PDF. `start_at`: the first label, from 1, that the sheet still has.
struct labels_options {
  paper_options paper;
  std::string labels; // the sheet or roll, an id or a file
  int start_at{1};
  int offset_x{0}; // tenths of a millimetre
  int offset_y{0};
  bool nameless{false};
  bool test_page{false}; // instead of labels; needs neither log nor protocol
};
[[nodiscard]] int labels_command(const shared_options& shared, const labels_options& o);

// The paper sheet as a PDF: of a log, or empty for a pen.
struct sheet_options {
  paper_options paper;
  bool empty{false}; // for a pen
  std::string start; // planned, with its zone: prints times that hold only from that start
  std::string zone;
};
[[nodiscard]] int sheet_command(const shared_options& shared, const sheet_options& o);

// Erases a test from this device, or without `sure` says what would go.
struct erase_options {
  std::string data; // folder of the device's tests; empty: the user's data folder
  std::string test; // a kit number, or a test's id where several have that
  bool sure{false};
};
[[nodiscard]] int erase_command(const erase_options& o);

// Reads each file with the strict reader of its kind ("protocol", "profile", "told", "log" or
// "label-sheet") and prints one line a file. With `form_only` a log that was edited but is well
// formed is good: its hashes and its summary are not compared with its events; and so is a protocol
// whose figures are not usual (core/protocol/figures.hpp). With a profile's file a protocol's grid
// is held against that laboratory's bounds of a sample.
struct check_options {
  std::vector<std::string> files;
  bool form_only{false};
  std::string profile; // a file; empty: none
};
[[nodiscard]] int check_command(const shared_options& shared, const std::string& kind,
                                const check_options& o);

// "quarterbreath 0.1.0"
[[nodiscard]] std::string program_name();

} // namespace qb::patient
