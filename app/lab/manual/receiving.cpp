// The words of `receive`, `paper`, `readings`, `choose`, `assign` and `take-back`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* receive_text =
    R"(A loop at a scanner or keyboard: a kit first, by its number, its kit code, a
tube's label or the scanned code text, then its box in a few words. ? shows the
words, q ends. Kit numbers may be typed in small letters; a kit code whose
check character does not fit is refused.

  y n                   the two identifiers are the request's, or are not
  -7                    tube 7 is not in the box
  !4                    the lid of tube 4 is bad
  +11                   one more tube, which bears the number 11
  4@08:16               the label of tube 4 says 08:16
  arrived 2027-04-09 09:40    when it came; else now
  posted 2027-04-07     by the postmark
  tested 2027-04-06     by the sheet
  whole  partial        the test was completed, or was not, by the sheet
  stopped               stopped, or vomited, by the sheet
  lactulose-10g         the test, where nothing else tells it
  lot L7                the lot that stands on the box
  expires 2027-12-31    its last day of use
  stored cool           how the tubes lay, by the sheet: room, cool,
                        warm or frozen

  who NAME, born DATE, hospital NUMBER, order NUMBER
                        a line of its own: whose the label says it is

An empty line says: all tubes are here, nobody compared the identifiers. A line
that begins with "paper", and the test's id if nothing else tells it, is a
paper sheet (see `paper`).

A kit that is well costs a scan and two keys: y and Enter. Its test is known
from its log, its kit code or the register of issued kits, and --posted tells
the day of the postmark once for all boxes that are not told another.

The kit's first line says who (to hold against the request), which test, when
and how long ago, whether it was completed, whether stopping or vomiting was
told, and whether the log is here; it may come before, after or never. That the
box came is kept at once, the rest with the next Enter: a kill loses nothing
that was answered. A tube's own label (FV-2072-04) opens its kit and ticks that
tube; tubes scanned one by one are kept at once, and the kit is opened again to
go on. --tube-codes lets the maker's codes on tubes be scanned, here and in
`readings`.

Told are tubes that are missing, extra or there twice, labels that are not the
record's, a pair that seems swapped, boxes posted too late or too long on their
way; how near and how long is your profile's and the protocol's; a label that
names another person than the record. A number that two tests bear is shown with
both, and a line with a test's id opens that one. Then what the
record tells, a line each: stopped, warning signs, drink first or late, a log
that does not match itself, a signature that does not hold.)";

constexpr const char* paper_text =
    R"(A sheet that came without a log, in one line: the day, a time for each tube or
-, and the drink or ?. Scores may follow, one group a tube in the order of the
sheet's columns; - is one not given:

  2027-04-06 07:30 07:45 - 08:15 ... drink 07:32-07:34
  scores 000 100 1-0 - 5/2/1 ... A@10:45 200 B -

A and B are the sheet's rows after the tubes, each with the time that is written
there, if one is.

Times past midnight, of a 12-hour clock, or out of order are asked about:
refused, with the question, until --confirm names what is meant. A second sheet
that differs is asked about too (--confirm replaces); both stay kept, the later
counts, and a finding says so. The times stay "patient-written, to the minute".

A sheet is a test of its own, with an id, until a log of the same day comes that
two identifiers make the same person's (--name, --born, --hospital-number,
--order), or somebody says so (`assign`).)";

constexpr const char* readings_text =
    R"(A table is taken whole or not at all. Its columns are kit, tube, h2_ppm,
ch4_ppm, measured_at and, if any, co2_pct and mark, with commas, semicolons or
tabs between them. Decimal points or commas: one for the whole table, and a
figure that could be read two ways ("1,234") is refused. "<1" and ">200" are
kept as such. A mark is "invalid" or nothing. What cannot be is refused with
its line; so is a reading of a time to come. What run they are of stands in
columns run, analyser, calibration and control ("passed" or "failed"), or once
in lines above the header ("run,R-0412"). Who took them in, and when, is kept.

