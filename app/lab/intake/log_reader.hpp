// How the laboratory reads logs, which come by the thousand: a sound one at once
// (core/record/sound_log.hpp), any other as everybody reads it.
#pragma once

#include "core/record/sound_log.hpp"

#include <string>

namespace qb::lab {

// A log, and what its events add up to. Says of every text what `read_log` says.
class log_reader {
public:
  log_reader();
  [[nodiscard]] result<sound_log> read(const std::string& text);

private:
  sound_log_reader at_once_;
};

} // namespace qb::lab
