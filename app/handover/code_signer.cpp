// One signature over the packed bytes.
#include "app/handover/code_signer.hpp"

#include "core/seal/minisign.hpp"

namespace qb::handover {

code::packed_signer code_signer(const export_keys& keys) {
  return [&keys](std::string_view packed) -> std::optional<code::packed_seal> {
    if (!keys.signing) return std::nullopt;
    const seal::key_id id = seal::named(keys.signing->open_half()).id;
    return code::packed_seal{id, seal::sign(code::to_be_signed(packed, id), *keys.signing)};
  };
}

} // namespace qb::handover
