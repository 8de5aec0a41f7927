// Where the store is when nobody says.
#include "app/lab/context/store_file.hpp"

#include "app/machine/files.hpp"
#include "app/machine/surroundings.hpp"

namespace qb::lab {

result<std::string> usual_store(const std::string& data, bool make_folders) {
  auto folder = data.empty() ? user_data_folder("quarterbreath-lab") : result<std::string>(data);
  if (!folder) return folder;
  if (make_folders) {
    if (const auto made = make_folder(*folder); !made) return tl::unexpected(made.error());
  }
  return *folder + "/store.db";
}

} // namespace qb::lab
