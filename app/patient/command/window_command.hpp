// Opens the patient's window and runs it until it is closed.
#pragma once

#include <string>
#include <vector>

namespace qb::patient {

// The options of the window.
struct window_command_options {
  std::string data; // folder of the device's tests; empty: the user's data folder
  std::string assets;
  std::string profile;
  std::string outline; // file that mirrors what is drawn; empty for none
  std::string size;    // "360x640"; empty for the usual
  std::string shots;   // folder for one picture of each new screen; empty for none
  std::string look{"light"};
  std::vector<std::string> drives; // folders below which drives appear; empty: the system's
  bool rehearsal{false};
  bool fullscreen{false};
};

// Exit status: 0 closed, 2 refused, 1 no display or another failure of the machine.
[[nodiscard]] int window_command(const window_command_options& o);

} // namespace qb::patient
