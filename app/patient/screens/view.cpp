// What it costs to copy, move and end a wish is compiled here alone.
#include "app/patient/screens/view.hpp"

namespace qb {

wish::wish() = default;
wish::wish(const wish&) = default;
wish::wish(wish&&) noexcept = default;
wish& wish::operator=(const wish&) = default;
wish& wish::operator=(wish&&) noexcept = default;
wish::~wish() = default;

} // namespace qb
