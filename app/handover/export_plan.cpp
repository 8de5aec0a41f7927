// Writing a plan's reminders and reading them back.
#include "app/handover/export_plan.hpp"

#include "app/handover/file_endings.hpp"
#include "app/page/preparation_page.hpp"
#include "core/sheet/calendar.hpp"

namespace qb::handover {

namespace {

// A file whose whole name is given.
struct outgoing {
  std::string path;
  std::string bytes;
};

result<std::string> page_bytes(const prepared_plan& p, const zone& z, instant made_at) {
  return page::draw_preparation_pdf(preparation_of(p, z, made_at), rfc3339_utc(made_at));
}

// Whose another file is cannot be known, so it is left alone.
result<void> is_free_for(disk& device, const outgoing& file) {
  const auto there = device.read(file.path);
  const bool free = !there && there.error().kind == refusal_kind::missing;
  if (free || (there && *there == file.bytes)) return {};
  return tl::unexpected(refusal{refusal_kind::out_of_range, file.path, "",
                                "a file that is already there", "a name that is free"});
}

result<exported_files> write_all(disk& device, const std::vector<outgoing>& files) {
  exported_files out;
  for (const outgoing& file : files) {
    if (const auto done = device.write(file.path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(file.path);
  }
  return out;
}

} // namespace

result<exported_files> export_plan(disk& device, const std::string& folder, const prepared_plan& p,
                                   const zone& z, instant made_at) {
  std::vector<outgoing_file> files{{ending::reminders, calendar_of(p, z, made_at)}};
  if (!p.called_off) files.push_back({ending::preparation, page_bytes(p, z, made_at)});
  return write_together(device, folder, files, {export_stem(p.kit_number, p.rehearsal), p.test_id});
}

result<exported_files> write_plan(disk& device, const plan_paths& paths, const prepared_plan& p,
                                  const zone& z, instant made_at) {
  std::vector<outgoing> files;
  if (!paths.calendar.empty()) files.push_back({paths.calendar, calendar_of(p, z, made_at)});
  if (!paths.page.empty()) {
    auto page = page_bytes(p, z, made_at);
    if (!page) return tl::unexpected(page.error());
    files.push_back({paths.page, std::move(*page)});
  }
  for (const outgoing& file : files)
    if (const auto free = is_free_for(device, file); !free) return tl::unexpected(free.error());
  return write_all(device, files);
}

result<void> write_where_free(disk& device, const std::string& path, const std::string& bytes) {
  const outgoing file{path, bytes};
  if (auto free = is_free_for(device, file); !free) return free;
  return device.write(file.path, file.bytes);
}

} // namespace qb::handover
