// One pass from left to right: no white space, each key after the one before, minimal escapes.
#include "core/base/canonical_text.hpp"

#include "core/base/json.hpp"
#include "core/base/text.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>

namespace qb::json {

namespace {

// What a byte within a text is.
enum class letter : std::uint8_t { plain, quote, backslash, high, rubout, never };

constexpr std::size_t bytes_there_are = 256;

constexpr std::array<letter, bytes_there_are> all_letters() {
  std::array<letter, bytes_there_are> out{};
  constexpr std::size_t first_plain = 0x20;
  constexpr std::size_t first_high = 0x80;
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = i < first_plain ? letter::never : i < first_high ? letter::plain : letter::high;
  out['"'] = letter::quote;
  out['\\'] = letter::backslash;
  out[first_high - 1] = letter::rubout;
  return out;
}
constexpr std::array<letter, bytes_there_are> letters = all_letters();

// The escapes that have a letter, and what they stand for.
constexpr std::string_view escapes = "\"\\bfnrt";
constexpr std::string_view escaped = "\"\\\b\f\n\r\t";

// To the next byte that may be more than plain, eight looked at together; fewer than eight are left
// to whoever asks.
const char* skip_plain(const char* at, const char* end) {
  constexpr std::uint64_t ones = 0x0101010101010101U;
  constexpr std::uint64_t highs = ones << 7U;
  constexpr std::ptrdiff_t together = sizeof(std::uint64_t);
  for (; end - at >= together; at += together) {
    std::uint64_t eight = 0;
    std::memcpy(&eight, at, sizeof(eight));
    // Each byte's highest bit tells: below a space, over the plain ones, or the same as a mark.
    // What it borrows or carries is from a byte before it that tells so itself.
    const auto same = [&](char mark) {
      return (eight ^ (ones * static_cast<unsigned char>(mark))) - ones;
    };
    constexpr std::uint64_t spaces = ones * 0x20U;
    const std::uint64_t found =
        ((eight - spaces) | (eight + ones) | same('"') | same('\\')) & highs;
    if (found == 0) continue;
    constexpr int bits = 8;
    constexpr bool first_is_lowest = std::endian::native == std::endian::little;
    return first_is_lowest ? at + std::countr_zero(found) / bits : at;
  }
  return at;
}

// Mostly the first letter tells, and that costs no call.
bool is_after(std::string_view key, std::string_view before) {
  if (key.empty() || before.empty() || key.front() == before.front()) return key > before;
  return static_cast<unsigned char>(key.front()) > static_cast<unsigned char>(before.front());
}

} // namespace

const spot* spot::find(std::string_view key) const {
  if (what != kind::members) return nullptr;
  const spot* at = this + 1;
  for (std::uint32_t i = 0; i < count; ++i) {
    if (at->bytes == key) return at + 1;
    at = (at + 1)->after();
  }
  return nullptr;
}

std::string spot::text() const {
  if (!is_escaped) return std::string(bytes);
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const bool is_escape = bytes[i] == '\\';
    out += is_escape ? escaped[escapes.find(bytes[i + 1])] : bytes[i];
    i += is_escape ? 1 : 0;
  }
  return out;
}

const spot* canonical_scan::scan(std::string_view text, const std::vector<proved_object>& proved) {
  row_.clear();
  if (text.size() > most_bytes) return nullptr;
  proved_ = &proved;
  at_ = text.data();
  end_ = at_ + text.size();
  return value(0, {}) && at_ == end_ ? row_.data() : nullptr;
}

// Places of one text, keys among them: more than any log's, and a bound on memory.
constexpr std::size_t most_spots = 1'000'000;

bool canonical_scan::value(int depth, std::string_view key) {
  if (at_ == end_ || row_.size() >= most_spots) return false;
  switch (*at_) {
  case '{': return skipped(key) || object(depth + 1);
  case '[': return list(depth + 1);
  case '"': return string();
  case 'n': return word("null", spot::kind::null);
  case 'f': return word("false", spot::kind::no);
  case 't': return word("true", spot::kind::yes);
  default: return number();
  }
}

