// The words of `judge`, `override`, `conclude` and `report`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* judge_text =
    R"(Each published criterion for the test's sugar and dose is met, not met, or
cannot be determined, with the sample that decided it, the reason and how firm
it is. A gas that none is for is told as not judged. A sample closed on time
counts as that of its due minute; the answer by the strict minute stands beside
it. A sample with too little carbon dioxide stays in sight and decides nothing.
A reading of "<1" or ">200" is every figure it may be.

An answer is firm where no plausible change turns it, else each that would is
named: without the slack, times or one reading a little off, from the lowest
earlier value, without correction, by another reading of a tube, without a
sample that stands out, or with one that is missing. What is plausible is in
your profile; without that nothing is called firm.

A kit is judged from the store. A bare curve needs no store: --curve is a table
of minutes since time zero and readings in ppm, minute,h2_ppm,ch4_ppm and, if
any, co2_pct; an empty cell is a missing reading. The baseline is the first row
if its minute is 0 or less. --window-slack lets a sample count so many minutes
past a window's end.

--curves judges one JSON object a line and answers each with one. With --format
json the answers are {"criteria":[{"id","answer","minute","value","reason"}],
"flags":[...]} with more beside. Criteria and flags are files in
assets/criteria and assets/flags, each number with its source.)";

constexpr const char* override_text =
    R"(The finding stays in the report, struck, with name and reason; --withdraw lets
it stand again. Without --tube it is set aside wherever it was found. `judge`
and `report` name the rule of each finding, in brackets. What a finding leads
to (note, review, cannot be used) is in assets/findings and in your profile.)";

constexpr const char* conclude_text =
    R"(The words of a named, qualified reader; from then on a report is no draft. What
may be concluded: a box that was received, with identifiers that were compared
and agree, and with every tube read, or --lack says why not. Else only --kind
cannot-be-reported. Who and which test is shown first, and confirmed: --confirm
with the test's short id, or the same typed at a terminal. Where a laboratory is
set up only its readers may conclude, and one who made a key (`reader-key`)
signs with it.

Conclusions are numbered and stay. A later one amends or corrects, with a
--reason; the report says which it replaces. What went out with each is kept:
`report --number`. When anything comes after the last (a reading, a choice, an
override, the box, a sheet, another log, other rules), the report says what and
is a draft again, and `worklist` shows the kit for review.

Without KIT all tests that wait are shown one after the other, each with its
answers and what stands for review: a line is the words for it, = the words
before, Enter alone the next test, q the end; y confirms that it is this test.)";

constexpr const char* report_text =
    R"(One or two pages for a qualified reader: who and which test, how it was
prepared, the curve at true minutes, the table, what was found, each criterion
with its citation and how firm its answer is. It is a draft until a named
person concludes it. A profile may weigh findings otherwise; such a one is
demo-data/laboratories/own-consequences.json.

json and fhir are for other programs. fhir needs the kit's log: of a code or a
paper sheet alone there is pdf or json. In FHIR each criterion's notes say the
strict answer, how firm it is and that it is a draft, and each finding for
review stands by name. The file is KIT.report.pdf, .json or .fhir.json in this
folder, unless --out names another, or - for standard output. --number prints
again, byte for byte, what went out with that conclusion. --all writes those of
all tests that were concluded, each once for its conclusion, into the folder of
--out or the one set up (`set-up --reports`); a kit number that several tests
bear stands with the test's short id.)";

constexpr const char* letters_text =
    R"(Where it was concluded that a test cannot be reported, three papers are drafted
for a named person to read, to change and to sign: a letter to whoever was
tested, one to whoever asked for the test, and the slip by which a new kit is
made ready. They go into KIT.letters.pdf, a page each, and as plain text into
KIT.letters.txt. The reasons are the findings', in plain words, or the reader's
own where no finding tells them. Nothing in them is a diagnosis, and no medicine
is started or left out by them. What was told during the test that somebody
should see (warning signs, a stop) stands in the letter to the doctor and has to
be ticked before a new kit is sent.

`conclude --letters DIR` and `report --all` draft them too.)";

} // namespace

std::vector<help::command_page> reader_pages() {
  const std::string group = "Judging and reporting";
  return {{"judge",
           group,
           "published criteria against a kit or a bare curve",
           judge_text,
           {{"A kit of the store", "quarterbreath-lab judge FV-2072 --rehearsals"},
            {"A bare curve", "quarterbreath-lab judge --test glucose-75g \\\n"
                             "  --curve demo-data/curves/glucose-edge.csv"},
            {"A batch, a line each, with three minutes of slack",
             "quarterbreath-lab judge --window-slack 3 \\\n"
             "  --curves demo-data/curves/batch.jsonl"}},
           "Exit status 2 also where a line of --curves cannot be judged: it is answered\n"
           "with its error, the others are still judged."},
          {"override",
           group,
           "set a finding aside, with a name and a reason",
           override_text,
           {{"The finding that it is practice",
             "quarterbreath-lab override FV-2072 rehearsal --rehearsals \\\n"
             "  --by \"R. Ashdown\" --reason \"shown at a training day\""},
            {"The lateness of one tube, and that taken back",
             "quarterbreath-lab override FV-2072 sample-late --tube 4 \\\n"
             "  --rehearsals --by \"R. Ashdown\" --reason \"asked by telephone\"\n"
             "quarterbreath-lab override FV-2072 sample-late --tube 4 \\\n"
             "  --rehearsals --by \"R. Ashdown\" --reason \"misheard\" --withdraw"}},
           ""},
          {"conclude",
           group,
           "a qualified reader's words; no draft any more",
           conclude_text,
           {{"A conclusion: the test is shown, and its short id asked for",
             "quarterbreath-lab conclude FV-2072 --rehearsals \\\n"
             "  --by \"Dr L. Fennimore\" --kind cannot-be-reported \\\n"
             "  --words \"it was for training only.\"",
             2},
            {"It is this one", "quarterbreath-lab conclude FV-2072 --rehearsals \\\n"
                               "  --by \"Dr L. Fennimore\" --kind cannot-be-reported \\\n"
                               "  --words \"it was for training only.\" --confirm 2979d0"},
            {"All that wait, one after the other; q ends",
             "echo q | quarterbreath-lab conclude --rehearsals --by \"Dr L. Fennimore\""}},
           ""},
          {"report",
           group,
           "one test for a qualified reader: PDF, JSON or FHIR",
           report_text,
           {{"The pages, into FV-2072.report.pdf here",
             "quarterbreath-lab report FV-2072 --rehearsals"},
            {"For another program, on standard output",
             "quarterbreath-lab report FV-2072 --rehearsals \\\n"
             "  --format json --out -"},
            {"As FHIR, with readings and results",
             "quarterbreath-lab report FV-2072 --rehearsals \\\n"
             "  --format fhir --out build/try/FV-2072.report.fhir.json"},
            {"All that were concluded since",
             "quarterbreath-lab report --all --rehearsals --out build/try/reports"}},
           ""},
          {"letters",
           group,
           "drafts of letters, where a test cannot be reported",
           letters_text,
           {{"A test of which no tube came is concluded so",
             "quarterbreath-lab conclude FV-2072 --rehearsals --confirm 2979d0 \\\n"
             "  --by \"Dr L. Fennimore\" --kind cannot-be-reported \\\n"
             "  --words \"the box was lost.\""},
            {"Its letters, and the slip for a new kit",
             "quarterbreath-lab letters FV-2072 --rehearsals --out build/try"}},
           ""}};
}

} // namespace qb::lab
