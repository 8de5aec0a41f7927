// By libuuid, and of it only what follows from its arguments: it can also ask chance and the clock.
#include "core/fhir/uuid.hpp"

#include <array>
#include <uuid/uuid.h>

namespace qb::fhir {

std::string uuid_of_url(std::string_view url) {
  uuid_t id;
  uuid_generate_sha1(id, *uuid_get_template("url"), url.data(), url.size());
  std::array<char, UUID_STR_LEN> text{};
  uuid_unparse_lower(id, text.data());
  return text.data();
}

} // namespace qb::fhir
