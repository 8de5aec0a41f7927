// JSON as this project reads and writes it: numbers exact, no duplicate keys, places kept.
// Every file of ours goes through here, so that each refusal can name the line and the field, and
// so that what we keep is at once the canonical form of RFC 8785 (integers, ASCII keys, sorted).
// How it is written is core/base/json_writer.hpp's.
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

// A number that need not be whole, exactly as it was measured: `digits` is a JSON number ("12.50"),
// kept and written as it stands. A whole number of ours is a std::int64_t instead.
struct decimal {
  std::string digits;
};

// One JSON value and the line (from 1) it ended on; 0 where it was not read from a text.
class value {
public:
  value();
  value(std::nullptr_t);
  value(bool b);
  value(std::int64_t n);
  value(int n);
  value(decimal n);
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
  // The digits of a number that was given as a decimal.
  [[nodiscard]] const std::string* digits() const {
    const auto* n = std::get_if<decimal>(&data_);
    return n == nullptr ? nullptr : &n->digits;
  }
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&data_); }
  [[nodiscard]] const array* items() const { return std::get_if<array>(&data_); }
  [[nodiscard]] const object* members() const { return std::get_if<object>(&data_); }
  [[nodiscard]] array* items() { return std::get_if<array>(&data_); }
  [[nodiscard]] object* members() { return std::get_if<object>(&data_); }

  // The member of that name, or nullptr when this is no object or has none.
  [[nodiscard]] const value* find(std::string_view key) const;

  // Adds a member at the end of an object. That this is an object, and has none of that name yet,
  // is the caller's to know: it stops the program otherwise.
  value& set(std::string key, value v);

  // What a person would call this value's type, for messages ("a text", "a whole number").
  [[nodiscard]] std::string kind_in_words() const;

  [[nodiscard]] int line() const { return line_; }
  void set_line(int line) { line_ = line; }

private:
  std::variant<std::monostate, bool, std::int64_t, decimal, std::string, array, object> data_;
  int line_{0};
};

// The largest whole number that every reader of JSON keeps exactly, 2^53-1.
inline constexpr std::int64_t most_whole = (std::int64_t{1} << 53) - 1;

// Limits on what is read, so that a hostile file cannot exhaust the machine.
inline constexpr std::size_t most_bytes = 16UL * 1024UL * 1024UL;
inline constexpr int most_depth = 32;

// Which numbers a reader takes: our own files hold whole ones alone.
enum class numbers { whole, exact };

// Reads one JSON text. Refuses fractions unless exact numbers are asked for (each is a `decimal`
// then), whole numbers beyond 2^53-1, duplicate keys, invalid UTF-8, anything after the value, more
// than `most_bytes`, more than a million values, nesting beyond `most_depth`.
[[nodiscard]] result<value> parse(std::string_view text, numbers taken = numbers::whole);

// The canonical form: keys sorted, no white space, minimal escapes (RFC 8785).
[[nodiscard]] std::string canonical(const value& v);

// For scripts: one line with its end, keys in the order they were added, no white space.
[[nodiscard]] std::string one_line(const value& v);

// For people: two-space indentation, keys in the order they were added, a final line end.
[[nodiscard]] std::string pretty(const value& v);

// The text, or null where it is empty: what is not known is null.
[[nodiscard]] value text_or_null(const std::string& text);

// A list of what a value can be made of.
template <typename List>
[[nodiscard]] value list_of(const List& all) {
  array out;
  out.reserve(all.size());
  for (const auto& one : all)
    out.emplace_back(one);
  return out;
}

} // namespace qb::json
