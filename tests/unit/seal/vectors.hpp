// The published vectors of vectors.json, for the tests beside it.
// One file, so that the outside readers of tests/outside/run_sealed confirm the very same values.
#pragma once

#include "core/base/json.hpp"

#include "tests/support/repository.hpp"

#include <fstream>
#include <sstream>
#include <string>

namespace qb::seal::test {

inline std::string from_hex(const std::string& hex) {
  std::string out;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    out += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
  return out;
}

inline std::string to_hex(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) {
    constexpr const char* digits = "0123456789abcdef";
    out += digits[static_cast<unsigned char>(c) >> 4U];
    out += digits[static_cast<unsigned char>(c) & 15U];
  }
  return out;
}

// A text field of one vector.
inline std::string text_of(const json::value& v, const char* key) {
  return *v.find(key)->text();
}
inline std::string bytes_of(const json::value& v, const char* key) {
  return from_hex(text_of(v, key));
}

inline json::value vectors(const char* of) {
  std::ifstream in(repository() + "/tests/unit/seal/vectors.json");
  std::ostringstream all;
  all << in.rdbuf();
  return *json::parse(all.str()).value().find(of);
}

} // namespace qb::seal::test
