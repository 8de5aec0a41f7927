// The words of `labels` and `sheet`.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* labels_text =
    R"(Either the labels are printed before the test, for the person and the kit that
the options name, with date and time to be written by hand; or afterwards, from
a record's timing log, with the times that are known.

The sheets and rolls are files in assets/labels, and `label-sheet check` says
what is wrong in yours. First print the test page at 100 % and measure its
rule. --offset-x and --offset-y then move everything, in tenths of a
millimetre; --start-at begins on a sheet that was used before.

Each label has a DataMatrix of kit and tube (FV-2C7H-04). A doctor's name that
is too long for the label ends in three dots, and that is told; a person's name
is never cut. A file that is already there and says something else is left
alone. --made-at is the moment the file carries, for a file that is the same
byte for byte.)";

constexpr const char* sheet_text =
    R"(With --empty it is a sheet to be filled in with a pen, enough for the whole
test if the device fails; with --start and --zone the planned times stand in
it. From a record's timing log it is the sheet that goes with the tubes: the
times, the scores, what was noted, the log's fingerprint and the result as a
code.

A file that is already there and says something else is left alone.)";

} // namespace

std::vector<help::command_page> paper_pages() {
  const std::string group = "Paper, as PDF";
  const std::string log = "build/try/practice-quarterbreath-FV-2072.log.json";
  return {{"labels",
           group,
           "labels for the tubes, on a sheet or a roll",
           labels_text,
           {{"A page to hold over the labels, with a rule to measure",
             "quarterbreath labels --test-page --labels a4-38x21 \\\n"
             "  --page build/try/test-page.pdf"},
            {"Before a test, on a sheet of which three labels are gone",
             "quarterbreath labels --protocol lactulose-10g --kit FV-2C7H \\\n"
             "  --name \"Maren Oakhollow\" --born 1957-02-11 \\\n"
             "  --doctor \"Dr Ivo Brandreth\" --labels a4-70x37 --start-at 4 \\\n"
             "  --offset-x -3 --offset-y 5 --page build/try/labels.pdf"},
            {"After a test, with its times and the kit number alone",
             "quarterbreath labels --labels roll-51x25 --nameless \\\n"
             "  --log " +
                 log +
                 " \\\n"
                 "  --page build/try/roll.pdf"}},
           ""},
          {"sheet",
           group,
           "the symptom and sample sheet, empty or of a record",
           sheet_text,
           {{"For a pen, with the planned times",
             "quarterbreath sheet --empty --protocol lactulose-10g \\\n"
             "  --kit FV-2C7H --start \"2027-04-06 07:30\" --zone Europe/London \\\n"
             "  --page build/try/empty.pdf"},
            {"Of a record", "quarterbreath sheet --page build/try/sheet.pdf \\\n"
                            "  --log " +
                                log}},
           ""}};
}

} // namespace qb::patient
