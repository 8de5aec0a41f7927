// The strict field reader: each question names a field, its type and its range.
#include "core/base/json_fields.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::json {

namespace {

bool has_control_characters(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20U || byte == 0x7FU;
  });
}

std::string range_in_words(std::int64_t least, std::int64_t most) {
  return fmt::format("a whole number from {} to {}", least, most);
}

} // namespace

bool is_plain_line(const std::string& text) {
  return !has_control_characters(text) && is_utf8(text);
}

std::string shown(const value& v) {
  if (const std::int64_t* n = v.integer()) return fmt::format("{}", *n);
  if (const bool* b = v.boolean()) return *b ? "true" : "false";
  if (const std::string* s = v.text()) {
    constexpr std::size_t enough = 40;
    if (s->size() > enough) return "a long text";
    return is_plain_line(*s) ? "\"" + *s + "\"" : "a text with control characters";
  }
  return v.kind_in_words();
}

fields::fields(const value& v, std::string path) : v_(v), path_(std::move(path)) {
  if (v.members() == nullptr) refuse("", v.kind_in_words(), "an object");
}

std::string fields::place(const std::string& key) const {
  if (key.empty()) return path_;
  return path_.empty() ? key : path_ + "." + key;
}

std::string fields::place(const std::string& key, std::size_t index) const {
  return fmt::format("{}[{}]", place(key), index);
}

std::string fields::where(const std::string& key, int line) const {
  const std::string field = place(key);
  if (line == 0) return field;
  return field.empty() ? fmt::format("line {}", line) : fmt::format("line {}: {}", line, field);
}

void fields::refuse(const char* key, const std::string& found, const std::string& expected,
                    refusal_kind kind) {
  if (no_) return;
  const value* at = v_.find(key);
  no_ = refusal{kind, "", where(key, at != nullptr ? at->line() : v_.line()), found, expected};
}

void fields::absorb(const std::optional<refusal>& no) {
  if (!no_ && no) no_ = no;
}

const value* fields::take(const char* key, bool required) {
  asked_.insert(key);
  const value* found = v_.find(key);
  if (found == nullptr && required) refuse(key, "nothing", "this field", refusal_kind::missing);
  return no_ ? nullptr : found;
}

std::string fields::text(const char* key, std::size_t most, bool may_be_empty) {
  const value* v = take(key, true);
  if (v == nullptr) return {};
  const std::string* s = v->text();
  if (s == nullptr) {
    refuse(key, v->kind_in_words(), "a text");
    return {};
  }
  if (character_count(*s) > most || (s->empty() && !may_be_empty)) {
    refuse(key, fmt::format("{} characters of text", character_count(*s)),
           fmt::format("{} to {} characters", may_be_empty ? 0 : 1, most),
           refusal_kind::out_of_range);
    return {};
  }
  if (has_control_characters(*s)) {
    refuse(key, "a control character", "text on one line");
    return {};
  }
  return *s;
}

std::optional<std::string> fields::optional_text(const char* key, std::size_t most) {
  if (take(key, false) == nullptr) return std::nullopt;
  return text(key, most);
}

std::size_t fields::choice(const char* key, const std::vector<std::string>& choices) {
  const value* v = take(key, true);
  if (v == nullptr) return 0;
  if (const std::string* s = v->text()) {
    const auto at = std::find(choices.begin(), choices.end(), *s);
    if (at != choices.end()) return static_cast<std::size_t>(at - choices.begin());
  }
  std::string all;
  for (const std::string& c : choices)
    all += (all.empty() ? "" : ", ") + c;
  refuse(key, shown(*v), "one of: " + all);
  return 0;
}

std::int64_t fields::integer(const char* key, std::int64_t least, std::int64_t most) {
  const value* v = take(key, true);
  if (v == nullptr) return least;
  const std::int64_t* n = v->integer();
  if (n == nullptr) {
    refuse(key, v->kind_in_words(), range_in_words(least, most));
    return least;
  }
  if (*n < least || *n > most) {
    refuse(key, shown(*v), range_in_words(least, most), refusal_kind::out_of_range);
    return least;
  }
  return *n;
}

