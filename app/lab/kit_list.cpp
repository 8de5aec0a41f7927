// Joining the kits of logs, codes and bench.
#include "app/lab/kit_list.hpp"

#include "app/lab/bench.hpp"

#include <map>

namespace qb::lab {

result<void>
every_kit(const desk& at,
          const std::function<result<void>(const bench_kit&, const known_kit&)>& each) {
  std::map<std::string, bench_kit> kits;
  auto benches = load_all_benches(at.bench());
  if (!benches) return tl::unexpected(benches.error());
  for (bench_kit& b : *benches)
    kits[b.kit] = std::move(b);
  for (const auto& rows : {at.logs().list(), at.logs().list_codes()}) {
    if (!rows) return tl::unexpected(rows.error());
    for (const log_row& row : *rows)
      if (at.options().rehearsals || !row.rehearsal) kits[row.kit_number].kit = row.kit_number;
  }
  for (const auto& [kit, bench] : kits) {
    const auto known = at.find(bench);
    if (!known) return tl::unexpected(known.error());
    if (const auto done = each(bench, *known); !done) return done;
  }
  return {};
}

} // namespace qb::lab
