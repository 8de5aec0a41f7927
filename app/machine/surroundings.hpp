// What the program may ask of its surroundings beside files and clocks: chance, and the user's
// folders. No folder but app/machine reads the environment.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines {

// 16 random hexadecimal digits from the system.
[[nodiscard]] std::string random_name();

// The user's folder for a program's data: XDG_DATA_HOME/NAME where that is an absolute path, else
// ~/.local/share/NAME. Refused as `missing` where the environment has neither.
[[nodiscard]] result<std::string> user_data_folder(const std::string& name);

} // namespace qb::inline machines
