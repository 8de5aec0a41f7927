// Two small files, written whole and destroyed in place.
#include "app/store/journal_key.hpp"

#include "app/machine/device_key.hpp"
#include "app/machine/files.hpp"
#include "app/machine/overwritten.hpp"
#include "app/machine/regular_file.hpp"
#include "app/store/data_folders.hpp"
#include "core/base/hex.hpp"
#include "core/record/codec.hpp"
#include "core/seal/bytes.hpp"
#include "core/seal/secret.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::inline store {

namespace {

constexpr std::string_view first_line = "quarterbreath-journal-key 1\n";
constexpr std::size_t digits = 64;
constexpr std::size_t copy_size = first_line.size() + 2 * (digits + 1);

std::string text_of(const journal_secret& key) {
  std::string hex = hex_of(seal::seen(key.bytes));
  std::string out;
  out.reserve(copy_size);
  out.append(first_line).append(hex).append("\n");
  seal::wipe(hex.data(), hex.size());
  return out.append(sha256_hex(out)).append("\n");
}

// What is at one copy's place.
struct key_copy {
  std::optional<journal_secret> whole;
  bool missing{false};
  std::optional<refusal> unread; // otherwise it was read, and is damaged
};

std::optional<journal_secret> read_key(const std::string& text) {
  if (text.size() != copy_size) return std::nullopt;
  auto bytes = bytes_of_hex(std::string_view(text).substr(first_line.size(), digits));
  if (!bytes) return std::nullopt;
  journal_secret key;
  key.bytes = seal::taken<digits / 2>(*bytes);
  seal::wipe(bytes->data(), bytes->size());
  std::string right = text_of(key);
  const bool same = right == text;
  seal::wipe(right.data(), right.size());
  return same ? std::optional<journal_secret>(key) : std::nullopt;
}

key_copy look_at(const std::string& path) {
  constexpr std::size_t longest = 4096; // a damaged one; more is no copy of ours
  auto text = read_regular_file(path, longest);
  if (!text && text.error().kind == refusal_kind::missing) return {std::nullopt, true, {}};
  if (!text) return {std::nullopt, false, text.error()};
  key_copy out{read_key(*text), false, {}};
  seal::wipe(text->data(), text->size());
  return out;
}

bool is_destroyed(const journal_secret& key) {
  return key.bytes == journal_secret().bytes;
}

// A copy that is whole stays as it is, and so does one that cannot be read now.
result<void> keep_copies(const std::string& journal, const journal_secret& key) {
  for (const std::string& path : journal_key_paths(journal)) {
    const key_copy there = look_at(path);
    if (there.whole || there.unread) continue;
    std::string text = text_of(key);
    const auto written = write_file(path, text);
    seal::wipe(text.data(), text.size());
    if (!written) return written;
  }
  return {};
}

refusal no_key(refusal_kind kind, const std::string& journal, const char* found) {
  return {kind, journal, "", found, "a test's journal with its key beside it"};
}

} // namespace

std::array<std::string, 2> journal_key_paths(const std::string& journal) {
  const std::string stem = journal_stem(journal);
  return {stem + journal_key_endings[0], stem + journal_key_endings[1]};
}

found_key find_journal_key(const std::string& journal) {
  found_key out;
  for (const std::string& path : journal_key_paths(journal)) {
    const key_copy copy = look_at(path);
    if (copy.whole && is_destroyed(*copy.whole)) return {std::nullopt, true, false, std::nullopt};
    if (!out.key) out.key = copy.whole;
    if (!out.unread) out.unread = copy.unread;
    out.damaged = out.damaged || (!copy.whole && !copy.missing && !copy.unread);
  }
  if (out.key) out.unread.reset();
  return out;
}

namespace {

// The key that the copies hold; nothing where there is none of either.
result<std::optional<journal_secret>> key_there(const std::string& journal) {
  const found_key found = find_journal_key(journal);
  if (found.destroyed)
    return tl::unexpected(no_key(refusal_kind::not_now, journal, "a test that was erased"));
  if (found.unread) return tl::unexpected(*found.unread);
  if (!found.key && found.damaged)
    return tl::unexpected(no_key(refusal_kind::malformed, journal, "a key that is damaged"));
  return found.key;
}

} // namespace

result<journal_secret> open_journal_key(const std::string& journal) {
  const auto there = key_there(journal);
  if (!there) return tl::unexpected(there.error());
  if (!*there) return tl::unexpected(no_key(refusal_kind::malformed, journal, "no key"));
  (void)keep_copies(journal, **there); // a full disk stops nobody: the one copy is enough today
  return **there;
}

result<void> make_journal_key(const std::string& journal) {
  auto there = key_there(journal);
  if (!there) return tl::unexpected(there.error());
  if (!*there) {
    const auto chance = drawn_bytes();
    there->emplace();
    (*there)->bytes = seal::taken<digits / 2>(seal::seen(chance.bytes));
  }
  return keep_copies(journal, **there);
}

result<void> set_journal_key_aside(const std::string& journal, const std::string& aside) {
  const auto paths = journal_key_paths(journal);
  for (std::size_t i = 0; i < paths.size(); ++i) {
    const key_copy there = look_at(paths[i]);
    if (there.missing || there.whole) continue;
    std::error_code why;
    std::filesystem::rename(paths[i], aside + journal_key_endings[i], why);
    if (why)
      return tl::unexpected(refusal{refusal_kind::machine, paths[i], "setting it aside",
                                    why.message(), "a disk that can be written"});
  }
  return {};
}

result<void> destroy_journal_key(const std::string& journal) {
  const std::string text = text_of(journal_secret());
  const auto paths = journal_key_paths(journal);
  for (const std::string& path : paths)
    if (const auto may = may_be_overwritten(path); !may) return may;
  std::optional<refusal> no;
  for (const std::string& path : paths) {
    if (!is_regular_file(path)) continue;
    if (const auto done = write_in_place(path, text); !done && !no) no = done.error();
  }
  if (!no || find_journal_key(journal).destroyed) return {};
  return tl::unexpected(*no);
}

bool is_key_file(const std::string& path) {
  const std::string name = path.substr(path.rfind('/') + 1);
  return std::any_of(journal_key_endings.begin(), journal_key_endings.end(),
                     [&](const char* ending) { return name.find(ending) != std::string::npos; });
}

} // namespace qb::inline store
