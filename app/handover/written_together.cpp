// The free name looked for, then all files written.
#include "app/handover/written_together.hpp"

#include "app/handover/hand_over_file.hpp"
#include "app/handover/whose_file.hpp"

#include <fmt/core.h>

namespace qb::handover {

namespace {

result<std::string> free_name(disk& device, const std::string& folder,
                              const std::vector<outgoing_file>& files, const file_owner& owner) {
  std::vector<std::string> endings;
  for (const outgoing_file& file : files)
    endings.push_back(file.ending);
  constexpr int most_tries = 100;
  int patience = 3;
  for (int n = 1; n <= most_tries; ++n) {
    std::string name = n == 1 ? owner.wanted : fmt::format("{}-{}", owner.wanted, n);
    if (may_write(device, folder + "/" + name, endings, owner.test_id, owner.ours, patience))
      return name;
  }
  return tl::unexpected(refusal{refusal_kind::machine, folder, "", "many files of one kit number",
                                "a folder with room for another"});
}

} // namespace

std::string export_stem(const std::string& kit_number, bool rehearsal) {
  return (rehearsal ? "practice-quarterbreath-" : "quarterbreath-") + plain_kit_number(kit_number);
}

result<exported_files> write_together(disk& device, const std::string& folder,
                                      const std::vector<outgoing_file>& files,
                                      const file_owner& owner) {
  if (const auto made = device.make_folder(folder); !made) return tl::unexpected(made.error());
  const auto name = free_name(device, folder, files, owner);
  if (!name) return tl::unexpected(name.error());
  exported_files out;
  out.renamed = *name != owner.wanted;
  for (const outgoing_file& file : files) {
    const std::string path = folder + "/" + *name + file.ending;
    if (const auto done = device.write(path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(path);
  }
  return out;
}

} // namespace qb::handover