An analyser's own table is read as it is, by a file that describes it: --layout,
or the one that `set-up --layout` names. Nobody edits a file of raw readings.
`readings check` shows how a file is read, and takes nothing in; --layout plain
reads a plain table all the same. Without FILE each new table (.csv) of the
folder that `set-up --tables` names is taken in, by name, each once.

Raw values stay. They are judged corrected to your profile's share of carbon
dioxide where it was measured, up to its greatest factor. A tube with too little
of it, or marked invalid, decides nothing and stays in sight. A second reading
of a tube is kept beside the first and asked about: `choose` answers. Where two
tests bear a kit number, --test says whose its readings are.)";

constexpr const char* readings_check_text =
    R"(Each row as it would be kept, with its line in the file, and the run above
it; or what is wrong, by line and column, in the file's own names. Nothing is
held against the store, and nothing is taken in.)";

constexpr const char* choose_text =
    R"(Each reading has a number, which `readings` tells when a tube was read more
than once. The first counts until somebody chooses. All stay kept, and a report
says who chose, and why.)";

constexpr const char* assign_text =
    R"(Every box, sheet, reading and decision belongs to the one test that it was
entered for. A second test under a kit number stops the kit: what no test was
known for is nobody's, nothing is reported as sound and nothing concluded, until
a named person says whose it is. Without --test all tests of the number are
shown side by side, with the numbers of their boxes and sheets. --test takes a
test's id or its short one; everything of nobody's goes to it, or the one --box,
--sheet or --reading that is named. A sheet that is said to be a log's takes
along what was entered for it.)";

constexpr const char* take_back_text =
    R"(What was told by mistake counts no more: the bad lid, the absence, the label or
one extra tube of that number (lid, absence, label, extra), a reading, choice,
sheet, scan or box entry of that number. A reading may be moved to another tube
or kit instead. All stays in the store, with who said so and why; --stands lets
it count again. A finding is set aside by `override`, a conclusion amended by
another.)";

// What a named person says of rows that are there.
std::vector<help::command_page> ruling_pages(const std::string& group) {
  return {
      {"assign",
       group,
       "whose a box is, where two tests bear its kit number",
       assign_text,
       {{"The tests of a number, side by side", "quarterbreath-lab assign FV-2072 --rehearsals"},
        {"All of nobody's is of the one test",
         "quarterbreath-lab assign FV-2072 --rehearsals \\\n"
         "  --test rehearsal-2480a11f962979d0 --by \"R. Ashdown\" \\\n"
         "  --reason \"the name on the label is that of the log\""}},
       ""},
      {"take-back",
       group,
       "what was told by mistake, or of the wrong tube",
       take_back_text,
       {{"The lid of tube 4 was well",
         "quarterbreath-lab receive --by \"R. Ashdown\" --rehearsals \\\n"
         "  --zone Europe/London --now \"2027-04-12 09:55\" \\\n"
         "  --kit FV-2072 --box \"y !4\"\n"
         "quarterbreath-lab take-back FV-2072 lid 4 --rehearsals \\\n"
         "  --by \"R. Ashdown\" --reason \"it was tube 4 of the next box\""}},
       ""}};
}

// Of the analyser's tables.
std::vector<help::command_page> readings_pages(const std::string& group) {
  return {{"readings",
           group,
           "a table of gas readings: all of it or nothing",
           readings_text,
           {{"From a file", "quarterbreath-lab readings demo-data/readings/morning.csv \\\n"
                            "  --by \"R. Ashdown\" --rehearsals \\\n"
                            "  --zone Europe/London --now \"2027-04-12 12:00\""},
            {"From another program, over standard input",
             "quarterbreath-lab readings - --by \"R. Ashdown\" --rehearsals \\\n"
             "  --zone Europe/London --now \"2027-04-12 15:00\" \\\n"
             "  < demo-data/readings/again.csv"},
            {"The same as an analyser wrote it, by its description",
             "quarterbreath-lab readings demo-data/readings/bench-sheet.csv \\\n"
             "  --layout demo-data/readings/bench-sheet.layout.json \\\n"
             "  --by \"R. Ashdown\" --rehearsals --zone Europe/London \\\n"
             "  --now \"2027-04-12 15:30\""}},
           ""},
          {"readings check",
           group,
           "how a table is read, without taking it in",
           readings_check_text,
           {{"An analyser's own table", "quarterbreath-lab readings check \\\n"
                                        "  demo-data/readings/bench-sheet.csv \\\n"
                                        "  --layout demo-data/readings/bench-sheet.layout.json"}},
           ""}};
}

} // namespace

