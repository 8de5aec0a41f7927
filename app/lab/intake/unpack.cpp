// Seal, then sheet, then log.
#include "app/lab/intake/unpack.hpp"

#include "app/machine/files.hpp"
#include "app/opened/attached_files.hpp"
#include "core/base/json.hpp"

namespace qb::lab {

namespace {

constexpr const char* log_ending = ".log.json";
constexpr const char* no_log = "no log attached";

refusal no_attached_log(const char* found) {
  return {refusal_kind::missing, "", "PDF", found, "one attachment ending in .log.json"};
}

result<unpacked_log> from_sheet(const std::string& pdf) {
  const auto inside = attached_files(pdf, log_ending, json::most_bytes);
  if (!inside) return tl::unexpected(inside.error());
  const page::attached_file* log = nullptr;
  for (const page::attached_file& file : *inside) {
    const bool is_log = file.name.compare(file.name.size() - 5, 5, ".json") == 0;
    if (is_log && log != nullptr) return tl::unexpected(no_attached_log("several logs attached"));
    if (is_log) log = &file;
  }
  if (log == nullptr) return tl::unexpected(no_attached_log(no_log));
  unpacked_log out{log->bytes, std::nullopt};
  for (const page::attached_file& file : *inside)
    if (file.name == log->name + ".minisig") out.signature = file.bytes;
  return out;
}

} // namespace

result<unpacked_log> unpack(std::string bytes, const std::vector<seal::identity>& identities) {
  if (seal::looks_sealed(bytes)) {
    auto open = seal::open_sealed(bytes, identities);
    if (!open) return tl::unexpected(open.error());
    if (seal::looks_sealed(*open))
      return tl::unexpected(refusal{refusal_kind::malformed, "", "", "a file sealed twice",
                                    "a sheet or a log, sealed once"});
    bytes = std::move(*open);
  }
  if (looks_like_pdf(bytes)) return from_sheet(bytes);
  return unpacked_log{std::move(bytes), std::nullopt};
}

bool carries_nothing(const refusal& no) {
  return no.kind == refusal_kind::missing &&
         (no.found == no_log || no.found == seal::no_identity_given);
}

result<identity_file> read_identities(const std::string& path) {
  auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto read = seal::read_identity_file(*text);
  seal::wipe(text->data(), text->size());
  if (!read) return tl::unexpected(in_file(read.error(), path));
  return identity_file{std::move(*read), is_open_to_others(path)};
}

} // namespace qb::lab
