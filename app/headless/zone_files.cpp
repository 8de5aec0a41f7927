// Reading /usr/share/zoneinfo.
#include "app/headless/zone_files.hpp"

#include "app/platform/files.hpp"

namespace qb {

result<zone> load_zone(const std::string& name) {
  const refusal unknown{refusal_kind::out_of_range, "", "zone", "\"" + name + "\"",
                        "a time zone such as Europe/London"};
  if (!is_zone_name(name)) return tl::unexpected(unknown);
  const auto bytes = read_file("/usr/share/zoneinfo/" + name);
  if (!bytes) return tl::unexpected(unknown);
  return zone::read(name, *bytes);
}

} // namespace qb
