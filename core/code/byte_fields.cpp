// The packed numbers, byte by byte.
#include "core/code/byte_fields.hpp"

#include <fmt/core.h>

namespace qb::code {

namespace {

constexpr unsigned bits = 7;
constexpr unsigned more = 0x80;

} // namespace

void byte_writer::count(std::uint64_t n) {
  for (; n >= more; n >>= bits)
    byte(static_cast<unsigned>(n % more) | more);
  byte(static_cast<unsigned>(n));
}

void byte_writer::number(std::int64_t n) {
  count(n < 0 ? static_cast<std::uint64_t>(-(n + 1)) * 2 + 1 : static_cast<std::uint64_t>(n) * 2);
}

void byte_writer::text(std::string_view s) {
  count(s.size());
  raw(s);
}

void byte_reader::refuse(const char* what, std::string found, std::string expected,
                         refusal_kind kind) {
  if (no_) return;
  no_ = refusal{kind, "", fmt::format("byte {}: {}", at_ + 1, what), std::move(found),
                std::move(expected)};
}

std::string byte_reader::raw(const char* what, std::size_t size) {
  if (bytes_.size() - at_ < size) {
    refuse(what, "the end", fmt::format("{} bytes more", size));
    at_ = bytes_.size();
    return std::string(size, '\0');
  }
  at_ += size;
  return std::string(bytes_.substr(at_ - size, size));
}

unsigned byte_reader::byte(const char* what) {
  return static_cast<unsigned char>(raw(what, 1).front());
}

std::uint64_t byte_reader::any_count(const char* what) {
  constexpr unsigned most_bits = 56; // far more than any field here, and no shift can overflow
  std::uint64_t n = 0;
  for (unsigned shift = 0; shift < most_bits; shift += bits) {
    const unsigned b = byte(what);
    n |= std::uint64_t{b % more} << shift;
    if (b >= more) continue;
    if (b == 0 && shift > 0) refuse(what, "a number with empty bytes", "its shortest form");
    return n;
  }
  refuse(what, "a number without an end", "a smaller one");
  return 0;
}

std::uint64_t byte_reader::count(const char* what, std::uint64_t most) {
  const std::uint64_t n = any_count(what);
  if (n <= most) return n;
  refuse(what, fmt::format("{}", n), fmt::format("at most {}", most), refusal_kind::out_of_range);
  return 0;
}

std::int64_t byte_reader::number(const char* what, std::int64_t most) {
  const std::uint64_t n = any_count(what);
  const auto half = static_cast<std::int64_t>(n / 2);
  const std::int64_t value = n % 2 == 0 ? half : -half - 1;
  if (value >= -most && value <= most) return value;
  refuse(what, fmt::format("{}", value), fmt::format("{} to {}", -most, most),
         refusal_kind::out_of_range);
  return 0;
}

std::string byte_reader::text(const char* what, std::size_t least, std::size_t most) {
  const auto size = static_cast<std::size_t>(count(what, most)); // no more than `most`
  if (size >= least) return raw(what, size);
  refuse(what, fmt::format("{} bytes", size), fmt::format("{} to {} bytes", least, most),
         refusal_kind::out_of_range);
  return "";
}

std::optional<refusal> byte_reader::finish() {
  if (at_ < bytes_.size())
    refuse("the end", fmt::format("{} bytes more", bytes_.size() - at_), "nothing more");
  return no_;
}

} // namespace qb::code
