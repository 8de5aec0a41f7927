// JSON as this project reads and writes it: whole numbers only, no duplicate keys, places kept.
// Every file of ours goes through here, so that each refusal can name the line and the field, and
// so that what we write is at once the canonical form of RFC 8785 (integers, ASCII keys, sorted).
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace qb::json {

class value;
using array = std::vector<value>;
using member = std::pair<std::string, value>;
// Members in the order of the file; keys are unique. Sorting is the writer's work.
using object = std::vector<member>;

// One JSON value and the line (from 1) it ended on; 0 where it was not read from a text.
class value {
public:
  value();
  value(std::nullptr_t);
  value(bool b);
  value(std::int64_t n);
  value(int n);
  value(std::string text);
  value(const char* text);
  value(array items);
  value(object members);
  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  value(const value&);
  value(value&&) noexcept;
  value& operator=(const value&);
  value& operator=(value&&) noexcept;
  ~value();

  [[nodiscard]] bool is_null() const { return std::holds_alternative<std::monostate>(data_); }
  // The value as the asked type, or nullptr when it is of another.
  [[nodiscard]] const bool* boolean() const { return std::get_if<bool>(&data_); }
  [[nodiscard]] const std::int64_t* integer() const { return std::get_if<std::int64_t>(&data_); }
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&data_); }
  [[nodiscard]] const array* items() const { return std::get_if<array>(&data_); }
  [[nodiscard]] const object* members() const { return std::get_if<object>(&data_); }
  [[nodiscard]] array* items() { return std::get_if<array>(&data_); }
  [[nodiscard]] object* members() { return std::get_if<object>(&data_); }

  // The member of that name, or nullptr when this is no object or has none.
  [[nodiscard]] const value* find(std::string_view key) const;

  // What a person would call this value's type, for messages ("a text", "a whole number").
  [[nodiscard]] std::string kind_in_words() const;

  [[nodiscard]] int line() const { return line_; }
  void set_line(int line) { line_ = line; }

private:
  std::variant<std::monostate, bool, std::int64_t, std::string, array, object> data_;
  int line_{0};
};

// Limits on what is read, so that a hostile file cannot exhaust the machine.
inline constexpr std::size_t most_bytes = 16UL * 1024UL * 1024UL;
inline constexpr int most_depth = 32;

// Reads one JSON text. Refuses fractions, numbers beyond 2^53-1, duplicate keys, invalid UTF-8,
// anything after the value, more than `most_bytes`, nesting beyond `most_depth`.
[[nodiscard]] result<value> parse(std::string_view text);

// The canonical form: keys sorted, no white space, minimal escapes (RFC 8785).
[[nodiscard]] std::string canonical(const value& v);

// For people: two-space indentation, keys in the order they were added, a final line end.
[[nodiscard]] std::string pretty(const value& v);

} // namespace qb::json
