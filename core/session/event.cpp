// A fact of any kind as one value: what it costs to copy, move and end it is compiled here alone.
#include "core/session/event.hpp"

namespace qb::inline sessions {

payload::payload() = default;
payload::payload(const payload&) = default;
payload::payload(payload&&) noexcept = default;
payload& payload::operator=(const payload&) = default;
payload& payload::operator=(payload&&) noexcept = default;
payload::~payload() = default;

} // namespace qb::inline sessions
