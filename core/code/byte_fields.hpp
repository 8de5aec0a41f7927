// Whole numbers and texts in as few bytes as they need, written and read strictly.
// One pair of classes, so that writer and reader of the packed result cannot drift apart.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace qb::code {

// Writes them one after the other; what is written is in `bytes`.
class byte_writer {
public:
  void byte(unsigned value) { bytes_ += static_cast<char>(value); }
  // Seven bits a byte, the lowest first; the highest bit says that another byte follows.
  void count(std::uint64_t n);
  // 0, -1, 1, -2, 2 ... as the counts 0, 1, 2, 3, 4 ...
  void number(std::int64_t n);
  // Its length in bytes as a count, then the bytes.
  void text(std::string_view s);
  void raw(std::string_view s) { bytes_ += s; }

  [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
  std::string bytes_;
};

// Reads the same; after the first refusal every answer is a harmless 0, so that a reader can be
// written straight down and checked once at its end.
class byte_reader {
public:
  explicit byte_reader(std::string_view bytes) : bytes_(bytes) {}

  // `what` names the field in the refusal.
  unsigned byte(const char* what);
  // Refuses more than `most`, and a count written longer than it need be: one value, one form.
  std::uint64_t count(const char* what, std::uint64_t most);
  // In -most..most.
  std::int64_t number(const char* what, std::int64_t most);
  // Of `least` to `most` bytes.
  std::string text(const char* what, std::size_t least, std::size_t most);
  std::string raw(const char* what, std::size_t size);

  // Says no for a reason only the caller can see; kept if it is the first.
  void refuse(const char* what, std::string found, std::string expected,
              refusal_kind kind = refusal_kind::malformed);
  // How many bytes are read.
  [[nodiscard]] std::size_t at() const { return at_; }
  // Must be called last: refuses bytes left over, then answers the first refusal if any.
  [[nodiscard]] std::optional<refusal> finish();

private:
  std::uint64_t any_count(const char* what);

  std::string_view bytes_;
  std::size_t at_{0};
  std::optional<refusal> no_;
};

} // namespace qb::code
