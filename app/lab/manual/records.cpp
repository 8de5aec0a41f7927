// The words of `import`, `list`, `show` and `forget`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* import_text =
    R"(It takes files, folders with all below them, or - for standard input, and
without any the folder that is set up (`set-up --inbox`): timing logs
(.log.json), sheets with the log attached (.pdf), and sealed ones (.age) with
--identity. The same log twice is one log. One that grew is kept in both
versions. Of two that tell different stories both are kept and named wherever
the kit is shown; the better signed one counts, in whatever order they came,
until `which-log` says otherwise. A log without a signature, wrongly signed,
signed for another record or by the practice key, or grown under another key
than before, is told here and is a finding. A sealed file without --identity is
refused, unless it lies there unsealed too. A bad file costs one line on
standard error, and the good ones are still taken in. A log that does not match
its own record is taken in and told with the first event that does not fit;
`audit` leaves it out and says so.

On a terminal a line shows how far a long import is. What it counts at its end
is on the disk. One that was broken off is done by the same command again: it
passes over what is there already and goes on where it was.

--code takes what a hand scanner typed from the sheet or the screen, one code a
line, in any order; from standard input that is recognised by itself. A long
test has several codes, and one that is missing is named. Such a result is a
summary, and marked so until its log comes; both must agree, else the second is
set aside and what differs is said. `report`, `judge` and `worklist` work from
a code alone. When log and code are both here, `show` and `report` say whether
they agree. The code's seal can be checked only with a key that came with a
log; what was checked, and what that proves, is said. assets/schema/code.md
tells how to read a code without this program.)";

constexpr const char* list_text =
    R"(One line a test: kit, protocol, start, tubes, test's id, and what is
remarkable. Results that came as a code are listed after them. With --format
json all that is known of each.)";

constexpr const char* show_text =
    R"(It takes a kit number or a test's id, and tells who, which test, a row for each
tube with due time, closing time, lateness and symptoms, and what was noted; a
! asks for a look. Nothing is judged. A log that was edited "does not match its
own record", and the first event that does not fit is named.

The signature beside a log is shown with it: good with the key's fingerprint,
none, for another record, by the practice key, or "does not match". A good one
proves only: unchanged since export by whoever held that device. The foot of
the paper sheet bears the same fingerprint. Practice played from a script is
signed with a key that everybody has.)";

constexpr const char* forget_text =
    R"(It takes one test out of the store, by a name and with a reason: its log, code,
boxes, sheets, readings, conclusions and what was issued. Another test under the
same kit number stays. Counts stay, for the audit, and a keyed hash of the
test's id, so that the same log is refused when it comes again. One that was
concluded needs --although-concluded until your profile's retention after the
last conclusion is over. Without --sure it refuses, and says how much would go.
Copies and backups are yours to erase; so is the copy beside a store that an
earlier version made (STORE.before-1).)";

} // namespace

std::vector<help::command_page> record_pages() {
  const std::string group = "Records of tests";
  return {
      {"import",
       group,
       "take in records: logs, sheets, scanned codes",
       import_text,
       {{"Every log and sheet in a folder and below",
         "quarterbreath-lab import --rehearsals build/try"},
        {"Sealed ones too", "quarterbreath-lab import --rehearsals build/try \\\n"
                            "  --identity demo-data/keys/fenwick-vale.identity.txt"},
        {"One log from standard input", "quarterbreath-lab import --rehearsals - \\\n"
                                        "  < build/try/practice-quarterbreath-FV-2072.log.json"},
        {"What a hand scanner typed", "quarterbreath-lab import --rehearsals \\\n"
                                      "  --code demo-data/receiving/scanned.txt"}},
       "Exit status 2 also where one of the files is refused; the others are still\n"
       "taken in."},
      {"list",
       group,
       "one line a test",
       list_text,
       {{"All tests", "quarterbreath-lab list"},
        {"For a script", "quarterbreath-lab list --format json"}},
       ""},
      {"show",
       group,
       "what happened in a test: times, symptoms, what was noted",
       show_text,
       {{"All tests of a kit", "quarterbreath-lab show FV-2072"},
        {"One test by its id, for a script",
         "quarterbreath-lab show rehearsal-2480a11f962979d0 --format json"}},
       ""},
      {"forget",
       group,
       "take one test's person out of the store; counts stay",
       forget_text,
       {{"How much would go",
         "quarterbreath-lab forget FV-2072 --rehearsals \\\n"
         "  --by \"R. Ashdown\" --reason \"asked by letter\"",
         2},
        {"Do it; it cannot be taken back",
         "quarterbreath-lab forget FV-2072 --rehearsals --sure \\\n"
         "  --by \"R. Ashdown\" --reason \"asked by letter\""}},
       ""}};
}

} // namespace qb::lab
