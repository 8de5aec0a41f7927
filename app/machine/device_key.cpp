// One file, read or made.
#include "app/machine/device_key.hpp"

#include "core/seal/seed_text.hpp"

#include <unistd.h>

namespace qb::inline machines {

namespace {

template <std::size_t size>
seal::secret<size> drawn() {
  static_assert(size <= 256); // the system gives so many in one piece
  seal::secret<size> out;
  QB_BELIEVE(getentropy(out.bytes.data(), size) == 0);
  return out;
}

} // namespace

result<seal::secret<32>> device_seed(disk& device, const std::string& folder) {
  const std::string path = folder + "/device.key";
  auto there = device.read(path);
  if (!there && there.error().kind == refusal_kind::missing) {
    if (const auto made = device.make_folder(folder); !made) return tl::unexpected(made.error());
    std::string text = seal::seed_text(drawn<32>());
    const auto written = device.write(path, text);
    seal::wipe(text.data(), text.size());
    if (!written) return tl::unexpected(written.error());
    there = device.read(path);
  }
  if (!there) return tl::unexpected(there.error());
  auto seed = seal::read_seed(*there);
  seal::wipe(there->data(), there->size());
  if (seed) return seed;
  refusal no = in_file(seed.error(), path);
  no.expected += "; move the file away, and the next export makes a new key";
  return tl::unexpected(no);
}

seal::secret<64> drawn_bytes() {
  return drawn<64>();
}

} // namespace qb::inline machines
