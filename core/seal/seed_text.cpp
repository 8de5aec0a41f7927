// Written and read whole.
#include "core/seal/seed_text.hpp"

#include "core/seal/bech32.hpp"
#include "core/seal/bytes.hpp"

namespace qb::seal {

namespace {

constexpr std::string_view prefix = "qbdevice";

} // namespace

std::string seed_text(const secret<32>& seed) {
  std::string groups = to_groups(seen(seed.bytes));
  std::string line = write_bech32(prefix, groups);
  wipe(groups.data(), groups.size());
  std::string out;
  out.reserve(line.size() + 1);
  out.append(line).append("\n");
  wipe(line.data(), line.size());
  return out;
}

result<secret<32>> read_seed(std::string_view text) {
  const refusal no{refusal_kind::malformed, "", "", "something else than a key of this device",
                   "the line this program wrote"};
  if (text.empty() || text.back() != '\n') return tl::unexpected(no);
  text.remove_suffix(1);
  auto read = read_bech32(text);
  if (!read || read->prefix != prefix) return tl::unexpected(no);
  auto bytes = from_groups(read->groups);
  wipe(read->groups.data(), read->groups.size());
  if (!bytes || bytes->size() != sizeof(secret<32>)) return tl::unexpected(no);
  secret<32> out(taken<sizeof(secret<32>)>(*bytes));
  wipe(bytes->data(), bytes->size());
  return out;
}

} // namespace qb::seal
