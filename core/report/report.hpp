// What a laboratory is told of one test, as data: whose it is, its tubes, and what was noted.
// Every figure is derived from the log's events again; nothing is taken from the log's summary.
#pragma once

#include "core/findings/findings.hpp"
#include "core/record/log.hpp"
#include "core/time/zone.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline reports {

// How a tube stands against its due time.
enum class tube_standing { not_yet, missed, early, on_time, late };

// Its stable key: "not-yet", "missed", "early", "on-time", "late".
[[nodiscard]] const char* standing_text(tube_standing s);

// One tube. Due times are the grid's: the closing of tube 1 plus the protocol's offset, or the
// planned start's while there is no grid.
struct report_tube {
  sample_number number{1};
  instant due;
  std::optional<instant> closed; // by the device's wall clock, or as told
  std::optional<how_known> how;
  std::optional<duration> late; // elapsed, negative before the due time
  tube_standing standing{tube_standing::not_yet};
  std::vector<std::optional<int>> scores; // one for each of the report's symptoms
  std::string comment;
};

// Scores that belong to no tube and were given.
struct report_after {
  score_time what{score_time::after_last};
  instant given;                          // by the device's wall clock
  duration elapsed{0};                    // since tube 1
  std::vector<std::optional<int>> scores; // one for each of the report's symptoms
  std::string comment;
};

// What the kit's code said, where one was told.
struct report_kit {
  std::string code;
  std::string kit_number;
  civil_date expires{};
  std::int64_t event{0};
};

// A window of the preparation that was confirmed as it began.
struct report_beginning {
  std::string rule;
  std::string name;
  instant at;
  std::int64_t event{0};
};

// What was told of one washout, and how many days were kept of those asked.
struct report_washout {
  std::string rule;
  std::string name;
  std::optional<washout_answer> answer; // none: nobody answered
  std::optional<civil_date> last;       // the latest day told, by the answer or by a slip
  std::optional<std::int64_t> kept_days;
  std::int64_t asked_days{0};
  std::string agreed_by; // to a pause, or to going on; empty where nobody was asked
  std::string agreed_as; // what they are: "a doctor", "not known who"; empty where nobody was asked
  std::vector<std::int64_t> events;
};

// The whole of one test. Texts are empty and moments nothing where the log does not tell.
struct report {
  bool rehearsal{false};
  bool matches_itself{true}; // the chain of hashes, the head and the summary all fit
  std::string test_id;
  std::string program; // that wrote the log
  std::string tzdata;  // the zone data it had; as told, as the program is: no hash holds them
  std::string head;    // the last event's hash
  std::size_t events{0};
  std::string name;
  std::optional<civil_date> birth_date;
  std::string doctor;
  std::string laboratory;
  std::string kit_number;
  std::string protocol_id; // empty where no test was chosen
  std::string protocol_title;
  zone place; // times are shown in the zone of the plan
  std::optional<instant> planned_start;
  std::optional<instant> anchor; // tube 1 closed
  std::optional<instant> drink_start;
  std::optional<instant> drink_end;
  bool drank_all{true};
  std::vector<symptom> symptoms;
  std::vector<report_tube> tubes;
  std::vector<report_after> after; // in their order
  std::vector<int> empty_tubes;    // of the kit, beyond the test's last sample
  std::optional<report_kit> kit;
  std::vector<report_beginning> beginnings;
  std::vector<report_washout> washouts; // in the protocol's order; empty where no test was chosen
  std::vector<finding> findings;        // the record's own consistency first

  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  report();
  report(const report&);
  report(report&&) noexcept;
  report& operator=(const report&);
  report& operator=(report&&) noexcept;
  ~report();
};

// How a log does not match its own record, by the first thing that does not; empty where it does.
[[nodiscard]] std::string mismatch_words(const read_log_result& log);

// Finds a zone by its IANA name; the shell reads the machine's zone files.
using zone_loader = std::function<result<zone>(const std::string& name)>;

// The protocols and profiles the laboratory itself uses, as canonical JSON, to hold against those
// frozen in a log. Empty lists compare nothing.
struct own_files {
  std::vector<std::string> protocols;
  std::vector<std::string> profiles;
};

// The report of a log. A zone this machine does not know is replaced by the device's own offset at
// tube 1, and that is a finding.
[[nodiscard]] report report_of(const read_log_result& log, const zone_loader& zones,
                               const own_files& own = {});

} // namespace qb::inline reports
