// Rows to values and back.
#include "app/lab/context/requests.hpp"

#include <tuple>

namespace qb::lab {

result<std::map<std::string, requested>> load_requests(const laboratory_store& laboratory,
                                                       const std::string& kit) {
  std::map<std::string, requested> out;
  const auto rows = laboratory.requests(kit);
  if (!rows) return tl::unexpected(rows.error());
  for (const requested_row& r : *rows) {
    const auto born = parse_date(r.birth_date);
    if (!born && !r.birth_date.empty())
      return tl::unexpected(refusal{refusal_kind::machine, "", "own_requested", "a damaged row",
                                    "a day as YYYY-MM-DD"});
    out[r.kit] = {r.kit, r.name, born ? std::optional(*born) : std::nullopt, r.hospital_number,
                  r.order_number};
  }
  return out;
}

result<told_person> person_asked_for(const laboratory_store& laboratory, const std::string& kit) {
  const auto all = load_requests(laboratory, kit);
  if (!all) return tl::unexpected(all.error());
  const auto one = all->find(kit);
  if (one == all->end()) return told_person{};
  const requested& r = one->second;
  return told_person{r.name, r.birth_date, r.hospital_number, r.order_number};
}

bool is_same(const requested& a, const requested& b) {
  const auto all = [](const requested& r) {
    return std::tie(r.kit, r.name, r.birth_date, r.hospital_number, r.order_number);
  };
  return all(a) == all(b);
}

requested_row row_of(const requested& r, const std::string& source, const std::string& by,
                     const std::string& at) {
  return {r.kit,
          r.name,
          r.birth_date ? date_text(*r.birth_date) : "",
          r.hospital_number,
          r.order_number,
          source,
          by,
          at};
}

} // namespace qb::lab
