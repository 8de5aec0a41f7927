// Every kit of the store with what is known of it, one after the other: what worklist, audit and
// export go through.
#pragma once

#include "app/lab/context/lab_context.hpp"

#include <functional>

namespace qb::lab {

// Calls `each` with every kit that has a box, a record or a reading, by kit number. Practice only
// where it was asked for. Stops at the first refusal and answers it.
[[nodiscard]] result<void>
every_kit(const lab_context& at,
          const std::function<result<void>(const received_kit&, const known_kit&)>& each);

} // namespace qb::lab
