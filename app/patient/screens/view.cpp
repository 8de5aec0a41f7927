// What it costs to copy, move and end a wish is compiled here alone; and the words of a draft.
#include "app/patient/screens/view.hpp"

namespace qb::inline screens {

wish::wish() = default;
wish::wish(const wish&) = default;
wish::wish(wish&&) noexcept = default;
wish& wish::operator=(const wish&) = default;
wish& wish::operator=(wish&&) noexcept = default;
wish::~wish() = default;

const char* adviser_key(adviser a) {
  switch (a) {
  case adviser::laboratory: return "laboratory";
  case adviser::doctor: return "doctor";
  case adviser::diabetes: return "diabetes";
  case adviser::pharmacist: return "pharmacist";
  case adviser::midwife: return "midwife";
  case adviser::myself: return "myself";
  case adviser::other: return "other";
  }
  QB_BELIEVE(false);
  return "other";
}

} // namespace qb::inline screens
