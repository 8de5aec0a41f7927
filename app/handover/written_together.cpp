// The free name looked for, then all files written.
#include "app/handover/written_together.hpp"

#include "app/handover/hand_over_file.hpp"
#include "app/handover/whose_file.hpp"

#include <fmt/core.h>

namespace qb::handover {

namespace {

result<std::string> free_name(disk& device, const std::string& folder,
                              const std::vector<std::string>& endings, const file_owner& owner) {
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

result<file_group> file_group::open(disk& device, const std::string& folder,
                                    const std::vector<std::string>& endings,
                                    const file_owner& owner) {
  if (const auto made = device.make_folder(folder); !made) return tl::unexpected(made.error());
  const auto name = free_name(device, folder, endings, owner);
  if (!name) return tl::unexpected(name.error());
  file_group out(device, folder + "/" + *name);
  out.out_.renamed = *name != owner.wanted;
  return out;
}

void file_group::write(const outgoing_file& file) {
  const std::string path = stem_ + file.ending;
  const result<void> done = file.bytes ? device_->write(path, *file.bytes)
                                       : result<void>(tl::unexpected(file.bytes.error()));
  if (done) {
    out_.paths.push_back(path);
  } else {
    out_.left_out.push_back({path, done.error()});
  }
}

result<exported_files> file_group::written() const {
  if (out_.paths.empty() && !out_.left_out.empty())
    return tl::unexpected(out_.left_out.front().why);
  return out_;
}

result<exported_files> write_together(disk& device, const std::string& folder,
                                      const std::vector<outgoing_file>& files,
                                      const file_owner& owner) {
  std::vector<std::string> endings;
  for (const outgoing_file& file : files)
    endings.push_back(file.ending);
  auto group = file_group::open(device, folder, endings, owner);
  if (!group) return tl::unexpected(group.error());
  for (const outgoing_file& file : files)
    group->write(file);
  return group->written();
}

} // namespace qb::handover
