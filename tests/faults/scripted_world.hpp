// A rehearsal's script read with its assets, and a journal as text: what the fault programs share.
// They play the same shipped scripts as the command line, so that no test invents its own.
#pragma once

#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/machine/files.hpp"
#include "app/rehearsal/rehearsal_run.hpp"
#include "app/store/journal_keeper.hpp"

#include "tests/support/repository.hpp"

#include <string>
#include <vector>

namespace qb {

// A rehearsal's script with all that it needs.
struct world {
  rehearsal::rehearsal_script script;
  rehearsal::rehearsal_parts parts;
};

// Reads it and the assets it names.
[[nodiscard]] inline result<world> load(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto script = rehearsal::read_script(*text);
  if (!script) return tl::unexpected(script.error());
  const std::string assets = repository() + "/assets";
  auto test = load_protocol(assets, script->protocol_id);
  auto profile = load_profile(assets, script->profile_id);
  auto z = load_zone(script->zone_name);
  if (!test) return tl::unexpected(test.error());
  if (!profile) return tl::unexpected(profile.error());
  if (!z) return tl::unexpected(z.error());
  return world{std::move(*script),
               {std::move(test->canonical_text), std::move(profile->canonical_text),
                std::move(test->value), std::move(*z), "quarterbreath test"}};
}

// Every event of the journal as it is kept; nothing where it cannot be read.
[[nodiscard]] inline std::vector<std::string> texts_of(const journal_file& j) {
  std::vector<std::string> out;
  const auto rows = j.read_all();
  if (!rows) return out;
  for (const event_row& row : *rows)
    out.push_back(row.body);
  return out;
}

} // namespace qb
