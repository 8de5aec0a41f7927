// Keys as Bech32 texts.
#include "core/seal/age_keys.hpp"

#include "core/seal/bech32.hpp"
#include "core/seal/bytes.hpp"

#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::string_view recipient_prefix = "age";
constexpr std::string_view identity_prefix = "AGE-SECRET-KEY-";
constexpr std::size_t key_size = 32;

// The 32 bytes of a key with that prefix; what lay between is wiped.
result<secret<key_size>> key_bytes(std::string_view text, std::string_view prefix,
                                   const char* expected) {
  auto read = read_bech32(text);
  if (!read) return tl::unexpected(read.error());
  auto bytes = from_groups(read->groups);
  wipe(read->groups.data(), read->groups.size());
  if (!bytes) return tl::unexpected(bytes.error());
  if (read->prefix != prefix || bytes->size() != key_size) {
    wipe(bytes->data(), bytes->size());
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "key", "a key of another kind", expected});
  }
  secret<key_size> out(taken<key_size>(*bytes));
  wipe(bytes->data(), bytes->size());
  return out;
}

} // namespace

result<recipient> read_recipient(std::string_view text) {
  const auto bytes = key_bytes(text, recipient_prefix, "an age recipient (age1…)");
  if (!bytes) return tl::unexpected(bytes.error());
  return recipient{bytes->bytes};
}

result<identity> read_identity(std::string_view text) {
  const auto bytes = key_bytes(text, identity_prefix, "an age identity (AGE-SECRET-KEY-1…)");
  if (!bytes) return tl::unexpected(bytes.error());
  return identity{*bytes};
}

recipient recipient_of(const identity& i) {
  recipient out;
  QB_BELIEVE(crypto_scalarmult_base(out.point.data(), i.scalar.bytes.data()) == 0);
  return out;
}

result<std::vector<identity>> read_identity_file(std::string_view text) {
  std::vector<identity> out;
  for (int number = 1; !text.empty(); ++number) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.empty() || line.front() == '#') continue;
    auto one = read_identity(line);
    if (!one) {
      one.error().where = "line " + std::to_string(number);
      return tl::unexpected(one.error());
    }
    out.push_back(*one);
  }
  if (!out.empty()) return out;
  return tl::unexpected(refusal{refusal_kind::missing, "", "", "no identity",
                                "a line with AGE-SECRET-KEY-1…, as age-keygen writes it"});
}

} // namespace qb::seal
