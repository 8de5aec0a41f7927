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
  return o.draw(sheet, labels, rfc3339_utc(s.last_reading->wall),
                codes ? *codes : std::vector<std::string>{});
}

// What a reader of the PDF sees of each file in its list.
page::attached_file attachment(const std::string& stem, const outgoing_file& file) {
  if (file.ending == ending::log)
    return {stem + file.ending, *file.bytes, "application/json", "The timing log of this record"};
  if (file.ending == ending::samples)
    return {stem + file.ending, *file.bytes, "text/csv", "The samples as a table"};
  return {stem + file.ending, *file.bytes, "text/plain",
          fmt::format("Signature of the log (minisign): {}", proven)};
}

} // namespace

std::vector<outgoing_file> plain_files(const std::vector<event>& events, const state& s,
                                       const export_options& o) {
  const std::string log = write_log(events, o.program, o.tzdata);
  std::vector<outgoing_file> files{{ending::log, log}};
  if (o.keys.signing) {
    const auto read = read_log(log);
    files.push_back({ending::signature, read ? result<std::string>(seal::sign_file(
                                                   log, *o.keys.signing, comment_of(log, *read, o)))
                                             : result<std::string>(tl::unexpected(read.error()))});
  }
  if (s.planned) files.push_back({ending::samples, sheet_csv(s, *s.last_reading)});
  return files;
}

outgoing_file sheet_file(const std::vector<event>& events, const state& s, const std::string& stem,
                         const std::vector<outgoing_file>& plain, const export_options& o) {
  const auto pdf = drawn_record(events, s, o);
  if (!pdf) return {ending::sheet, tl::unexpected(pdf.error())};
  std::vector<page::attached_file> inside;
  for (const outgoing_file& file : plain)
    if (file.bytes) inside.push_back(attachment(stem, file));
  return {ending::sheet, page::with_attachments(*pdf, inside, rfc3339_utc(s.last_reading->wall))};
}

outgoing_file code_file(const std::vector<event>& events, const export_options& o) {
  const auto codes = code::codes_of(events, code_signer(o.keys));
  if (!codes) return {ending::code, tl::unexpected(codes.error())};
  std::string lines;
  for (const std::string& one : *codes)
    lines += one + "\n";
  return {ending::code, lines};
}

outgoing_file sealed_file(const outgoing_file& file, const lab_profile& to,
                          const export_keys& keys) {
  const std::string ending = file.ending + ending::sealed;
  if (!file.bytes) return {ending, tl::unexpected(file.bytes.error())};
  const auto key = seal::read_recipient(to.seal_to);
  if (!key) return {ending, tl::unexpected(key.error())};
  return {ending, seal::seal_to(*key, *file.bytes, seal::chance_for(keys.drawn, *file.bytes))};
}

std::string plain_kit_number(const std::string& kit_number) {
  return plain_number(kit_number);
}

} // namespace qb::handover
