// The store's file on the disk, before SQLite sees it: it holds names, so it is its owner's alone.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::lab {

// Makes an empty file with mode 0600, on the disk when this returns; one that is there stays as it
// is. The folder must be there.
[[nodiscard]] result<void> make_store_file(const std::string& path);

// DATA_HOME/quarterbreath-lab/store.db, where DATA_HOME is absolute, else below HOME; its folder is
// made. `data_home` and `home` are the environment's; refuses when neither helps.
[[nodiscard]] result<std::string> usual_store(const std::string& data_home, const std::string& home,
                                              bool make_folders);

} // namespace qb::lab
