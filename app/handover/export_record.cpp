// What needs no paper first, each file by itself; then the sheet, then what is sealed.
#include "app/handover/export_record.hpp"

#include "app/handover/file_endings.hpp"

#include <string_view>

namespace qb::handover {

namespace {

// One record on its way out.
class leaving_record {
public:
  leaving_record(disk& device, const std::string& folder, const std::vector<event>& events,
                 const state& s, const export_options& o, const std::vector<std::string>& ours)
      : device_(device),
        folder_(folder),
        events_(events),
        s_(s),
        o_(o),
        owner_{export_stem(s.person->kit_number, s.rehearsal()), s.opening->test_id, ours},
        plain_(plain_files(events, s, o)) {}

  // For the person's own folder: readable files and, where the laboratory has a key, the sealed
  // one.
  result<exported_files> everything() {
    std::vector<std::string> endings;
    for (const outgoing_file& file : plain_)
      endings.push_back(file.ending);
    endings.insert(endings.end(), {ending::sheet, ending::sealed_sheet});
    auto group = file_group::open(device_, folder_, endings, owner_);
    if (!group) return tl::unexpected(group.error());
    for (const outgoing_file& file : plain_)
      group->write(file);
    outgoing_file one = plain_.front();
    if (s_.planned) {
      const outgoing_file sheet = drawn();
      group->write(sheet);
      if (sheet.bytes)
        one = sheet;
      else if (const auto code = code_file(events_, o_); code.bytes)
        group->write(code);
    }
    if (seals()) group->write(sealed_file(one, *s_.profile, o_.keys));
    return with_log(*group);
  }

  // For a drive that is given away: the one file; without paper the log, sealed where that is so.
  result<exported_files> one_file() {
    std::vector<left_out_file> missing;
    if (s_.planned) {
      const outgoing_file sheet = drawn();
      auto out = together({seals() ? sealed_file(sheet, *s_.profile, o_.keys) : sheet});
      if (out) return out;
      missing.push_back({folder_ + "/" + owner_.wanted + sheet.ending, out.error()});
    }
    auto out =
        together(seals() ? std::vector{sealed_file(plain_.front(), *s_.profile, o_.keys)} : plain_);
    // What stood against the sheet stands against all: it is said once.
    if (!out) return tl::unexpected(missing.empty() ? out.error() : missing.front().why);
    out->left_out.insert(out->left_out.begin(), missing.begin(), missing.end());
    return out;
  }

private:
  [[nodiscard]] bool seals() const { return s_.profile && !s_.profile->seal_to.empty(); }

  [[nodiscard]] outgoing_file drawn() const {
    return sheet_file(events_, s_, owner_.wanted, plain_, o_);
  }

  [[nodiscard]] result<exported_files> together(const std::vector<outgoing_file>& files) {
    return write_together(device_, folder_, files, owner_);
  }

  // Without its log a record is not handed over, whatever else was written.
  [[nodiscard]] static result<exported_files> with_log(const file_group& group) {
    auto out = group.written();
    if (!out) return out;
    for (const left_out_file& file : out->left_out)
      if (std::string_view(file.path).ends_with(ending::log)) return tl::unexpected(file.why);
    return out;
  }

  disk& device_;
  const std::string& folder_;
  const std::vector<event>& events_;
  const state& s_;
  const export_options& o_;
  file_owner owner_;
  std::vector<outgoing_file> plain_;
};

} // namespace

result<exported_files> export_record(disk& device, const std::string& folder,
                                     const std::vector<event>& events, const export_options& o,
                                     const std::vector<std::string>& ours) {
  const state s = fold_events(events);
  const bool called_off = !s.earlier_plans.empty() && s.earlier_plans.back().called_off;
  if (!s.opening || !s.person || !s.last_reading || (!s.planned && !called_off))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "export", "a test without a plan",
                                  "a test with a person and a plan"});
  leaving_record record(device, folder, events, s, o, ours);
  auto out = o.wanted == export_set::everything ? record.everything() : record.one_file();
  if (out) out->why_unsigned = o.keys.why_unsigned;
  return out;
}

} // namespace qb::handover
