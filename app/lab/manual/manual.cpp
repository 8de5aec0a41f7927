// The first lines of `quarterbreath-lab --help`, and how the manual is put together.
#include "app/lab/manual/manual.hpp"

#include <map>

#ifndef QB_VERSION
#error "the build passes the version"
#endif

namespace qb::lab {

namespace {

constexpr const char* opening =
    R"(Quarterbreath for the laboratory: takes in the records of breath tests at home,
says what is in each box, judges the gas readings and writes the report.)";

constexpr const char* text =
    R"(All is kept in one file, the store: ~/.local/share/quarterbreath-lab/store.db
(or below XDG_DATA_HOME), store.db in --data DIR, or the file of --store. What
keeps something makes the store where there is none: import, receive, paper,
requests and set-up.

Practice is refused, unless --rehearsals takes it; then every output is marked.
Choices of yours, such as how late is late, are in your laboratory's profile.
`set-up` tells the store once which that is, with zone and people; until then it
is an invented laboratory's, for trying, and every output is marked as that.
[...] behind an option is what counts without it.

Answers go to standard output. A message goes to standard error, in one line:
file, place, what was found, what was expected, and no personal data.

The examples run as they stand in the folder of this project, after those
above, once
  export PATH=$PWD/build/release:$PATH XDG_DATA_HOME=$PWD/build/try
has been typed, which also keeps your own store out of them.)";

// One word for one thing, whatever the command.
std::map<std::string, std::string> values() {
  return {{"--add", "PERSON"},
          {"--assets", "DIR"},
          {"--born", "DATE"},
          {"--box", "BOX"},
          {"--by", "NAME"},
          {"--columns", "FILE"},
          {"--confirm", "WHAT"},
          {"--count", "COUNT"},
          {"--criterion", "CRITERION"},
          {"--csv", "FILE"},
          {"--curve", "FILE"},
          {"--curves", "FILE"},
          {"--data", "DIR"},
          {"--expires", "DATE"},
          {"--first", "SERIAL"},
          {"--format", "FORM"},
          {"--hospital-number", "NUMBER"},
          {"--identity", "FILE"},
          {"--kind", "KIND"},
          {"--kit", "KIT"},
          {"--lack", "WHY"},
          {"--layout", "FILE"},
          {"--inbox", "DIR"},
          {"--tables", "DIR"},
          {"--reports", "DIR"},
          {"--leaves", "NAME"},
          {"--letters", "DIR"},
          {"--log", "SHA-256"},
          {"--lot", "LOT"},
          {"--name", "NAME"},
          {"--now", "MOMENT"},
          {"--number", "NUMBER"},
          {"--order", "NUMBER"},
          {"--out", "FILE"},
          {"--passphrase", "FILE"},
          {"--person", "PERSON"},
          {"--posted", "DATE"},
          {"--profile", "LAB"},
          {"--protocol", "TEST"},
          {"--reading", "NUMBER"},
          {"--reason", "WHY"},
          {"--run", "RUN"},
          {"--serial", "SERIAL"},
          {"--sheet", "NUMBER"},
          {"--store", "FILE"},
          {"--test", "TEST"},
          {"--to", "KIT"},
          {"--to-tube", "TUBE"},
          {"--tube", "TUBE"},
          {"--tube-codes", "FILE"},
          {"--used-profile", "LAB"},
          {"--window-slack", "MINUTES"},
          {"--words", "WORDS"},
          {"--zone", "ZONE"}};
}

void append(std::vector<help::command_page>& all, std::vector<help::command_page> some) {
  all.insert(all.end(), some.begin(), some.end());
}

help::command_page about_the_manual() {
  return {"man",
          "The manual",
          "the whole manual, as a man page",
          "It is in the form that man reads, and is made from the same words as each\n"
          "command's --help.",
          {{"Read it", "quarterbreath-lab man | man -l -"},
           {"Print it, where groff can make PDF or PostScript",
            "quarterbreath-lab man | groff -man -T ps > build/try/manual.ps"}},
          ""};
}

} // namespace

help::manual whole_manual() {
  help::manual m;
  m.program = "quarterbreath-lab";
  m.version = QB_VERSION;
  m.in_short = "takes in breath tests made at home, judges and reports them";
  m.opening = opening;
  m.text = text;
  m.other = "quarterbreath";
  m.examples = {{"A practice record, made here from a script",
                 "quarterbreath rehearse --out build/try \\\n"
                 "  demo-data/rehearsals/late-and-missed.json"},
                {"Take it in, and look at it", "quarterbreath-lab import --rehearsals build/try\n"
                                               "quarterbreath-lab show FV-2072"},
                {"What a command does, with its examples", "quarterbreath-lab receive --help"},
                {"The whole manual", "quarterbreath-lab man | man -l -"}};
  m.values = values();
  append(m.pages, record_pages());
  append(m.pages, receiving_pages());
  append(m.pages, list_pages());
  append(m.pages, reader_pages());
  append(m.pages, system_pages());
  append(m.pages, care_pages());
  append(m.pages, own_pages());
  append(m.pages, bench_pages());
  append(m.pages, check_pages());
  m.pages.push_back(about_the_manual());
  m.topics = topics();
  return m;
}

} // namespace qb::lab
