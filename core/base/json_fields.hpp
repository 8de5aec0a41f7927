// Strict reading of one JSON object's fields into strong types.
// One reader a type of object: every field is asked for by name, anything not asked for is refused.
#pragma once

#include "core/base/json.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace qb::json {

// Reads the fields of one object and keeps the first refusal; after one, every answer is a harmless
// default, so that a reader can be written straight down and checked once at the end by `finish`.
class fields {
public:
  // `path` is the place of `v` in its file, for messages ("sugar.forms[0]"; "" for the whole file).
  fields(const value& v, std::string path);

  // A required text of 1 to `most` characters without control characters (0 to `most` if
  // `may_be_empty`).
  std::string text(const char* key, std::size_t most = 400, bool may_be_empty = false);
  std::optional<std::string> optional_text(const char* key, std::size_t most = 400);
  // A required text that is one of `choices`; answers its index.
  std::size_t choice(const char* key, const std::vector<std::string>& choices);
  // A whole number in least..most, both included.
  std::int64_t integer(const char* key, std::int64_t least, std::int64_t most);
  std::optional<std::int64_t> optional_integer(const char* key, std::int64_t least,
                                               std::int64_t most);
  bool boolean(const char* key);
  // Whether there is such a field; it must still be read.
  [[nodiscard]] bool has(const char* key) const { return v_.find(key) != nullptr; }
  // A field that must be there and null.
  void null(const char* key);
  std::vector<std::string> texts(const char* key, std::size_t least, std::size_t most);
  std::optional<std::vector<std::string>> optional_texts(const char* key, std::size_t least,
                                                         std::size_t most);
  std::vector<std::int64_t> integers(const char* key, std::size_t least_items,
                                     std::size_t most_items, std::int64_t least, std::int64_t most);

  // An object or a list of least..most objects, each to be read by its own `fields`.
  const value* child(const char* key);
  const value* optional_child(const char* key);
  // An object or null, which is answered by nullptr. Must be there.
  const value* nullable_child(const char* key);
  std::vector<const value*> children(const char* key, std::size_t least, std::size_t most);

  // "sugar.forms[2]" for the child of that name, for the path of its own `fields`.
  [[nodiscard]] std::string place(const std::string& key) const;
  [[nodiscard]] std::string place(const std::string& key, std::size_t index) const;

  // Says no for a reason only the caller can see; kept if it is the first.
  void refuse(const char* key, const std::string& found, const std::string& expected,
              refusal_kind kind = refusal_kind::malformed);
  // Keeps another reader's refusal if it is the first here.
  void absorb(const std::optional<refusal>& no);
  [[nodiscard]] bool failed() const { return no_.has_value(); }

  // Must be called once, last: refuses unknown fields, then answers the first refusal if any.
  [[nodiscard]] std::optional<refusal> finish();

private:
  const value* take(const char* key, bool required);
  [[nodiscard]] std::string where(const std::string& key, int line) const;

  const value& v_;
  std::string path_;
  std::set<std::string> asked_;
  std::optional<refusal> no_;
};

// A short form of a value for messages: numbers as they are, texts of a plain line up to 40 bytes.
// Never used for personal fields: their readers say only what kind of value was found.
[[nodiscard]] std::string shown(const value& v);

// Whether a text is valid UTF-8 on one line, without control characters: what `text` reads.
[[nodiscard]] bool is_plain_line(const std::string& text);

} // namespace qb::json
