// The first lines of `quarterbreath --help`, and how the manual is put together.
#include "app/patient/manual/manual.hpp"

#include <map>

#ifndef QB_VERSION
#error "the build passes the version"
#endif

namespace qb::patient {

namespace {

constexpr const char* opening =
    R"(Quarterbreath leads one person through a breath test at home: it plans the days
before, says when to blow and what to write on each tube, and keeps the record
for the laboratory. Without a command it opens the window.)";

constexpr const char* text =
    R"(The commands open no window. They answer on standard output, as text or, with
--format json, for scripts. A message goes to standard error, in one line:
file, place, what was found, what was expected, and no personal data.

The examples run as they stand in the folder of this project, after the first
ones of quarterbreath-lab, once
  export PATH=$PWD/build/release:$PATH XDG_DATA_HOME=$PWD/build/try
has been typed, which also keeps your own records out of them.)";

// One word for one thing, whatever the command.
std::map<std::string, std::string> values() {
  return {{"--assets", "DIR"},      {"--born", "DATE"},      {"--calendar", "FILE"},
          {"--data", "DIR"},        {"--doctor", "NAME"},    {"--drives", "DIR"},
          {"--fold", "WHICH"},      {"--format", "FORM"},    {"--identity", "NAME"},
          {"--kit", "KIT"},         {"--labels", "SHEET"},   {"--laboratory", "LAB"},
          {"--log", "FILE"},        {"--look", "LOOK"},      {"--made-at", "MOMENT"},
          {"--name", "NAME"},       {"--now", "MOMENT"},     {"--offset-x", "TENTHS"},
          {"--offset-y", "TENTHS"}, {"--out", "DIR"},        {"--outline", "FILE"},
          {"--page", "FILE"},       {"--pictures", "DIR"},   {"--profile", "LAB"},
          {"--protocol", "TEST"},   {"--sequence", "COUNT"}, {"--size", "SIZE"},
          {"--start", "MOMENT"},    {"--start-at", "LABEL"}, {"--taking", "RULE"},
          {"--told", "FILE"},       {"--zone", "ZONE"}};
}

void append(std::vector<help::command_page>& all, std::vector<help::command_page> some) {
  all.insert(all.end(), some.begin(), some.end());
}

} // namespace

help::manual whole_manual() {
  help::manual m;
  m.program = "quarterbreath";
  m.version = QB_VERSION;
  m.in_short = "plans, times and records a breath test at home";
  m.opening = opening;
  m.text = text;
  m.other = "quarterbreath-lab";
  m.examples = {{"The window, for the patient", "quarterbreath"},
                {"The window, to practise on a faster clock", "quarterbreath --rehearsal"},
                {"What a command does, with its examples", "quarterbreath plan --help"},
                {"The whole manual", "quarterbreath man | man -l -"}};
  m.values = values();
  append(m.pages, planning_pages());
  append(m.pages, paper_pages());
  append(m.pages, record_pages());
  append(m.pages, check_pages());
  m.pages.push_back({"man",
                     "The manual",
                     "the whole manual, as a man page",
                     "It is in the form that man reads, and is made from the same words as each\n"
                     "command's --help.",
                     {{"Read it", "quarterbreath man | man -l -"},
                      {"Keep it where man looks for it",
                       "mkdir -p build/try/man/man1\n"
                       "quarterbreath man > build/try/man/man1/quarterbreath.1\n"
                       "man -M build/try/man quarterbreath"}},
                     ""});
  m.topics = window_topics();
  for (help::topic& one : record_topics())
    m.topics.push_back(std::move(one));
  return m;
}

} // namespace qb::patient
