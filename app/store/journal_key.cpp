// Two small files, written whole and destroyed in place.
#include "app/store/journal_key.hpp"

#include "app/machine/device_key.hpp"
#include "app/machine/files.hpp"
#include "app/machine/overwritten.hpp"
#include "app/machine/regular_file.hpp"
#include "app/store/data_folders.hpp"
#include "core/record/codec.hpp"
#include "core/seal/secret.hpp"

#include <algorithm>

namespace qb::inline store {

namespace {

constexpr std::string_view first_line = "quarterbreath-journal-key 1\n";
constexpr std::size_t digits = 64;
constexpr std::size_t copy_size = first_line.size() + 2 * (digits + 1);

std::string text_of(const journal_secret& key) {
  constexpr std::string_view hex = "0123456789abcdef";
  std::string out;
  out.reserve(copy_size);
  out += first_line;
  for (const unsigned char byte : key.bytes) {
    out += hex[byte / hex.size()];
    out += hex[byte % hex.size()];
  }
  out += '\n';
  return out.append(sha256_hex(out)).append("\n");
}

int value_of(char digit) {
  if (digit >= '0' && digit <= '9') return digit - '0';
  return digit >= 'a' && digit <= 'f' ? digit - 'a' + 10 : 0;
}

std::optional<journal_secret> read_copy(const std::string& path) {
  auto text = read_regular_file(path, copy_size);
  if (!text || text->size() != copy_size) return std::nullopt;
  journal_secret key;
  for (std::size_t i = 0; i < key.bytes.size(); ++i) {
    const std::size_t at = first_line.size() + 2 * i;
    key.bytes[i] =
        static_cast<unsigned char>(16 * value_of((*text)[at]) + value_of((*text)[at + 1]));
  }
  std::string right = text_of(key);
  const bool same = right == *text;
  seal::wipe(text->data(), text->size());
  seal::wipe(right.data(), right.size());
  return same ? std::optional<journal_secret>(key) : std::nullopt;
}

bool is_destroyed(const journal_secret& key) {
  return key.bytes == journal_secret().bytes;
}

// A copy that is right stays as it is.
result<void> keep_copies(const std::string& journal, const journal_secret& key) {
  for (const std::string& path : journal_key_paths(journal)) {
    const auto there = read_copy(path);
    if (there && there->bytes == key.bytes) continue;
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
    const auto copy = read_copy(path);
    if (!copy) continue;
    if (is_destroyed(*copy)) return {std::nullopt, true};
    if (!out.key) out.key = copy;
  }
  return out;
}

result<journal_secret> open_journal_key(const std::string& journal) {
  const found_key found = find_journal_key(journal);
  if (found.destroyed)
    return tl::unexpected(no_key(refusal_kind::not_now, journal, "a test that was erased"));
  if (!found.key)
    return tl::unexpected(no_key(refusal_kind::malformed, journal, "no key that can be read"));
  (void)keep_copies(journal, *found.key); // a full disk stops nobody: the one copy is enough today
  return *found.key;
}

result<void> make_journal_key(const std::string& journal) {
  found_key found = find_journal_key(journal);
  if (found.destroyed)
    return tl::unexpected(no_key(refusal_kind::not_now, journal, "a test that was erased"));
  if (!found.key) {
    const auto chance = drawn_bytes();
    found.key.emplace();
    std::copy_n(chance.bytes.begin(), found.key->bytes.size(), found.key->bytes.begin());
  }
  return keep_copies(journal, *found.key);
}

result<void> destroy_journal_key(const std::string& journal) {
  const std::string text = text_of(journal_secret());
  bool destroyed = false;
  for (const std::string& path : journal_key_paths(journal)) {
    if (!read_copy(path)) {
      overwrite_in_place(path); // it may hold a part of the key
      continue;
    }
    const auto done = write_in_place(path, text);
    // With the first it is done: the other is overwritten once more when it is removed.
    if (!done && !destroyed) return done;
    destroyed = true;
  }
  return {};
}

} // namespace qb::inline store
