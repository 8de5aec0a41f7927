// The words of `fhir`, `export` and `kit-code`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* fhir_text =
    R"(A test as FHIR R4 (4.0.1), one Bundle of the type collection: a Specimen a tube
with its true time, an Observation a symptom and tube, the drink, the answers,
the program, and who says so; corrections stay visible as corrections. A missed
tube is an unavailable Specimen without a time, a skipped score has a reason
and no value.

All is named by the test, whose number stands for the person; the kit number is
on the tubes' containers. --with-name adds name and birth date.
What the person wrote in their own words is passed on as it is. Of a kit with
several tests, name the test by its id. Practice is marked in every resource.
Codes of LOINC, SNOMED CT, HL7 and UCUM stand in assets/codes with source and
licence; your own can be added, and `codes check` reads them. What has no code
is in words. The readings are in `report --format fhir`.)";

constexpr const char* export_text =
    R"(Into the folder: tests.csv and tubes.csv, a row a test and a row a tube, and
fhir.ndjson, a bundle a line, all without names and birth dates; the tables
without anybody's own words too. A cell that a spreadsheet would run is
disarmed, and one that it would take for another figure or a date (kit 007)
keeps its letters by an apostrophe. In FHIR a gas that was corrected says so,
with what was measured. app/lab/render/export_rows.hpp tells the columns. --new
leaves out the tests of which nothing changed since they were exported last. All
three are written, or none. Here and in every command that writes a file, one
that this program wrote is replaced, another only with --replace; the store, a
record, a key, a link or a device never; a report that was concluded is not
replaced by a draft without --replace.)";

constexpr const char* kit_code_text =
    R"(A kit code goes on the box: twelve characters with kit number, test,
laboratory, last day and a check character. None that is mistaken for another
is used. It prints a line a kit: the code, the kit number, the test, the last
day. --serial makes one, --first and --count a row of them.

Where a laboratory is set up, or --by says who, they are kept as issued, with
their lot, before they are printed; a number twice is refused. From then on
receive, paper, readings, requests and import ask about a kit that was never
issued, name the nearest one, and take it only with --not-issued. Without either
no store is needed, and nothing is asked; receive and paper then tell where a
number is one slip from a kit whose record is here and whose box is not.)";

} // namespace

std::vector<help::command_page> system_pages() {
  const std::string group = "For other systems, and for the boxes";
  return {
      {"fhir",
       group,
       "one test as a FHIR R4 bundle",
       fhir_text,
       {{"On standard output", "quarterbreath-lab fhir FV-2072 --rehearsals"},
        {"Into a file, with the person's name",
         "quarterbreath-lab fhir FV-2072 --rehearsals --with-name \\\n"
         "  --out build/try/FV-2072.fhir.json"}},
       ""},
      {"export",
       group,
       "everything for a data warehouse, without names",
       export_text,
       {{"All tests, practice too", "quarterbreath-lab export build/try/warehouse --rehearsals"}},
       ""},
      {"kit-code",
       group,
       "kit codes for the boxes, one a line",
       kit_code_text,
       {{"Fifty kits of one test", "quarterbreath-lab kit-code --protocol lactulose-10g \\\n"
                                   "  --first 2222 --count 50 --expires 2027-12-31"},
        {"One kit", "quarterbreath-lab kit-code --protocol lactose-25g \\\n"
                    "  --serial 2C7H --expires 2027-12-31"},
        {"Kept as issued", "rm -f build/try/issued.db\n"
                           "quarterbreath-lab kit-code --protocol lactose-25g \\\n"
                           "  --serial 2C7J --expires 2027-12-31 --lot L7 --by ra \\\n"
                           "  --store build/try/issued.db"}},
       ""}};
}

} // namespace qb::lab