bool canonical_scan::skipped(std::string_view key) {
  const std::string_view rest(at_, static_cast<std::size_t>(end_ - at_));
  for (const proved_object& one : *proved_) {
    if (one.key != key || rest.substr(0, one.bytes.size()) != one.bytes) continue;
    spot& out = row_.emplace_back();
    out.what = spot::kind::members;
    out.bytes = rest.substr(0, one.bytes.size());
    at_ += one.bytes.size();
    return true;
  }
  return false;
}

bool canonical_scan::ends(std::size_t here, const char* begin, spot::kind what,
                          std::uint32_t count) {
  ++at_;
  spot& out = row_[here];
  out.what = what;
  out.count = count;
  out.width = static_cast<std::uint32_t>(row_.size() - here);
  out.bytes = from(begin);
  return true;
}

bool canonical_scan::object(int depth) {
  if (depth > most_depth) return false;
  const std::size_t here = row_.size();
  const char* begin = at_;
  row_.emplace_back();
  std::string_view before;
  std::uint32_t count = 0;
  ++at_;
  while (!next_is('}')) {
    if (count > 0 && !next_is(',')) return false;
    at_ += count > 0 ? 1 : 0;
    if (!next_is('"') || !string()) return false;
    const std::string_view key = row_.back().bytes;
    if (!row_.back().is_plain || (count > 0 && !is_after(key, before)) || !next_is(':'))
      return false;
    ++at_;
    if (!value(depth, key)) return false;
    before = key;
    ++count;
  }
  return ends(here, begin, spot::kind::members, count);
}

bool canonical_scan::list(int depth) {
  if (depth > most_depth) return false;
  const std::size_t here = row_.size();
  const char* begin = at_;
  row_.emplace_back();
  std::uint32_t count = 0;
  ++at_;
  while (!next_is(']')) {
    if (count > 0 && !next_is(',')) return false;
    at_ += count > 0 ? 1 : 0;
    if (!value(depth, {})) return false;
    ++count;
  }
  return ends(here, begin, spot::kind::items, count);
}

bool canonical_scan::string() {
  const char* begin = ++at_;
  bool is_escaped = false;
  bool is_high = false;
  bool is_rubout = false;
  for (;;) {
    at_ = skip_plain(at_, end_);
    while (at_ != end_ && letters[static_cast<unsigned char>(*at_)] == letter::plain)
      ++at_;
    if (at_ == end_) return false;
    const letter what = letters[static_cast<unsigned char>(*at_)];
    if (what == letter::quote) break;
    if (what == letter::never) return false;
    is_high = is_high || what == letter::high;
    is_rubout = is_rubout || what == letter::rubout;
    if (what == letter::backslash) {
      is_escaped = true;
      ++at_;
      if (at_ == end_ || escapes.find(*at_) == escapes.npos) return false;
    }
    ++at_;
  }
  spot& out = row_.emplace_back();
  out.what = spot::kind::text;
  out.is_escaped = is_escaped;
  out.is_plain = !is_escaped && !is_high && !is_rubout;
  out.bytes = from(begin);
  ++at_;
  return !is_high || is_utf8(out.bytes);
}

bool canonical_scan::number() {
  constexpr std::ptrdiff_t most_digits = 16; // of the largest number
  const char* begin = at_;
  const bool is_negative = next_is('-');
  at_ += is_negative ? 1 : 0;
  const char* digits = at_;
  std::int64_t n = 0;
  while (at_ != end_ && *at_ >= '0' && *at_ <= '9' && at_ - digits < most_digits)
    n = n * 10 + (*at_++ - '0');
  const bool is_whole = at_ != digits && (*digits != '0' || (at_ - digits == 1 && !is_negative));
  const bool is_longer =
      at_ != end_ && ((*at_ >= '0' && *at_ <= '9') || *at_ == '.' || *at_ == 'e' || *at_ == 'E');
  if (!is_whole || is_longer || n > most_whole) return false;
  spot& out = row_.emplace_back();
  out.what = spot::kind::whole;
  out.number = is_negative ? -n : n;
  out.bytes = from(begin);
  return true;
}

bool canonical_scan::word(std::string_view text, spot::kind what) {
  if (std::string_view(at_, static_cast<std::size_t>(end_ - at_)).substr(0, text.size()) != text)
    return false;
  spot& out = row_.emplace_back();
  out.what = what;
  out.bytes = {at_, text.size()};
  at_ += text.size();
  return true;
}

} // namespace qb::json
