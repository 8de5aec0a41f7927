// A file read without trusting its name: what is no regular file is refused at once, and never
// waited for. Nobody can make a program hang by a pipe, a device or a link of a wanted name.
#pragma once

#include "core/base/result.hpp"

#include <cstddef>
#include <string>

namespace qb::inline machines {

// Its bytes. Refuses what is no regular file, a link, and more than `most` bytes.
[[nodiscard]] result<std::string> read_regular_file(const std::string& path, std::size_t most);

// Whether a regular file is there, links not followed.
[[nodiscard]] bool is_regular_file(const std::string& path);

} // namespace qb::inline machines
