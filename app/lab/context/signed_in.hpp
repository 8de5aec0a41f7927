// Who works at this bench: told once a shift instead of with each command. It lies in the user's
// data folder and not in the store, which several benches share: one login is one bench. What a
// person may do, and whether they are still of the laboratory, is asked anew by every command.
#pragma once

#include "core/base/result.hpp"
#include "core/time/instant.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// Somebody at this bench.
struct signed_in {
  std::string who;   // a whole name of the store's people
  std::string store; // for which they signed in
  instant since{};
  bool over{false}; // longer ago than any shift, or by another clock: they are to say it again
};

// Nothing where nobody signed in here for that store.
[[nodiscard]] result<std::optional<signed_in>> who_is_signed_in(const std::string& store,
                                                                instant now);

// From now on it is this person, for that store alone.
[[nodiscard]] result<void> sign_in(const std::string& store, const std::string& who, instant now);
[[nodiscard]] result<void> sign_out();

} // namespace qb::lab
