// Reading the two folders of assets the laboratory's side looks at.
#include "app/lab/context/own_assets.hpp"

#include "app/assets/assets.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::lab {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> json_files(const std::string& folder) {
  std::vector<std::string> paths;
  std::error_code no;
  for (fs::directory_iterator at(folder, no); !no && at != fs::directory_iterator();
       at.increment(no)) {
    if (at->path().extension() == ".json") paths.push_back(at->path().string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

template <typename T>
result<void> load_all(const std::string& assets, const char* folder,
                      result<loaded<T>> (*load)(const std::string&, const std::string&),
                      std::vector<std::string>& out) {
  for (const std::string& path : json_files(assets + "/" + folder)) {
    auto one = load(assets, path);
    if (!one) return tl::unexpected(one.error());
    out.push_back(std::move(one->canonical_text));
  }
  return {};
}

} // namespace

result<own_files> load_own_files(const std::string& assets, bool asked_for) {
  own_files out;
  std::error_code no;
  if (!fs::is_directory(assets + "/protocols", no)) {
    if (!asked_for) return out;
    return tl::unexpected(refusal{refusal_kind::missing, assets, "--assets", "no folder protocols",
                                  "a folder of assets"});
  }
  if (auto done = load_all<protocol>(assets, "protocols", load_protocol, out.protocols); !done)
    return tl::unexpected(done.error());
  if (auto done = load_all<lab_profile>(assets, "laboratories", load_profile, out.profiles); !done)
    return tl::unexpected(done.error());
  return out;
}

} // namespace qb::lab
