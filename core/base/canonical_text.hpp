// A JSON text that is canonical already, proved in one pass: its values as places in the text, in
// one row, without a tree. What is kept by its hash is canonical, so this is all that most readers
// of such a text need; whoever gets no answer reads it by `parse`, which says what it is.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::json {

// One value, and where it stands. What is in an object or a list follows it in the row: each value,
// in an object after its key.
struct spot {
  enum class kind : std::uint8_t { null, no, yes, whole, text, items, members };
  kind what{kind::null};
  bool is_escaped{false};   // a text with escapes in it
  bool is_plain{false};     // a text of ASCII alone, on one line, without escapes
  std::uint32_t count{0};   // members or items
  std::uint32_t width{1};   // spots of it and all in it
  std::int64_t number{0};   // of a whole number
  std::string_view bytes{}; // as it stands; of a text without its quotes

  [[nodiscard]] bool is_null() const { return what == kind::null; }
  // The next value of the object or list that this one is in.
  [[nodiscard]] const spot* after() const { return this + width; }
  // The member of that name, or nullptr when this is no object or has none.
  [[nodiscard]] const spot* find(std::string_view key) const;
  // A text's characters, without escapes.
  [[nodiscard]] std::string text() const;
};

// An object that was proved before, under the key it is met under. It is told by its bytes, and
// what is in it is not looked at again: its spot has no members.
struct proved_object {
  std::string_view key;
  std::string_view bytes;
};

// Proves texts one after the other; the row is used again.
class canonical_scan {
public:
  // The first spot is the whole text; it and the text must outlive what is asked of it. nullptr
  // where the text is not canonical by what `parse` and `canonical` take and write, and in some
  // rare cases where it is: escapes by number, and keys that are not plain.
  [[nodiscard]] const spot* scan(std::string_view text, const std::vector<proved_object>& proved);

private:
  bool value(int depth, std::string_view key);
  bool object(int depth);
  bool list(int depth);
  bool string();
  bool number();
  bool word(std::string_view text, spot::kind what);
  bool skipped(std::string_view key);
  // The spot at `here`, which began there, ends: what it holds is known now.
  bool ends(std::size_t here, const char* begin, spot::kind what, std::uint32_t count);
  [[nodiscard]] bool next_is(char c) const { return at_ != end_ && *at_ == c; }
  [[nodiscard]] std::string_view from(const char* begin) const {
    return {begin, static_cast<std::size_t>(at_ - begin)};
  }

  std::vector<spot> row_;
  const std::vector<proved_object>* proved_{nullptr};
  const char* at_{nullptr};
  const char* end_{nullptr};
};

} // namespace qb::json
