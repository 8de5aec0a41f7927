// Plays a scripted person through the real engine on a simulated clock.
// The clock moves only here, so the same script gives the same events, whatever machine plays it.
#pragma once

#include "app/rehearsal/rehearsal_script.hpp"
#include "core/session/engine.hpp"

#include <functional>
#include <string>

namespace qb::rehearsal {

// What the player needs beside the script, already read.
struct rehearsal_parts {
  std::string protocol_text;
  std::string profile_text;
  protocol test;
  zone place;
  std::string program; // name and version, as the record carries it
};

// Called after each command whose facts are durable.
using after_command = std::function<void(const engine&)>;

// Plays to the end. Refuses a script that cannot be played: a start that does not exist, a command
// the engine refuses (which would be our mistake or the script's), a keeper that cannot write.
[[nodiscard]] result<void> play(const rehearsal_script& script, const rehearsal_parts& parts,
                                engine& e, const after_command& done);

} // namespace qb::rehearsal
