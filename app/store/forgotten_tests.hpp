// Which tests were forgotten, without their ids: so that a log that comes again is known by its own
// id, and nobody can tell from the store who was in it.
//
//   forgotten_test  hash TEXT PRIMARY KEY (64 hexadecimal digits), at TEXT
//   meta            "forget_key": the key, 64 hexadecimal digits of chance that the caller passes
//   in
//
// The hash is SHA-256 of the key and SHA-256 of key and id (each as hexadecimal text). Without the
// key an id cannot be tried against it; the key is the store's own.
#pragma once

#include "app/store/database.hpp"

#include <string>

namespace qb::inline store {

// Notes one inside the caller's transaction; `chance` becomes the key where there is none yet.
// False where a step fails.
[[nodiscard]] bool note_forgotten(database& db, const std::string& test, const std::string& chance,
                                  const std::string& at);

// Whether that test was forgotten.
[[nodiscard]] result<bool> is_forgotten(const database& db, const std::string& test);

} // namespace qb::inline store
