// What a program tells of its commands, as data. `--help` and the man page are both made from this
// and from CLI11's own list of options, so that neither says what the other does not know.
//
// Texts are plain ASCII: paragraphs with an empty line between them. A line that begins with a
// blank stands as it is, for tables. No line is longer than a terminal of 80 columns.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace qb::help {

// Something to be typed as it stands, and what it is good for. Each line is a command of its own,
// but for those that end in a backslash, which go on in the next.
struct example {
  std::string what;
  std::string commands;
  int status{0}; // what each of them ends with; another than 0 is told
};

// All that is told of one command.
struct command_page {
  std::string command; // as it is typed, "log check"
  std::string group;   // the heading it stands under in the program's help
  std::string summary; // one line, without an end stop
  std::string text;
  std::vector<example> examples;
  std::string status; // what an exit status means beyond what it always means; may be empty
};

// What is about no single command; stands in the man page alone.
struct topic {
  std::string title;
  std::string text;
  std::vector<example> examples;
};

// All that is told of one program.
struct manual {
  std::string program;
  std::string version;
  std::string in_short; // one line, for the man page's NAME
  std::string opening;  // what the program is for: the first lines of its help
  std::string text;     // what else its help says, after the options
  std::vector<example> examples;
  // What stands for an option's value, by the option ("--zone": "ZONE"), or by command and option
  // ("import --identity") where the same word means something else there.
  std::map<std::string, std::string> values;
  std::vector<command_page> pages;
  std::vector<topic> topics;
  std::string other; // the other program's man page
};

// Said in every help and once in a man page.
inline constexpr const char* exit_statuses =
    "0 done; 2 input or options were refused; 1 the machine failed.";

} // namespace qb::help
