// The questions of `fields`, asked of a text that is canonical: the same answers wherever `fields`
// has one. Where it would refuse, this only fails, without saying why.
#pragma once

#include "core/base/canonical_text.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::json {

// What a reader of one object's fields may ask, as of `fields` (core/base/json_fields.hpp), so that
// one reader serves both. An object of more members than it can keep count of fails.
class canonical_fields {
public:
  struct no_place {}; // nothing is told of where a value stands

  explicit canonical_fields(const spot& v, no_place = {}) : v_(v) {
    failed_ = v.what != spot::kind::members || v.count > most_counted;
  }

  std::string text(const char* key, std::size_t most = usual_text, bool may_be_empty = false);
  std::optional<std::string> optional_text(const char* key);
  // The same as `text`, as it stands: for a text that is read on, and never has letters beyond
  // ASCII or escapes in it; one that has fails.
  std::string_view plain_text(const char* key);
  std::size_t choice(const char* key, const std::vector<std::string>& choices);
  std::int64_t integer(const char* key, std::int64_t least, std::int64_t most);
  std::optional<std::int64_t> optional_integer(const char* key, std::int64_t least,
                                               std::int64_t most);
  bool boolean(const char* key);
  [[nodiscard]] bool has(const char* key) const { return v_.find(key) != nullptr; }
  void null(const char* key);
  std::vector<std::string> texts(const char* key, std::size_t least, std::size_t most);
  const spot* child(const char* key);
  const spot* nullable_child(const char* key);
  std::vector<const spot*> children(const char* key, std::size_t least, std::size_t most);

  template <typename... Where>
  [[nodiscard]] no_place place(const Where&...) const {
    return {};
  }
  template <typename... Why>
  void refuse(const Why&...) {
    failed_ = true;
  }
  void absorb(bool failed) { failed_ = failed_ || failed; }
  [[nodiscard]] bool failed() const { return failed_; }
  // Whether anything failed, or a member was not asked for. Must be called once, last.
  [[nodiscard]] bool finish();

private:
  static constexpr std::size_t usual_text = 400;
  static constexpr std::uint32_t most_counted = 64;

  // The member of that name; nullptr after a failure, and where there is none.
  const spot* take(const char* key, bool is_required);
  const spot* take(const char* key, spot::kind what);

  const spot& v_;
  std::uint64_t asked_{0}; // one bit a member, in its order
  std::uint32_t next_{0};  // the member that is looked at first, and where its key stands
  const spot* next_at_{&v_ + 1};
  bool failed_{false};
};

} // namespace qb::json
