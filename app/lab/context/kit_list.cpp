// Joining the kits of logs, codes and bench.
#include "app/lab/context/kit_list.hpp"

#include "app/lab/context/receiving_values.hpp"

#include <map>

namespace qb::lab {

result<void>
every_kit(const lab_context& at,
          const std::function<result<void>(const received_kit&, const known_kit&)>& each) {
  std::map<std::string, received_kit> kits;
  auto received_kits = load_all_received(at.received());
  if (!received_kits) return tl::unexpected(received_kits.error());
  for (received_kit& b : *received_kits)
    kits[b.kit] = std::move(b);
  for (const auto& rows : {at.logs().list(), at.logs().list_codes()}) {
    if (!rows) return tl::unexpected(rows.error());
    for (const log_row& row : *rows)
      if (at.options().rehearsals || !row.rehearsal) kits[row.kit_number].kit = row.kit_number;
  }
  for (const auto& [kit, received] : kits) {
    const auto known = at.find(received);
    if (!known) return tl::unexpected(known.error());
    if (const auto done = each(received, *known); !done) return done;
  }
  return {};
}

} // namespace qb::lab
