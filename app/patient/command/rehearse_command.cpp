// `quarterbreath rehearse`: plays a scripted patient through the engine, journal and export.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/handover/export_record.hpp"
#include "app/machine/files.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "app/rehearsal/rehearsal_run.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/journal_key.hpp"
#include "core/findings/findings.hpp"

#include <cstdio>
#include <fmt/core.h>

namespace qb::patient {

namespace {

result<rehearsal::rehearsal_parts> load_parts(const std::string& assets,
                                              const rehearsal::rehearsal_script& script) {
  auto test = load_offered_protocol(assets, script.protocol_id);
  if (!test) return tl::unexpected(test.error());
  auto profile = load_profile(assets, script.profile_id);
  if (!profile) return tl::unexpected(profile.error());
  auto z = load_zone(script.zone_name);
  if (!z) return tl::unexpected(z.error());
  return rehearsal::rehearsal_parts{std::move(test->canonical_text),
                                    std::move(profile->canonical_text), std::move(test->value),
                                    std::move(*z), program_name()};
}

// A journal from an earlier, killed run of the same folder is begun anew: the script plays from its
// beginning, and the same input gives the same bytes.
result<opened_journal> new_journal(const std::string& path) {
  std::remove(path.c_str());
  std::remove((path + "-journal").c_str());
  for (const std::string& key : journal_key_paths(path))
    std::remove(key.c_str());
  return open_journal(path);
}

} // namespace

int rehearse_command(const shared_options& shared, const rehearse_options& o) {
  const auto text = read_file(o.script);
  if (!text) return say_no(text.error());
  const auto script = rehearsal::read_script(*text);
  if (!script) return say_no(in_file(script.error(), o.script));
  const auto parts = load_parts(shared.assets, *script);
  if (!parts) return say_no(in_file(parts.error(), o.script));
  if (const auto made = make_folder(o.out); !made) return say_no(made.error());
  auto journal = new_journal(o.out + "/rehearsal.journal");
  if (!journal) return say_no(journal.error());

  engine e(journal->keeper, std::move(journal->events));
  // One line a durable command: what was confirmed before a kill can be told from outside.
  const auto confirmed = [&o](const engine& running) {
    if (!o.confirm) return;
    note("durable {}\n", running.current().seq);
    std::fflush(stderr);
  };
  if (const auto played = rehearsal::play(*script, *parts, e, confirmed); !played)
    return say_no(in_file(played.error(), o.script));
  const handover::export_keys keys = handover::practice_keys();
  const instant at = e.current().last_reading ? e.current().last_reading->wall : instant{};
  own_disk device;
  const auto files = handover::export_record(
      device, o.out, e.events(), {program_name(), zone_data_version(), parts->place, at, keys, {}});
  if (!files) return say_no(files.error());
  tell("Rehearsal: {}\n", script->title);
  for (const finding& f : findings_of(e.current(), *e.current().last_reading, parts->place))
    tell("  {}\n", f.words);
  for (const std::string& path : files->paths)
    tell("{}\n", path);
  for (const handover::left_out_file& file : files->left_out)
    note("quarterbreath: not written: {}\n", sentence(in_file(file.why, file.path)));
  return files->left_out.empty() ? 0 : 1;
}

} // namespace qb::patient
