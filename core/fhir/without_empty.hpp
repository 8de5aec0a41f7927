// FHIR's rule over JSON: nothing may be empty or null.
// So resources are put together with whatever is known, and what came to nothing is left out once,
// before they are written.
#pragma once

#include "core/base/json.hpp"

namespace qb::fhir {

// The same without what is null or empty (a text, a list, an object), also where it becomes so by
// this. Zero and false are not empty.
[[nodiscard]] json::value without_empty(json::value v);

} // namespace qb::fhir
