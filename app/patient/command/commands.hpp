// The patient program's headless commands: each reads, answers on standard output, and returns an
// exit status (0 done, 2 input refused, 1 the machine failed).
#pragma once

#include <string>
#include <vector>

namespace qb {

// Options every command shares.
struct shared_options {
  std::string assets; // folder of data files
  std::string format{"text"};
};

struct plan_options {
  std::string protocol;
  std::string start;
  std::string zone;
  std::string fold;
  std::string profile;
};
[[nodiscard]] int plan_command(const shared_options& shared, const plan_options& o);

struct rehearse_options {
  std::string script;
  std::string out;
  bool confirm{false}; // say each durable event on standard error
};
[[nodiscard]] int rehearse_command(const shared_options& shared, const rehearse_options& o);

// Reads each file with the strict reader of its kind ("protocol", "profile" or "log") and prints
// one line a file. With `form_only` a log that was edited but is well formed is good: its hashes
// and its summary are not compared with its events.
[[nodiscard]] int check_command(const std::string& kind, const std::vector<std::string>& files,
                                bool form_only);

// Prints the refusal's sentence on standard error; answers the exit status.
struct refusal;
[[nodiscard]] int say_no(const refusal& no);

// "quarterbreath 0.1.0"
[[nodiscard]] std::string program_name();

} // namespace qb
