// Lot, last day and run, held against what is known of each.
#include "core/receiving/specimens.hpp"

#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

kit_supply told_by_box(const received_kit& kit) {
  return kit.arrivals.empty() ? kit_supply{} : kit.arrivals.back().supply;
}

} // namespace

kit_supply supply_of(const received_kit& kit, const kit_supply& issued) {
  const kit_supply box = told_by_box(kit);
  kit_supply out = issued;
  if (out.lot.empty()) out.lot = box.lot;
  if (!out.expires) out.expires = box.expires;
  return out;
}

std::vector<receiving_finding> check_specimens(const received_kit& kit, const recorded_tubes* told,
                                               const kit_supply& issued) {
  std::vector<receiving_finding> out;
  const auto say = [&](const char* rule, std::vector<int> tubes, std::string words) {
    out.push_back({rule, consequence::review, tubes, {}, std::move(words)});
    for (const int n : tubes)
      out.back().figures.push_back(n);
  };
  const kit_supply box = told_by_box(kit);
  if (!box.lot.empty() && !issued.lot.empty() && box.lot != issued.lot)
    say("lot-differs", {},
        fmt::format("the box bears lot {}, and its kit was issued of lot {}", box.lot, issued.lot));
  else if (box.expires && issued.expires && *box.expires != *issued.expires)
    say("lot-differs", {},
        fmt::format("the box bears {} as its last day, and its kit was issued with {}",
                    date_text(*box.expires), date_text(*issued.expires)));
  const auto last = supply_of(kit, issued).expires;
  if (last && told != nullptr && told->tested && *told->tested > *last)
    say("kit-expiry", {},
        fmt::format("the test was done on {}, after the kit's last day, {}",
                    date_text(*told->tested), date_text(*last)));
  for (const counted_reading& c : counted_readings(kit))
    if (c.reading.of.control == "failed")
      say("control-failed", {c.reading.sample},
          fmt::format("tube {} was measured in a run whose control failed{}", c.reading.sample,
                      c.reading.of.run.empty() ? "" : " (" + c.reading.of.run + ")"));
  return out;
}

} // namespace qb::inline receiving
