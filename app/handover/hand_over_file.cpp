// The log is signed, then attached, then sealed: inside the seal lies what can be checked later.
#include "app/handover/hand_over_file.hpp"

#include "app/handover/file_endings.hpp"
#include "app/page/finished_pdf.hpp"
#include "app/page/record_pdf.hpp"
#include "core/record/log.hpp"
#include "core/report/signed_words.hpp"
#include "core/seal/age.hpp"
#include "core/seal/minisign.hpp"
#include "core/sheet/sheet.hpp"

#include <fmt/core.h>

namespace qb::handover {

namespace {

// What a signature by a device's own key proves, and no more.
constexpr const char* proven = "unchanged since export by whoever held this device";

std::string comment_of(const std::string& bytes, const read_log_result& log,
                       const export_options& o) {
  return signed_words(signed_log_of(bytes, log), o.at,
                      seal::public_key_text(seal::named(o.keys.signing->open_half())));
}

std::string foot_line(const export_keys& keys) {
  if (!keys.signing) return "The log of this record is not signed: " + keys.why_unsigned;
  return fmt::format("The log of this record is signed with the key {}. Proven by that: {}.",
                     seal::fingerprint(seal::named(keys.signing->open_half()).id), proven);
}

// The sheet and the labels, as a PDF's bytes.
result<std::string> drawn_record(const std::vector<event>& events, const state& s,
                                 const export_options& o) {
  sheet_text sheet = sheet_of(s, *s.last_reading, o.place);
  sheet.foot.push_back(foot_line(o.keys));
  std::vector<label_text> labels;
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    labels.push_back(label_of(s, sample_number::from_index(i)));
  // Before tube 1 there is no result yet, and a sheet without a code.
  const auto codes = code::codes_of(events, code_signer(o.keys));
  return draw_record_pdf(sheet, labels, rfc3339_utc(s.last_reading->wall),
                         codes ? *codes : std::vector<std::string>{});
}

// What a reader of the PDF sees of each file in its list.
attached_file attachment(const std::string& stem, const outgoing_file& file) {
  if (file.ending == ending::log)
    return {stem + file.ending, file.bytes, "application/json", "The timing log of this record"};
  if (file.ending == ending::samples)
    return {stem + file.ending, file.bytes, "text/csv", "The samples as a table"};
  return {stem + file.ending, file.bytes, "text/plain",
          fmt::format("Signature of the log (minisign): {}", proven)};
}

// Adds the sheet with all of `files` attached.
result<void> add_sheet(std::vector<outgoing_file>& files, const std::vector<event>& events,
                       const state& s, const std::string& stem, const export_options& o) {
  auto pdf = drawn_record(events, s, o);
  if (!pdf) return tl::unexpected(pdf.error());
  files.push_back({ending::samples, sheet_csv(s, *s.last_reading)});
  std::vector<attached_file> inside;
  for (const outgoing_file& file : files)
    inside.push_back(attachment(stem, file));
  auto whole = with_attachments(*pdf, inside, rfc3339_utc(s.last_reading->wall));
  if (!whole) return tl::unexpected(whole.error());
  files.push_back({ending::sheet, std::move(*whole)});
  return {};
}

// The one file, sealed; nothing where the laboratory has no key.
result<std::optional<outgoing_file>> sealed(const outgoing_file& file, const state& s,
                                            const export_keys& keys) {
  if (!s.profile || s.profile->seal_to.empty()) return std::optional<outgoing_file>();
  const auto to = seal::read_recipient(s.profile->seal_to);
  if (!to) return tl::unexpected(to.error());
  auto bytes = seal::seal_to(*to, file.bytes, seal::chance_for(keys.drawn, file.bytes));
  if (!bytes) return tl::unexpected(bytes.error());
  return outgoing_file{file.ending + ending::sealed, std::move(*bytes)};
}

} // namespace

result<std::vector<outgoing_file>> record_files(const std::vector<event>& events, const state& s,
                                                const std::string& stem, const export_options& o) {
  std::vector<outgoing_file> files{{ending::log, write_log(events, o.program, o.tzdata)}};
  if (o.keys.signing) {
    const auto log = read_log(files.front().bytes);
    if (!log) return tl::unexpected(log.error());
    files.push_back({ending::signature, seal::sign_file(files.front().bytes, *o.keys.signing,
                                                        comment_of(files.front().bytes, *log, o))});
  }
  if (s.planned) {
    if (const auto added = add_sheet(files, events, s, stem, o); !added)
      return tl::unexpected(added.error());
  }
  const outgoing_file one = s.planned ? files.back() : files.front();
  auto closed = sealed(one, s, o.keys);
  if (!closed) return tl::unexpected(closed.error());
  if (*closed) files.push_back(std::move(**closed));
  if (o.wanted == export_set::everything) return files;
  if (*closed || s.planned) return std::vector<outgoing_file>{std::move(files.back())};
  return files; // a log that was called off, and its signature
}

std::string plain_kit_number(const std::string& kit_number) {
  return plain_number(kit_number);
}

} // namespace qb::handover
