// Every kit of the store with what is known of it, one after the other: what worklist, audit and
// export go through.
#pragma once

#include "app/lab/desk.hpp"

#include <functional>

namespace qb::lab {

// Calls `each` with every kit that has a box, a record or a reading, by kit number. Practice only
// where it was asked for. Stops at the first refusal and answers it.
[[nodiscard]] result<void>
every_kit(const desk& at,
          const std::function<result<void>(const bench_kit&, const known_kit&)>& each);

} // namespace qb::lab