std::optional<std::int64_t> fields::optional_integer(const char* key, std::int64_t least,
                                                     std::int64_t most) {
  if (take(key, false) == nullptr) return std::nullopt;
  return integer(key, least, most);
}

bool fields::boolean(const char* key) {
  const value* v = take(key, true);
  if (v == nullptr) return false;
  const bool* b = v->boolean();
  if (b == nullptr) refuse(key, v->kind_in_words(), "true or false");
  return b != nullptr && *b;
}

void fields::null(const char* key) {
  const value* v = take(key, true);
  if (v != nullptr && !v->is_null()) refuse(key, v->kind_in_words(), "null");
}

std::vector<std::string> fields::texts(const char* key, std::size_t least, std::size_t most) {
  const value* v = take(key, true);
  if (v == nullptr) return {};
  const array* items = v->items();
  if (items == nullptr || items->size() < least || items->size() > most) {
    refuse(key, items == nullptr ? v->kind_in_words() : fmt::format("{} items", items->size()),
           fmt::format("a list of {} to {} texts", least, most));
    return {};
  }
  std::vector<std::string> all;
  for (const value& item : *items) {
    const std::string* s = item.text();
    if (s == nullptr || s->empty() || has_control_characters(*s)) {
      refuse(key, s == nullptr ? item.kind_in_words() : "an empty text or a control character",
             "a list of texts, each on one line");
      return {};
    }
    all.push_back(*s);
  }
  return all;
}

std::optional<std::vector<std::string>> fields::optional_texts(const char* key, std::size_t least,
                                                               std::size_t most) {
  if (take(key, false) == nullptr) return std::nullopt;
  return texts(key, least, most);
}

std::vector<std::int64_t> fields::integers(const char* key, std::size_t least_items,
                                           std::size_t most_items, std::int64_t least,
                                           std::int64_t most) {
  const value* v = take(key, true);
  if (v == nullptr) return {};
  const array* items = v->items();
  if (items == nullptr || items->size() < least_items || items->size() > most_items) {
    refuse(key, items == nullptr ? v->kind_in_words() : fmt::format("{} items", items->size()),
           fmt::format("a list of {} to {} whole numbers", least_items, most_items));
    return {};
  }
  std::vector<std::int64_t> all;
  for (const value& item : *items) {
    const std::int64_t* n = item.integer();
    if (n == nullptr || *n < least || *n > most) {
      refuse(key, n == nullptr ? item.kind_in_words() : shown(item), range_in_words(least, most),
             n == nullptr ? refusal_kind::malformed : refusal_kind::out_of_range);
      return {};
    }
    all.push_back(*n);
  }
  return all;
}

const value* fields::child(const char* key) {
  const value* v = take(key, true);
  if (v != nullptr && v->members() == nullptr) {
    refuse(key, v->kind_in_words(), "an object");
    return nullptr;
  }
  return v;
}

const value* fields::optional_child(const char* key) {
  return take(key, false) == nullptr ? nullptr : child(key);
}

const value* fields::nullable_child(const char* key) {
  const value* v = take(key, true);
  return v == nullptr || v->is_null() ? nullptr : child(key);
}

std::vector<const value*> fields::children(const char* key, std::size_t least, std::size_t most) {
  const value* v = take(key, true);
  if (v == nullptr) return {};
  const array* items = v->items();
  if (items == nullptr || items->size() < least || items->size() > most) {
    refuse(key, items == nullptr ? v->kind_in_words() : fmt::format("{} items", items->size()),
           fmt::format("a list of {} to {} objects", least, most));
    return {};
  }
  std::vector<const value*> all;
  for (const value& item : *items)
    all.push_back(&item);
  return all;
}

std::optional<refusal> fields::finish() {
  if (no_ || v_.members() == nullptr) return no_;
  for (const member& m : *v_.members()) {
    if (asked_.count(m.first) != 0) continue;
    // Whatever stands there may be anything, also a person's words: only a field's name is shown.
    constexpr std::size_t enough = 40;
    const bool nameable =
        m.first.size() <= enough &&
        m.first.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos;
    no_ = refusal{refusal_kind::malformed, "",
                  where(nameable ? m.first : std::string(), m.second.line()),
                  "a field that is not known here", "only the fields of this format"};
    return no_;
  }
  return no_;
}

} // namespace qb::json
