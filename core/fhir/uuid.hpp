// Names made of names: UUID version 5 (RFC 4122, section 4.3) and the SHA-1 it is defined with.
// The same log must give the same bundle, byte for byte, so nothing in it may be drawn by chance.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace qb::fhir {

// SHA-1 (FIPS 180-4). For names only: it protects nothing.
[[nodiscard]] std::array<std::uint8_t, 20> sha1(std::string_view bytes);

// "2ed6657d-e927-568b-95e1-2665a8aea6a2": the UUID of a name that is a URL (the RFC's own
// namespace for them).
[[nodiscard]] std::string uuid_of_url(std::string_view url);

} // namespace qb::fhir