std::vector<help::command_page> receiving_pages() {
  const std::string group = "A day at the bench";
  std::vector<help::command_page> all = {
      {"receive",
       group,
       "boxes as they come, from a scanner or keyboard",
       receive_text,
       {{"At the keyboard", "quarterbreath-lab receive --by \"R. Ashdown\""},
        {"A morning's boxes, typed beforehand",
         "quarterbreath-lab receive --by \"R. Ashdown\" --rehearsals \\\n"
         "  --zone Europe/London --now \"2027-04-12 09:40\" \\\n"
         "  < demo-data/receiving/morning.txt"},
        {"One box, for a script", "quarterbreath-lab receive --by \"R. Ashdown\" --rehearsals \\\n"
                                  "  --zone Europe/London --now \"2027-04-12 09:50\" \\\n"
                                  "  --kit FV-2072 --box \"y posted 2027-04-07 -9 5@08:36\""}},
       ""},
      {"paper",
       group,
       "the times of a sheet that came on paper alone",
       paper_text,
       {{"A sheet without tube 4", "quarterbreath-lab paper FV-2045 --test lactulose-10g \\\n"
                                   "  \"2027-04-06 07:30 07:45 08:00 - 08:30 08:45 09:00 09:15 \\\n"
                                   "   09:30 09:45 drink 07:32-07:34\" --by \"R. Ashdown\" \\\n"
                                   "  --zone Europe/London --now \"2027-04-12 10:00\""},
        {"Asked about: is 1:00 an hour after noon?",
         "quarterbreath-lab paper FV-2046 --test lactulose-10g \\\n"
         "  \"2027-04-06 12:30 12:45 1:00 1:15 1:30 1:45 2:00 2:15 \\\n"
         "   2:30 2:45 drink ?\" --by \"R. Ashdown\" \\\n"
         "  --zone Europe/London --now \"2027-04-12 10:10\"",
         2},
        {"It is", "quarterbreath-lab paper FV-2046 --test lactulose-10g \\\n"
                  "  \"2027-04-06 12:30 12:45 1:00 1:15 1:30 1:45 2:00 2:15 \\\n"
                  "   2:30 2:45 drink ?\" --by \"R. Ashdown\" --confirm twelve-hours \\\n"
                  "  --zone Europe/London --now \"2027-04-12 10:10\""}},
       ""}};
  for (help::command_page& one : readings_pages(group))
    all.push_back(std::move(one));
  all.push_back({"choose",
                 group,
                 "which of several readings of one tube counts",
                 choose_text,
                 {{"Tube 6 was read twice: its readings are told, and the second chosen",
                   "quarterbreath-lab readings demo-data/readings/morning.csv \\\n"
                   "  --by \"R. Ashdown\" --rehearsals \\\n"
                   "  --zone Europe/London --now \"2027-04-12 12:30\"\n"
                   "quarterbreath-lab readings demo-data/readings/again.csv \\\n"
                   "  --by \"R. Ashdown\" --rehearsals \\\n"
                   "  --zone Europe/London --now \"2027-04-12 15:00\"\n"
                   "quarterbreath-lab choose FV-2072 6 10 --by \"R. Ashdown\" \\\n"
                   "  --reason \"the first was read during a draught\" --rehearsals"}},
                 ""});
  for (help::command_page& one : ruling_pages(group))
    all.push_back(std::move(one));
  return all;
}

} // namespace qb::lab
