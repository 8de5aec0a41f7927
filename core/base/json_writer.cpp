// Layout of JSON; nlohmann-json's own writer is asked for the escapes of a text alone.
// Written directly: a log is made canonical event by event, and a copy of each as the library's own
// tree took a quarter of an import.
#include "core/base/json_writer.hpp"

#include <algorithm>
#include <charconv>
#include <limits>
#include <nlohmann/json.hpp>

namespace qb::json {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// How many digits stand at the beginning.
std::size_t digits_in(std::string_view text) {
  return static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), is_digit) -
                                  text.begin());
}

// RFC 8259, section 6: -12.50e+3, without a zero before other digits.
bool is_number(std::string_view text) {
  if (!text.empty() && text.front() == '-') text.remove_prefix(1);
  const std::size_t whole = digits_in(text);
  if (whole == 0 || (whole > 1 && text.front() == '0')) return false;
  text.remove_prefix(whole);
  if (!text.empty() && text.front() == '.') {
    const std::size_t after_point = digits_in(text.substr(1));
    if (after_point == 0) return false;
    text.remove_prefix(1 + after_point);
  }
  if (text.empty()) return true;
  if (text.front() != 'e' && text.front() != 'E') return false;
  text.remove_prefix(1);
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) text.remove_prefix(1);
  return !text.empty() && digits_in(text) == text.size();
}

std::string written(const value& v, style how) {
  std::string out;
  writer(out, how).put(v);
  return out;
}

} // namespace

void writer::new_line() {
  if (how_ == style::pretty) {
    out_ += '\n';
    out_.append(2 * depth_, ' ');
  } else if (breaks_) {
    out_ += '\n';
  }
  breaks_ = false;
}

void writer::begin_value() {
  if (has_key_) {
    has_key_ = false;
  } else if (depth_ > 0) {
    if (!is_first_) out_ += ',';
    new_line();
  }
  is_first_ = false;
}

void writer::open(char bracket) {
  begin_value();
  out_ += bracket;
  ++depth_;
  is_first_ = true;
}

void writer::close(char bracket) {
  QB_BELIEVE(depth_ > 0 && !has_key_);
  --depth_;
  if (!is_first_ || breaks_) new_line();
  out_ += bracket;
  is_first_ = false;
}

writer& writer::key(std::string_view name) {
  QB_BELIEVE(depth_ > 0 && !has_key_);
  begin_value();
  quoted(name);
  out_ += how_ == style::pretty ? ": " : ":";
  has_key_ = true;
  return *this;
}

void writer::null() {
  begin_value();
  out_ += "null";
}

void writer::boolean(bool b) {
  begin_value();
  out_ += b ? "true" : "false";
}

void writer::integer(std::int64_t n) {
  begin_value();
  std::array<char, std::numeric_limits<std::int64_t>::digits10 + 3> text{}; // sign and first digit
  const auto end = std::to_chars(text.data(), text.data() + text.size(), n).ptr;
  out_.append(text.data(), end);
}

void writer::digits(std::string_view n) {
  QB_BELIEVE(is_number(n));
  begin_value();
  out_ += n;
}

void writer::text(std::string_view text) {
  begin_value();
  quoted(text);
}

// Plain text goes as it is; the library writes what needs escaping or is no UTF-8.
void writer::quoted(std::string_view text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return c >= ' ' && c <= '~' && c != '"' && c != '\\';
  });
  constexpr auto replace = nlohmann::json::error_handler_t::replace;
  if (plain)
    out_.append(1, '"').append(text).append(1, '"');
  else
    out_ += nlohmann::json(text).dump(-1, ' ', false, replace);
}

void writer::members(const object& all) {
  if (how_ != style::canonical) {
    for (const member& m : all)
      key(m.first).put(m.second);
    return;
  }
  std::vector<const member*> sorted;
  for (const member& m : all)
    sorted.push_back(&m);
  std::sort(sorted.begin(), sorted.end(),
            [](const member* left, const member* right) { return left->first < right->first; });
  for (const member* m : sorted)
    key(m->first).put(m->second);
}

void writer::put(const value& v) {
  if (const bool* b = v.boolean()) return boolean(*b);
  if (const std::int64_t* n = v.integer()) return integer(*n);
  if (const std::string* n = v.digits()) return digits(*n);
  if (const std::string* s = v.text()) return text(*s);
  if (const array* items = v.items()) {
    open_list();
    for (const value& item : *items)
      put(item);
    return close_list();
  }
  if (const object* all = v.members()) {
    open_object();
    members(*all);
    return close_object();
  }
  null();
}

std::string canonical(const value& v) {
  return written(v, style::canonical);
}

std::string one_line(const value& v) {
  return written(v, style::one_line) + "\n";
}

std::string pretty(const value& v) {
  return written(v, style::pretty) + "\n";
}

} // namespace qb::json
