// A disk: every write has answered for itself before it returned.
#include "app/machine/durable.hpp"

namespace qb::inline machines {

written_mark own_durable::all_written() {
  return 0;
}

bool own_durable::is_durable(written_mark) const {
  return true;
}

std::optional<refusal> own_durable::failure() const {
  return std::nullopt;
}

void own_durable::back_to_durable(const std::string&) {}

} // namespace qb::inline machines
