// The rules that many logs froze, each kept twice. Every log that froze one needs it, so that one
// damaged page would cost many tests: a copy counts only where its digest fits it, and either does.
//
//   frozen_rules        id INTEGER PRIMARY KEY, digest TEXT (SHA-256 of the text), body TEXT: the
//                       text; an id is never given to another text
//   frozen_rules_again  id, digest, body: the same once more, on pages of its own
#pragma once

#include "app/store/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline store {

// Makes the tables where they are not there, and second copies of what has none, as an earlier
// version of this program left it. False where a step fails, here and below.
[[nodiscard]] bool make_rule_tables(database& db);

// The id of that text, which is kept twice from now on. Nothing where a step fails.
[[nodiscard]] std::optional<std::int64_t> keep_rules(database& db, std::string_view text);

// The text of an id, from the first copy that fits its digest; nothing where none does.
[[nodiscard]] std::optional<std::string> kept_rules(const database& db, std::int64_t id);

// Each of those that logs hold and of which a copy is damaged or gone, in a sentence. A store whose
// second copies were never made is not damaged.
[[nodiscard]] std::vector<std::string> damaged_rules(const database& db);

// Takes away the rules that no log holds any more. False where a step fails.
[[nodiscard]] bool remove_unheld_rules(database& db);

} // namespace qb::inline store
