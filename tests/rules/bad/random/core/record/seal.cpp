// Core that draws its own key.
// Bad on purpose: tests/rules/run must find it.
#include <random>

namespace qb::inline records {

int chance() {
  std::random_device source;
  return static_cast<int>(source());
}

int old_chance() {
  return rand();
}

void chance_name(unsigned char* out) {
  uuid_generate(out);
}

} // namespace qb::inline records
