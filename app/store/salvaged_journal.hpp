// A damaged journal: what can still be read of it, and a new one of that in its place.
// The damaged file stays beside it unchanged, under a name of its own.
#pragma once

#include "core/base/result.hpp"
#include "core/record/salvage.hpp"

#include <string>
#include <vector>

namespace qb::inline store {

// What is proved of the record at `path`, by its own bytes, its key, and the rows kept once more
// beside it. Changes nothing, and waits for nothing that is no regular file.
[[nodiscard]] salvaged_record read_damaged(const std::string& path,
                                           const std::vector<std::string>& ask_again);

// Sets the file at `path` aside and puts a journal of those events in its place, in one step: a
// kill leaves the one or the other. What was typed and not confirmed goes along where it can be
// read. Answers the path of the file that was set aside. Refuses, with nothing changed, where the
// key cannot be read now: tomorrow it may open the whole record (app/store/journal_key.hpp).
[[nodiscard]] result<std::string> replace_damaged(const std::string& path,
                                                  const std::vector<event>& events);

} // namespace qb::inline store
