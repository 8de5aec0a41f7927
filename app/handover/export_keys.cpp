// The device's key from the seam to the machine; the practice keys from their own name.
#include "app/handover/export_keys.hpp"

#include "app/machine/device_key.hpp"
#include "core/seal/hkdf.hpp"
#include "core/seal/minisign.hpp"
#include "core/seal/practice_key.hpp"

namespace qb::handover {

export_keys device_keys(disk& device, const std::string& data_folder) {
  export_keys out;
  out.drawn = drawn_bytes();
  auto seed = device_seed(device, data_folder);
  if (seed) {
    out.signing.emplace(*seed);
    return out;
  }
  seed.error().file = "device.key"; // the folder's path may hold a person's name
  seed.error().expected.clear();    // it stands in one line at the foot of the sheet
  out.why_unsigned = sentence(seed.error());
  return out;
}

export_keys practice_keys() {
  export_keys out;
  out.signing.emplace(seal::practice_signing_key());
  seal::hkdf_sha256(seal::practice_secret, "", "sealing", out.drawn.bytes);
  return out;
}

code::packed_signer code_signer(const export_keys& keys) {
  return [&keys](std::string_view packed) -> std::optional<code::packed_seal> {
    if (!keys.signing) return std::nullopt;
    const seal::key_id id = seal::named(keys.signing->open_half()).id;
    return code::packed_seal{id, seal::sign(code::to_be_signed(packed, id), *keys.signing)};
  };
}

} // namespace qb::handover
