// JSON values, and their reading on nlohmann-json's tokeniser.
// Its event interface is used because it shows duplicate keys and fractions as they are met.
#include "core/base/json.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

namespace qb::json {

value::value() = default;
value::value(std::nullptr_t) {}
value::value(bool b) : data_(b) {}
value::value(std::int64_t n) : data_(n) {}
value::value(int n) : data_(std::int64_t{n}) {}
value::value(decimal n) : data_(std::move(n)) {}
value::value(std::string text) : data_(std::move(text)) {}
value::value(const char* text) : data_(std::string(text)) {}
value::value(array items) : data_(std::move(items)) {}
value::value(object members) : data_(std::move(members)) {}
value::value(const value&) = default;
value::value(value&&) noexcept = default;
value& value::operator=(const value&) = default;
value& value::operator=(value&&) noexcept = default;
value::~value() = default;

namespace {

// Walks the text and counts lines, so that each value knows where it stands.
class counting_iterator {
public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  counting_iterator(const char* at, int* line) : start_(at), at_(at), line_(line) {}
  reference operator*() const { return *at_; }
  // A line begins with its first character and not with the line end before it: the tokeniser reads
  // one character beyond a number to see where it ends.
  counting_iterator& operator++() {
    if (at_ != start_ && at_[-1] == '\n') ++*line_;
    ++at_;
    return *this;
  }
  counting_iterator operator++(int) {
    counting_iterator before = *this;
    ++*this;
    return before;
  }
  bool operator==(const counting_iterator& other) const { return at_ == other.at_; }
  bool operator!=(const counting_iterator& other) const { return at_ != other.at_; }

private:
  const char* start_;
  const char* at_;
  int* line_;
};

// Each value takes more memory than its text.
constexpr std::size_t most_values = 500'000;

// Builds our values from the tokeniser's events; the first refusal ends the reading.
class builder : public nlohmann::json_sax<nlohmann::json> {
public:
  builder(const int* line, numbers taken) : line_(line), taken_(taken) {}

  bool null() override { return put(value{}); }
  bool boolean(bool b) override { return put(value{b}); }
  bool number_integer(number_integer_t n) override { return put_number(n); }
  bool number_unsigned(number_unsigned_t n) override {
    if (n > static_cast<number_unsigned_t>(most_whole)) return refuse_number();
    return put_number(static_cast<std::int64_t>(n));
  }
  bool number_float(number_float_t, const string_t& text) override {
    if (taken_ == numbers::exact) return put(value{decimal{text}});
    constexpr std::size_t enough = 40;
    return refuse("the number " + text.substr(0, enough),
                  "a whole number of at most 9007199254740991, without point or exponent");
  }
  bool string(string_t& text) override { return put(value{std::move(text)}); }
  bool binary(binary_t&) override { return refuse("binary data", "JSON text"); }
  bool start_object(std::size_t) override { return open(value{object{}}); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(value{array{}}); }
  bool end_array() override { return close(); }

  bool key(string_t& text) override {
    if (is_there(text)) {
      constexpr std::size_t enough = 40;
      return refuse(text.size() > enough ? "a field twice" : "the field \"" + text + "\" twice",
                    "each field once");
    }
    levels_.back().key = std::move(text);
    return true;
  }

  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& e) override {
    if (no_) return false;
    constexpr int number_overflow = 406; // the library's own id
    if (e.id == number_overflow) return refuse_number();
    // The library adds what it last read; that could be a person's name, so it is cut off.
    std::string found = e.what();
    found = found.substr(0, found.find("; last read"));
    if (const auto colon = found.find("error while"); colon != std::string::npos)
      found = found.substr(colon);
    return refuse("text that is not JSON (" + found + ")", "JSON");
  }

  std::optional<value> root;
  std::optional<refusal>& no() { return no_; }

private:
  // An object or a list that is open: the key of the next value, and those that were.
  struct level {
    std::string key;
    std::set<std::string> keys; // of an object of many, where looking through them all takes long
  };

