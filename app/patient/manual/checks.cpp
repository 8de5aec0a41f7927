// The words of the commands that check files.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* status =
    "Exit status 2 also where one of the files is refused; the others are still\n"
    "looked at.";

constexpr const char* protocol_text =
    R"(A protocol is one file, and a test is one protocol: sugar, dose, water, the
grid of up to 24 samples, even or not, ages, what is asked and the least that
is accepted of every rule, foods, questions, warning signs, bounds, texts. Each
number names its rule and its source: a citation, common practice, our own
inference, or your own choice. What is wrong is told with line and field. The
schema is assets/schema/protocol.schema.json; a file of version 1, as
protocol-1.schema.json has it, is read too. A gas that no criterion of
assets/criteria asks about in that sugar and dose is told as not judged.

Dose, water, syrup, grid and fast are held against what is usual for the sugar
(assets/figures/sugars.json, with its sources), and the parts of the dose
against each other. What is not usual is confirmed by name in the file,
"confirmed": [{"rule": "dose", "by": "NAME"}]; what is beyond any use is
refused, and such a test is offered to nobody. --form-only leaves this out.)";

constexpr const char* profile_text =
    R"(A profile is what a laboratory chooses: its name, its telephone and when
somebody answers it, the number to dial in danger, its letters in kit codes,
the key that records are sealed to, from when a tube is early or late, how long
a parcel may take, its working days, what a finding leads to. The schema is
assets/schema/profile.schema.json; a file of version 1, as
profile-1.schema.json has it, is read too.)";

constexpr const char* told_text =
    R"(Such a file says what a person told: medicines, hours at home, days away. It is
what `earliest --told` reads. The schema is assets/schema/told.schema.json.)";

constexpr const char* log_text =
    R"(A timing log is what a test leaves: each event with its time, chained so that a
change shows. The check reads its form and works out the chain again.
--form-only leaves the second out. core/record/log.hpp tells how to do the same
without this program.)";

constexpr const char* label_text =
    R"(A sheet of labels is a file: the page, and where its labels stand, in tenths of
a millimetre. `labels --labels` takes it by its id or by its path. The schema
is assets/schema/labels.schema.json.)";

} // namespace

std::vector<help::command_page> check_pages() {
  const std::string group = "Files of yours, checked";
  const auto above = [&group](const char* kind, const char* what) {
    return help::command_page{kind, group, what, "", {}, ""};
  };
  return {
      above("protocol", "the files of tests"),
      {"protocol check",
       group,
       "whether a test's file can be used",
       protocol_text,
       {{"Two tests, one of them a laboratory's own",
         "quarterbreath protocol check assets/protocols/lactulose-10g.json \\\n"
         "  demo-data/protocols/fenwick-vale-long.json"},
        {"Against what a laboratory accepts",
         "quarterbreath protocol check assets/protocols/glucose-75g.json \\\n"
         "  --profile assets/laboratories/fenwick-vale.json"}},
       status},
      above("profile", "the files of laboratories"),
      {"profile check",
       group,
       "whether a laboratory's file can be used",
       profile_text,
       {{"The invented laboratory, and one that weighs findings its own way",
         "quarterbreath profile check assets/laboratories/fenwick-vale.json \\\n"
         "  demo-data/laboratories/own-consequences.json"}},
       status},
      above("told", "what a person told, for earliest"),
      {"told check",
       group,
       "whether what a person told can be read",
       told_text,
       {{"Both that come with it", "quarterbreath told check demo-data/told/*.json"}},
       status},
      above("log", "timing logs"),
      {"log check",
       group,
       "whether a timing log is whole and unchanged",
       log_text,
       {{"A practice record", "quarterbreath log check \\\n"
                              "  build/try/practice-quarterbreath-FV-2072.log.json"},
        {"Refused: no timing log", "quarterbreath log check demo-data/told/ask-about-one.json", 2}},
       status},
      above("label-sheet", "sheets and rolls of labels"),
      {"label-sheet check",
       group,
       "whether a sheet of labels can be printed on",
       label_text,
       {{"A sheet of 24 labels", "quarterbreath label-sheet check assets/labels/a4-70x37.json"}},
       status}};
}

} // namespace qb::patient
