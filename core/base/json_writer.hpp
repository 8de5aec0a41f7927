// The one writer of JSON: whatever this project writes as JSON goes through it.
// Values are written whole; what comes by the million, or would be a tree only to be written, is
// put piece by piece. Commas, quotes, escapes and indentation are decided here and nowhere else.
#pragma once

#include "core/base/json.hpp"

#include <cstdint>
#include <string>
#include <string_view>

namespace qb::json {

// How a text is laid out. Canonical is one line as well, and sorts the members of a value; whoever
// puts a canonical object piece by piece puts its keys in their order.
enum class style { canonical, one_line, pretty };

// Appends to `out`, which must outlive it. Every object and list that is opened must be closed, and
// in an object each value needs its key before it. Text after text is written where several values
// are put one after another; the line's end between them is the caller's.
class writer {
public:
  writer(std::string& out, style how) : out_(out), how_(how) {}

  void open_object() { open('{'); }
  void close_object() { close('}'); }
  void open_list() { open('['); }
  void close_list() { close(']'); }
  // The key of the next value.
  writer& key(std::string_view name);

  void null();
  void boolean(bool b);
  void integer(std::int64_t n);
  // A number by its digits, which must be a JSON number; they are written as they are.
  void digits(std::string_view n);
  // A text. What is no UTF-8 in it is replaced by U+FFFD.
  void text(std::string_view text);
  void put(const value& v);
  // The members of an object, into the object that is open.
  void members(const object& all);

  // The next value, or the closing bracket, stands on a line of its own also in one line.
  void break_line() { breaks_ = true; }

private:
  void open(char bracket);
  void close(char bracket);
  void begin_value();
  void new_line();
  void quoted(std::string_view text);

  std::string& out_;
  style how_;
  std::size_t depth_{0};
  bool is_first_{true}; // in the object or list that is open
  bool has_key_{false}; // the next value is a member's
  bool breaks_{false};
};

} // namespace qb::json
