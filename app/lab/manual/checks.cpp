// The words of the commands that check files.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* status =
    "Exit status 2 also where one of the files is refused; the others are still\n"
    "looked at.";

constexpr const char* criterion_text =
    R"(A criterion is a file: for which sugars it was published, what rise or level by
which minute meets it, and its citation. `judge` and `report` go by all in
assets/criteria, or in the folder of --assets. The schema is
assets/schema/criteria.schema.json.)";

constexpr const char* flags_text =
    R"(Flags are what `judge` points out in a curve without judging it: a gap, a low
share of carbon dioxide. Their figures stand in one file with their sources.
The schema is assets/schema/flags.schema.json.)";

constexpr const char* findings_text =
    R"(The list of findings says of each what it leads to: note, review, or cannot be
used. A profile may say otherwise for its laboratory. The schema is
assets/schema/findings.schema.json.)";

constexpr const char* codes_text =
    R"(A list of codes says under which code of which system something goes into FHIR,
with source and licence. Yours are further files beside those in assets/codes.
The schema is assets/schema/codes.schema.json.)";

constexpr const char* columns_text =
    R"(A description of columns says which column of a hospital's own table is the kit,
the name and so on, for `requests`. The schema is
assets/schema/request-columns.schema.json.)";

constexpr const char* layout_text =
    R"(A description of an analyser's tables says which column is what and in which
unit, how moments and figures are written, what its marks mean, and what the
lines above the table tell of the run, for `readings` and `set-up`. The schema
is assets/schema/readings-layout.schema.json.)";

} // namespace

std::vector<help::command_page> check_pages() {
  const std::string group = "Files of yours, checked";
  const auto above = [&group](const char* kind, const char* what) {
    return help::command_page{kind, group, what, "", {}, ""};
  };
  return {above("criterion", "the files of criteria"),
          {"criterion check",
           group,
           "whether a criterion's file can be used",
           criterion_text,
           {{"One that comes with the program", "quarterbreath-lab criterion check \\\n"
                                                "  assets/criteria/nac-2017-h2-90.json"}},
           status},
          above("flags", "what judge points out"),
          {"flags check",
           group,
           "whether a file of flags can be used",
           flags_text,
           {{"The file of the program", "quarterbreath-lab flags check assets/flags/gases.json"}},
           status},
          above("findings", "what a finding leads to"),
          {"findings check",
           group,
           "whether a list of findings can be used",
           findings_text,
           {{"The list of the program",
             "quarterbreath-lab findings check assets/findings/findings.json"}},
           status},
          above("codes", "the codes that fhir may use"),
          {"codes check",
           group,
           "whether a list of codes can be used",
           codes_text,
           {{"All of them", "quarterbreath-lab codes check assets/codes/*.json"}},
           status},
          above("request-columns", "the columns of a table of requests"),
          {"request-columns check",
           group,
           "whether such a file can be used",
           columns_text,
           {{"The one of the demo", "quarterbreath-lab request-columns check \\\n"
                                    "  demo-data/requests/columns.json"}},
           status},
          above("readings-layout", "how an analyser's tables stand"),
          {"readings-layout check",
           group,
           "whether such a file can be used",
           layout_text,
           {{"The one of the demo", "quarterbreath-lab readings-layout check \\\n"
                                    "  demo-data/readings/bench-sheet.layout.json"}},
           status}};
}

} // namespace qb::lab
