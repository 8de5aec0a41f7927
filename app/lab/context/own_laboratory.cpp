// The last entry of each name counts.
#include "app/lab/context/own_laboratory.hpp"

#include "app/assets/assets.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>

namespace qb::lab {

namespace {

void take_setting(const setting_row& row, own_laboratory& out) {
  for (const auto& [name, field] : {std::pair{"profile", &own_laboratory::profile},
                                    {"assets", &own_laboratory::assets},
                                    {"zone", &own_laboratory::zone},
                                    {"identity", &own_laboratory::identity},
                                    {"layout", &own_laboratory::layout},
                                    {"inbox", &own_laboratory::inbox},
                                    {"tables", &own_laboratory::tables},
                                    {"reports", &own_laboratory::reports}})
    if (row.name == name) out.*field = row.value;
  out.is_set_up = out.is_set_up || row.name == "profile";
}

// False where the roles are none.
bool take_person(const person_row& row, own_laboratory& out) {
  const auto roles = read_roles(row.roles);
  if (!roles && row.roles != "none") return false;
  const auto at = std::find_if(out.people.begin(), out.people.end(),
                               [&](const person_at_work& p) { return p.name == row.name; });
  if (at != out.people.end()) out.people.erase(at);
  if (roles) out.people.push_back({row.name, row.code, *roles, row.key, row.key_file});
  return true;
}

std::string same_path(const std::string& path) {
  std::error_code no_matter;
  const auto out = std::filesystem::weakly_canonical(path, no_matter);
  return no_matter ? path : out.string();
}

bool is_same(const own_laboratory& own, const given_profile& given) {
  const std::string& assets = own.assets.empty() ? given.assets : own.assets;
  if (own.profile == given.profile && same_path(assets) == same_path(given.assets)) return true;
  const auto ours = load_profile(assets, own.profile);
  const auto theirs = load_profile(given.assets, given.profile);
  return ours && theirs && ours->canonical_text == theirs->canonical_text &&
         same_path(assets) == same_path(given.assets);
}

} // namespace

result<own_laboratory> own_laboratory_of(const laboratory_rows& rows) {
  own_laboratory out;
  for (const setting_row& row : rows.settings)
    take_setting(row, out);
  for (const person_row& row : rows.people) {
    if (!take_person(row, out))
      return tl::unexpected(
          refusal{refusal_kind::machine, "", "own_person", "a damaged row", "roles, or none"});
  }
  out.told = rows.people;
  return out;
}

result<own_laboratory> load_own_laboratory(const std::string& store) {
  std::error_code none;
  if (!std::filesystem::exists(store, none) || std::filesystem::file_size(store, none) == 0)
    return own_laboratory{};
  const auto db = laboratory_store::open(store);
  if (!db) return tl::unexpected(db.error());
  const auto rows = db->settings();
  if (!rows) return tl::unexpected(rows.error());
  auto out = own_laboratory_of(*rows);
  if (!out) return tl::unexpected(in_file(out.error(), store));
  return out;
}

result<profile_standing> stand_of(const own_laboratory& own, const given_profile& given,
                                  const lab_profile& loaded) {
  profile_standing out;
  if (!own.is_set_up)
    out.note = fmt::format("no laboratory is set up in this store (`set-up` does it once); by the "
                           "profile {}{}",
                           loaded.id, loaded.for_trying ? ", an invented laboratory's" : "");
  if (own.is_set_up && !is_same(own, given)) {
    if (!given.another)
      return tl::unexpected(
          refusal{refusal_kind::out_of_range, "", "--profile",
                  fmt::format("the profile {} of other files", loaded.id),
                  fmt::format("{}, for which this store is set up; or --another-profile, and every "
                              "output says so",
                              own.profile)});
    out.mark = fmt::format("By the profile {}, said on purpose: this laboratory's own is {}. ",
                           loaded.id, own.profile);
  }
  if (loaded.for_trying)
    out.mark += fmt::format("For trying only: {} is an invented laboratory", loaded.name);
  while (!out.mark.empty() && (out.mark.back() == ' ' || out.mark.back() == '.'))
    out.mark.pop_back();
  return out;
}

} // namespace qb::lab
