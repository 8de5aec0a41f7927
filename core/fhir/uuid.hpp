// Names made of names: UUID version 5 (RFC 4122, section 4.3).
// The same log must give the same bundle, byte for byte, so nothing in it may be drawn by chance.
#pragma once

#include <string>
#include <string_view>

namespace qb::fhir {

// "2ed6657d-e927-568b-95e1-2665a8aea6a2": the UUID of a name that is a URL (the RFC's own
// namespace for them).
[[nodiscard]] std::string uuid_of_url(std::string_view url);

} // namespace qb::fhir
