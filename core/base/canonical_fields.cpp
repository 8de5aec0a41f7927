// Each question as `fields` asks it, in the same bounds.
#include "core/base/canonical_fields.hpp"

#include "core/base/text.hpp"

#include <algorithm>

namespace qb::json {

namespace {

bool is_one_line(std::string_view text) {
  return std::none_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20U || byte == 0x7FU;
  });
}

// As many characters as bytes, at most.
bool is_within(std::string_view text, std::size_t most) {
  return text.size() <= most || character_count(text) <= most;
}

} // namespace

const spot* canonical_fields::take(const char* key, bool is_required) {
  if (failed_) return nullptr;
  const std::string_view name(key);
  // Fields are mostly asked for in their order: from the one after the last, and around.
  for (std::uint32_t tried = 0; tried < v_.count; ++tried, ++next_) {
    if (next_ == v_.count) {
      next_ = 0;
      next_at_ = &v_ + 1;
    }
    const spot* at = next_at_;
    next_at_ = (at + 1)->after();
    if (at->bytes != name) continue;
    asked_ |= std::uint64_t{1} << next_++;
    return at + 1;
  }
  failed_ = is_required;
  return nullptr;
}

const spot* canonical_fields::take(const char* key, spot::kind what) {
  const spot* v = take(key, true);
  if (v == nullptr || v->what == what) return v;
  failed_ = true;
  return nullptr;
}

std::string canonical_fields::text(const char* key, std::size_t most, bool may_be_empty) {
  const spot* v = take(key, spot::kind::text);
  if (v == nullptr) return {};
  if (v->is_plain && v->bytes.size() <= most && !v->bytes.empty()) return std::string(v->bytes);
  std::string text = v->text();
  if (!is_within(text, most) || (text.empty() && !may_be_empty) || !is_one_line(text))
    failed_ = true;
  return text;
}

std::optional<std::string> canonical_fields::optional_text(const char* key) {
  if (take(key, false) == nullptr) return std::nullopt;
  return text(key);
}

std::string_view canonical_fields::plain_text(const char* key) {
  const spot* v = take(key, spot::kind::text);
  if (v == nullptr) return {};
  failed_ = !v->is_plain || v->bytes.empty() || v->bytes.size() > usual_text;
  return v->bytes;
}

std::size_t canonical_fields::choice(const char* key, const std::vector<std::string>& choices) {
  const spot* v = take(key, spot::kind::text);
  if (v == nullptr) return 0;
  const auto at = std::find(choices.begin(), choices.end(), v->bytes);
  failed_ = at == choices.end() || v->is_escaped;
  return failed_ ? 0 : static_cast<std::size_t>(at - choices.begin());
}

std::int64_t canonical_fields::integer(const char* key, std::int64_t least, std::int64_t most) {
  const spot* v = take(key, spot::kind::whole);
  if (v == nullptr) return least;
  failed_ = v->number < least || v->number > most;
  return failed_ ? least : v->number;
}

std::optional<std::int64_t> canonical_fields::optional_integer(const char* key, std::int64_t least,
                                                               std::int64_t most) {
  if (take(key, false) == nullptr) return std::nullopt;
  return integer(key, least, most);
}

bool canonical_fields::boolean(const char* key) {
  const spot* v = take(key, true);
  if (v == nullptr) return false;
  failed_ = v->what != spot::kind::yes && v->what != spot::kind::no;
  return v->what == spot::kind::yes;
}

void canonical_fields::null(const char* key) {
  (void)take(key, spot::kind::null);
}

std::vector<std::string> canonical_fields::texts(const char* key, std::size_t least,
                                                 std::size_t most) {
  std::vector<std::string> all;
  for (const spot* item : children(key, least, most)) {
    if (item->what != spot::kind::text) {
      failed_ = true;
      return {};
    }
    all.push_back(item->text());
    failed_ = failed_ || all.back().empty() || !is_one_line(all.back());
  }
  return all;
}

const spot* canonical_fields::child(const char* key) {
  return take(key, spot::kind::members);
}

const spot* canonical_fields::nullable_child(const char* key) {
  const spot* v = take(key, true);
  return v == nullptr || v->is_null() ? nullptr : child(key);
}

std::vector<const spot*> canonical_fields::children(const char* key, std::size_t least,
                                                    std::size_t most) {
  const spot* v = take(key, spot::kind::items);
  if (v == nullptr) return {};
  if (v->count < least || v->count > most) {
    failed_ = true;
    return {};
  }
  std::vector<const spot*> all;
  all.reserve(v->count);
  const spot* item = v + 1;
  for (std::uint32_t i = 0; i < v->count; ++i, item = item->after())
    all.push_back(item);
  return all;
}

bool canonical_fields::finish() {
  const std::uint64_t every =
      v_.count == most_counted ? ~std::uint64_t{0} : (std::uint64_t{1} << v_.count) - 1;
  failed_ = failed_ || asked_ != every;
  return failed_;
}

} // namespace qb::json
