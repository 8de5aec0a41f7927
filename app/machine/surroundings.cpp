// Asking the system for chance and for the user's folders.
#include "app/machine/surroundings.hpp"

#include <cstdint>
#include <cstdlib>
#include <fmt/core.h>
#include <unistd.h>

namespace qb::inline machines {

std::string random_name() {
  std::uint64_t bits = 0;
  QB_BELIEVE(getentropy(&bits, sizeof bits) == 0);
  return fmt::format("{:016x}", bits);
}

result<std::string> user_data_folder(const std::string& name) {
  // The freedesktop rule: a relative XDG_DATA_HOME is to be ignored.
  if (const char* data = std::getenv("XDG_DATA_HOME"); data != nullptr && *data == '/')
    return std::string(data) + "/" + name;
  if (const char* home = std::getenv("HOME"); home != nullptr && *home != 0)
    return std::string(home) + "/.local/share/" + name;
  return tl::unexpected(
      refusal{refusal_kind::missing, "", "", "neither HOME nor XDG_DATA_HOME",
              "one of them, or the place as an option (--data DIR, --store FILE)"});
}

} // namespace qb::inline machines
