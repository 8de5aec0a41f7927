// The words of `erase` and `rehearse`.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* erase_text =
    R"(Without --sure nothing is erased: it tells what would go. With --sure the
test's record goes, the copies of it in the folder beside the records, and all
practice. Other tests stay. What is on a drive, in a telephone or with others
stays there, and what the laboratory has. --data names the folder of the tests
where it is not the usual one.

The record is sealed under a key of its own, two small files beside it. They are
overwritten first: what is left of the record anywhere is noise from then on.
Then all that goes is overwritten where it lies, and its blocks are given back
to the file system to discard. No program can promise more: a file system's own
journal, snapshots and backups, and a flash disk that moves what is written to
it, may keep old copies and names of files, of that key too.)";

constexpr const char* rehearse_text =
    R"(A script tells what a person does and when: what is told, which tube is late or
missed, when the power fails. It is played through the same rules and the same
journal as a real test, on a simulated clock, and leaves the same files: the
timing log, its signature, the samples as a table, the sheet, and the sheet
sealed to the laboratory. All are marked as practice. The same script gives the
same files, byte for byte; they are signed with a key that everybody has.

demo-data/rehearsals has a script for all that may happen. A record in the
folder from an earlier run of it is begun anew.)";

} // namespace

std::vector<help::command_page> record_pages() {
  const std::string group = "Records";
  return {{"erase",
           group,
           "take a test off this device, for good",
           erase_text,
           {{"What would go", "quarterbreath erase FV-2072"},
            {"Do it; it cannot be taken back", "quarterbreath erase FV-2072 --sure"}},
           ""},
          {"rehearse",
           group,
           "play a scripted person on a simulated clock",
           rehearse_text,
           {{"A test in which everything goes well",
             "quarterbreath rehearse demo-data/rehearsals/clean.json \\\n"
             "  --out build/try/clean"},
            {"One in which the power fails, told write by write",
             "quarterbreath rehearse demo-data/rehearsals/power-cut.json \\\n"
             "  --out build/try/power-cut --confirm"}},
           ""}};
}

} // namespace qb::patient
