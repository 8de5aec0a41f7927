// Reading /usr/share/zoneinfo.
#include "app/assets/zone_files.hpp"

#include "app/machine/files.hpp"

namespace qb::inline assets {

result<zone> load_zone(const std::string& name) {
  const refusal unknown{refusal_kind::out_of_range, "", "zone", "\"" + name + "\"",
                        "a time zone such as Europe/London"};
  if (!is_zone_name(name)) return tl::unexpected(unknown);
  const auto bytes = read_file("/usr/share/zoneinfo/" + name);
  if (!bytes) return tl::unexpected(unknown);
  return zone::read(name, *bytes);
}

std::string zone_data_version() {
  // Its first line is "# version 2026f"; a machine may lack the file.
  const auto text = read_file("/usr/share/zoneinfo/tzdata.zi");
  const std::string before = "# version ";
  if (!text || text->compare(0, before.size(), before) != 0) return "";
  const std::string version = text->substr(before.size(), text->find('\n') - before.size());
  constexpr std::size_t sensible = 20;
  return version.size() <= sensible ? version : "";
}

} // namespace qb::inline assets
