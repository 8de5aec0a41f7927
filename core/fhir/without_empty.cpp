// From the leaves up, since what held only empty things is empty itself.
#include "core/fhir/without_empty.hpp"

#include <algorithm>

namespace qb::fhir {

namespace {

bool is_empty(const json::value& v) {
  if (const auto* text = v.text()) return text->empty();
  if (const auto* items = v.items()) return items->empty();
  if (const auto* members = v.members()) return members->empty();
  return v.is_null();
}

} // namespace

json::value without_empty(json::value v) {
  if (json::array* items = v.items()) {
    for (json::value& one : *items)
      one = without_empty(std::move(one));
    items->erase(std::remove_if(items->begin(), items->end(), is_empty), items->end());
  } else if (json::object* members = v.members()) {
    for (json::member& one : *members)
      one.second = without_empty(std::move(one.second));
    const auto no_value = [](const json::member& m) { return is_empty(m.second); };
    members->erase(std::remove_if(members->begin(), members->end(), no_value), members->end());
  }
  return v;
}

} // namespace qb::fhir
