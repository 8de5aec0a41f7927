// Which tubes stay empty: said wherever a person counts tubes.
#include "app/patient/screens/days/spare_tubes.hpp"

#include "core/protocol/grid.hpp"

namespace qb::inline screens {

namespace {

// "8, 9 and 10"; more than four in a row as "8 to 24".
std::string list_words(const view& v, const std::vector<int>& tubes) {
  constexpr std::size_t most = 4;
  const std::string last = std::to_string(tubes.back());
  if (tubes.size() > most)
    return v.t("spare.range", {{"first", std::to_string(tubes.front())}, {"last", last}});
  std::string before;
  for (std::size_t i = 0; i + 1 < tubes.size(); ++i)
    before += (before.empty() ? "" : ", ") + std::to_string(tubes[i]);
  return before.empty() ? last : v.t("spare.and", {{"list", before}, {"last", last}});
}

} // namespace

std::string spare_words(const view& v, const std::string& key) {
  const std::vector<int> tubes = v.s.test ? spare_tubes(*v.s.test) : std::vector<int>{};
  if (tubes.empty()) return {};
  return v.t.counted(key, static_cast<long long>(tubes.size()), {{"tubes", list_words(v, tubes)}});
}

std::vector<tube_mark> whole_rack_of(const view& v) {
  std::vector<tube_mark> out = rack_of(v);
  if (v.s.test) out.resize(out.size() + spare_tubes(*v.s.test).size(), tube_mark::unused);
  return out;
}

} // namespace qb::inline screens
