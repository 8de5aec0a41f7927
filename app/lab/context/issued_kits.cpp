// The register, read once a command.
#include "app/lab/context/issued_kits.hpp"

#include <filesystem>

namespace qb::lab {

namespace {

result<issued_kit> issued_of(const issued_kit_row& r) {
  const auto expires = parse_date(r.expires);
  if (!expires)
    return tl::unexpected(
        refusal{refusal_kind::machine, "", "own_issued", "a damaged row", "a day as YYYY-MM-DD"});
  return issued_kit{r.kit, r.protocol, r.lot, *expires, r.by, r.at};
}

} // namespace

result<std::vector<issued_kit>> load_issued(const std::string& store) {
  std::vector<issued_kit> out;
  std::error_code none;
  if (!std::filesystem::exists(store, none)) return out;
  const auto db = laboratory_store::open(store);
  if (!db) return tl::unexpected(db.error());
  const auto rows = db->issued("");
  if (!rows) return tl::unexpected(rows.error());
  for (const issued_kit_row& r : *rows) {
    auto one = issued_of(r);
    if (!one) return tl::unexpected(in_file(one.error(), store));
    out.push_back(std::move(*one));
  }
  return out;
}

result<kit_supply> supply_issued(const laboratory_store& laboratory, const std::string& kit) {
  const auto rows = laboratory.issued(kit);
  if (!rows) return tl::unexpected(rows.error());
  if (kit.empty() || rows->empty()) return kit_supply{};
  const auto one = issued_of(rows->back());
  if (!one) return tl::unexpected(one.error());
  return kit_supply{one->lot, one->expires, one->protocol};
}

result<kit_asker> kit_asker::open(const std::string& store, bool on_purpose) {
  if (on_purpose) return kit_asker({});
  auto all = load_issued(store);
  if (!all) return tl::unexpected(all.error());
  return kit_asker(std::move(*all));
}

std::optional<refusal> kit_asker::ask(const std::string& kit) const {
  return asked_of_kit(all_, kit, not_issued_option);
}

} // namespace qb::lab