  // Whether the object that is open has that key already. Few are looked through; many are sorted,
  // so that whoever chooses the keys cannot choose how long a search is.
  bool is_there(const std::string& key) {
    constexpr std::size_t few = 16;
    const object& members = *stack_.back().members();
    if (members.size() <= few)
      return std::any_of(members.begin(), members.end(),
                         [&](const member& m) { return m.first == key; });
    std::set<std::string>& keys = levels_.back().keys;
    if (keys.empty())
      for (const member& m : members)
        keys.insert(m.first);
    return !keys.insert(key).second;
  }

  bool refuse(std::string found, std::string expected) {
    no_ = refusal{refusal_kind::malformed, "", fmt::format("line {}", *line_), std::move(found),
                  std::move(expected)};
    return false;
  }
  bool refuse_number() { return refuse("a number beyond 9007199254740991", "a smaller number"); }
  bool put_number(std::int64_t n) {
    if (n > most_whole || n < -most_whole) return refuse_number();
    return put(value{n});
  }
  bool put(value v) {
    if (++values_ > most_values)
      return refuse("more values", fmt::format("at most {}", most_values));
    v.set_line(*line_);
    if (stack_.empty()) {
      root = std::move(v);
    } else if (object* members = stack_.back().members()) {
      members->emplace_back(std::move(levels_.back().key), std::move(v));
    } else {
      stack_.back().items()->push_back(std::move(v));
    }
    return true;
  }
  bool open(value v) {
    if (static_cast<int>(stack_.size()) >= most_depth)
      return refuse("deeper nesting", fmt::format("at most {} levels", most_depth));
    v.set_line(*line_);
    stack_.push_back(std::move(v));
    levels_.emplace_back();
    return true;
  }
  bool close() {
    value v = std::move(stack_.back());
    stack_.pop_back();
    levels_.pop_back();
    return put(std::move(v));
  }

  const int* line_;
  numbers taken_;
  std::size_t values_{0};
  std::vector<value> stack_;
  std::vector<level> levels_;
  std::optional<refusal> no_;
};

// The tokeniser keeps white space for its message, and words each character of it in eight.
constexpr std::size_t most_blanks = 65536;

bool is_mostly_blank(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  for (std::size_t at = text.find_first_of(blanks); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_not_of(blanks, at), text.size());
    if (end - at > most_blanks) return true;
    at = text.find_first_of(blanks, end);
  }
  return false;
}

} // namespace

const value* value::find(std::string_view key) const {
  const object* all = members();
  if (all == nullptr) return nullptr;
  for (const member& m : *all) {
    if (m.first == key) return &m.second;
  }
  return nullptr;
}

value& value::set(std::string key, value v) {
  object* all = members();
  QB_BELIEVE(all != nullptr && find(key) == nullptr);
  all->emplace_back(std::move(key), std::move(v));
  return *this;
}

std::string value::kind_in_words() const {
  if (boolean() != nullptr) return "true or false";
  if (integer() != nullptr) return "a whole number";
  if (digits() != nullptr) return "a number with a fraction";
  if (text() != nullptr) return "a text";
  if (items() != nullptr) return "a list";
  if (members() != nullptr) return "an object";
  return "null";
}

result<value> parse(std::string_view text, numbers taken) {
  if (text.size() > most_bytes)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "",
                                  fmt::format("{} bytes", text.size()),
                                  fmt::format("at most {} bytes", most_bytes)});
  // The tokeniser would take a zero byte for the end and never see what follows it.
  if (const auto zero = text.find('\0'); zero != std::string_view::npos) {
    const auto before = text.substr(0, zero);
    return tl::unexpected(
        refusal{refusal_kind::malformed, "",
                fmt::format("line {}", 1 + std::count(before.begin(), before.end(), '\n')),
                "a zero byte", "text"});
  }
  if (is_mostly_blank(text))
    return tl::unexpected(refusal{refusal_kind::malformed, "", "", "white space without end",
                                  fmt::format("at most {} characters of it on end", most_blanks)});
  int line = 1;
  builder build(&line, taken);
  const bool read =
      nlohmann::json::sax_parse(counting_iterator(text.data(), &line),
                                counting_iterator(text.data() + text.size(), &line), &build);
  if (build.no()) return tl::unexpected(*build.no());
  QB_BELIEVE(read && build.root.has_value());
  return std::move(*build.root);
}

value text_or_null(const std::string& text) {
  return text.empty() ? value(nullptr) : value(text);
}

} // namespace qb::json
