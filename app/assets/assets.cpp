// Finding and reading data files.
#include "app/assets/assets.hpp"

#include "app/machine/files.hpp"
#include "core/base/json.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::inline assets {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> ids_in(const std::string& folder) {
  std::vector<std::string> ids;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(folder, none)) {
    if (entry.path().extension() == ".json") ids.push_back(entry.path().stem().string());
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

bool is_path(const std::string& text) {
  return text.find('/') != std::string::npos ||
         (text.size() > 5 && text.substr(text.size() - 5) == ".json");
}

template <typename T>
result<loaded<T>> load(const std::string& folder, const std::string& what,
                       const std::string& id_or_path, result<T> (*read)(std::string_view)) {
  std::string path = id_or_path;
  if (!is_path(id_or_path)) {
    const auto ids = ids_in(folder);
    if (std::find(ids.begin(), ids.end(), id_or_path) == ids.end()) {
      std::string all;
      for (const std::string& id : ids)
        all += (all.empty() ? "" : ", ") + id;
      return tl::unexpected(
          refusal{refusal_kind::out_of_range, "", what, "\"" + id_or_path + "\"",
                  all.empty() ? "a folder of assets at " + folder : "one of: " + all});
    }
    path = folder + "/" + id_or_path + ".json";
  }
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto parsed = read(*text);
  if (!parsed) return tl::unexpected(in_file(parsed.error(), path));
  return loaded<T>{std::move(*parsed), json::canonical(*json::parse(*text))};
}

} // namespace

std::string assets_folder(const std::string& given, const std::string& program_path) {
  if (!given.empty()) return given;
  std::error_code none;
  for (fs::path at = fs::path(program_path).parent_path(); at.has_relative_path();
       at = at.parent_path()) {
    if (fs::is_directory(at / "assets" / "protocols", none)) return (at / "assets").string();
  }
  return "assets";
}

result<loaded<protocol>> load_protocol(const std::string& assets, const std::string& id_or_path) {
  return load<protocol>(assets + "/protocols", "protocol", id_or_path, read_protocol);
}

result<figure_rules> load_figure_rules(const std::string& assets) {
  const std::string path = assets + "/figures/sugars.json";
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto read = read_figure_rules(*text);
  if (!read) return tl::unexpected(in_file(read.error(), path));
  return read;
}

result<loaded<protocol>> load_offered_protocol(const std::string& assets,
                                               const std::string& id_or_path) {
  auto test = load_protocol(assets, id_or_path);
  if (!test) return test;
  const auto rules = load_figure_rules(assets);
  if (!rules) return tl::unexpected(rules.error());
  if (const auto sane = check_figures(test->value, *rules); !sane)
    return tl::unexpected(in_file(sane.error(), id_or_path));
  return test;
}

result<loaded<lab_profile>> load_profile(const std::string& assets, const std::string& id_or_path) {
  return load<lab_profile>(assets + "/laboratories", "profile", id_or_path, read_profile);
}

result<loaded<label_sheet>> load_label_sheet(const std::string& assets,
                                             const std::string& id_or_path) {
  return load<label_sheet>(assets + "/labels", "labels", id_or_path, read_label_sheet);
}

result<std::vector<criterion>> load_criteria(const std::string& assets) {
  const std::string folder = assets + "/criteria";
  std::vector<criterion> out;
  for (const std::string& id : ids_in(folder)) {
    const std::string path = folder + "/" + id + ".json";
    const auto text = read_file(path);
    if (!text) return tl::unexpected(text.error());
    auto one = read_criterion(*text);
    if (!one) return tl::unexpected(in_file(one.error(), path));
    if (one->id != id)
      return tl::unexpected(refusal{refusal_kind::malformed, path, "id", "\"" + one->id + "\"",
                                    "the file's name without .json"});
    out.push_back(std::move(*one));
  }
  if (out.empty())
    return tl::unexpected(refusal{refusal_kind::missing, folder, "", "no criteria",
                                  "a folder of assets with criteria in it"});
  if (const auto good = check_criteria(out); !good)
    return tl::unexpected(in_file(good.error(), folder));
  return out;
}

std::vector<std::string> protocol_ids(const std::string& assets) {
  return ids_in(assets + "/protocols");
}

} // namespace qb::inline assets
