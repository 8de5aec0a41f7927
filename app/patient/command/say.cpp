// How the commands without a window say no, and the program's own name.
#include "app/patient/command/say.hpp"
#include "app/patient/command/commands.hpp"
#include "core/base/result.hpp"

#include <fmt/core.h>

#ifndef QB_VERSION
#error "the build passes the version"
#endif

namespace qb::patient {

int say_no(const refusal& no) {
  note("quarterbreath: {}\n", sentence(no));
  return exit_status(no);
}

std::string program_name() {
  return "quarterbreath " QB_VERSION;
}

} // namespace qb::patient
