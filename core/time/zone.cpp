// Reading TZif files and answering what a civil time means.
// The layout is that of RFC 8536, section 3: a version 1 block that is skipped, then a block with
// 64-bit times, then the rule line between two line ends.
#include "core/time/zone.hpp"

#include "core/base/big_endian.hpp"
#include <algorithm>
#include <cctype>

namespace qb::inline times {

namespace {

using std::chrono::seconds;
using std::chrono::sys_seconds;

constexpr std::size_t header_size = 44;

// Big-endian numbers out of a byte string; reading past the end is a believed impossibility, since
// sizes are checked before.
class byte_reader {
public:
  explicit byte_reader(std::string_view bytes) : bytes_(bytes) {}
  [[nodiscard]] std::uint64_t big_endian(std::size_t from, std::size_t width) const {
    QB_BELIEVE(from + width <= bytes_.size());
    return qb::big_endian(bytes_.substr(from, width));
  }
  [[nodiscard]] std::size_t count(std::size_t from) const {
    return static_cast<std::size_t>(big_endian(from, 4));
  }

private:
  std::string_view bytes_;
};

struct block {
  std::size_t ut_flags, std_flags, leaps, times, types, letters;
  [[nodiscard]] std::size_t size(std::size_t time_width) const {
    return times * time_width + times + types * 6 + letters + leaps * (time_width + 4) + std_flags +
           ut_flags;
  }
};

block counts_at(const byte_reader& in, std::size_t header) {
  return {in.count(header + 20), in.count(header + 24), in.count(header + 28),
          in.count(header + 32), in.count(header + 36), in.count(header + 40)};
}

refusal bad_file(const std::string& name, const char* found) {
  return {refusal_kind::malformed, "zone " + name, "", found, "a TZif file of version 2 or later"};
}

bool is_header(std::string_view bytes, std::size_t at) {
  return bytes.size() >= at + header_size && bytes.substr(at, 4) == "TZif" && bytes[at + 4] >= '2';
}

} // namespace

zone zone::fixed(std::string name, seconds offset) {
  zone z;
  z.name_ = std::move(name);
  z.first_offset_ = offset;
  return z;
}

result<zone> zone::read(std::string name, std::string_view bytes) {
  constexpr std::size_t most = 1U << 20U;
  if (bytes.size() > most || !is_header(bytes, 0))
    return tl::unexpected(bad_file(name, "another kind of file"));
  const byte_reader in(bytes);
  const std::size_t second = header_size + counts_at(in, 0).size(4);
  if (!is_header(bytes, second)) return tl::unexpected(bad_file(name, "no second block"));
  const block n = counts_at(in, second);
  const std::size_t data = second + header_size;
  if (n.types == 0 || data + n.size(8) > bytes.size())
    return tl::unexpected(bad_file(name, "a file that ends too early"));

  const std::size_t indices = data + n.times * 8;
  const std::size_t types = indices + n.times;
  const auto offset_of = [&](std::size_t type) {
    return seconds{static_cast<std::int32_t>(in.big_endian(types + type * 6, 4))};
  };
  zone z = fixed(std::move(name), offset_of(0));
  for (std::size_t i = 0; i < n.times; ++i) {
    const sys_seconds at{seconds{static_cast<std::int64_t>(in.big_endian(data + i * 8, 8))}};
    const auto type = static_cast<std::size_t>(in.big_endian(indices + i, 1));
    if (type >= n.types || (!z.changes_.empty() && at <= z.changes_.back().at))
      return tl::unexpected(bad_file(z.name_, "changes out of order"));
    z.changes_.push_back({at, offset_of(type)});
  }
  std::string_view rest = bytes.substr(data + n.size(8));
  if (rest.size() >= 2 && rest.front() == '\n' && rest.back() == '\n')
    rest = rest.substr(1, rest.size() - 2);
  if (!rest.empty()) {
    z.rule_ = parse_posix_rule(rest);
    if (!z.rule_) return tl::unexpected(bad_file(z.name_, "a rule line that cannot be read"));
  }
  return z;
}

seconds zone::offset_at(instant t) const {
  const auto whole = std::chrono::floor<seconds>(t);
  if (!changes_.empty() && whole < changes_.front().at) return first_offset_;
  if (rule_ && (changes_.empty() || whole >= changes_.back().at)) return rule_->offset_at(whole);
  const auto after = std::upper_bound(changes_.begin(), changes_.end(), whole,
                                      [](sys_seconds x, const change& c) { return x < c.at; });
  return after == changes_.begin() ? first_offset_ : std::prev(after)->offset;
}

civil_meaning zone::meaning_of(civil_time t) const {
  // Every offset in use around t turns the civil time into a candidate; those whose own offset
  // agrees are its meanings. Offsets are looked for a little over a day to either side, which
  // covers the largest jumps there are (a skipped calendar day).
  const instant as_if_utc{std::chrono::milliseconds{t.time_since_epoch()}};
  constexpr std::chrono::hours reach{50};    // two days and a little
  constexpr std::chrono::minutes stride{15}; // far less than any offset lasts
  std::vector<instant> meanings;
  std::vector<seconds> seen;
  for (instant probe = as_if_utc - reach; probe <= as_if_utc + reach; probe += stride) {
    const seconds offset = offset_at(probe);
    if (std::find(seen.begin(), seen.end(), offset) != seen.end()) continue;
    seen.push_back(offset);
    const instant candidate = as_if_utc - offset;
    if (offset_at(candidate) == offset) meanings.push_back(candidate);
  }
  std::sort(meanings.begin(), meanings.end());
  if (meanings.size() == 1) return unique_time{meanings.front()};
  if (meanings.size() >= 2) return twofold_time{meanings.front(), meanings.back()};

  // None: clocks jump over t. Find the jump between the earliest and the latest candidate.
  const auto [least, largest] = std::minmax_element(seen.begin(), seen.end());
  instant before = as_if_utc - *largest - seconds{1};
  instant after = as_if_utc - *least + seconds{1};
  const auto shows_less = [&](instant x) { return x + offset_at(x) < as_if_utc; };
  while (after - before > seconds{1}) {
    const instant middle = before + std::chrono::floor<seconds>((after - before) / 2);
    (shows_less(middle) ? before : after) = middle;
  }
  return missing_time{after, civil_at(before), civil_at(after)};
}

civil_time zone::civil_at(instant t) const {
  const auto local = t + offset_at(t);
  return std::chrono::floor<civil_minutes>(
      std::chrono::local_time<std::chrono::milliseconds>{local.time_since_epoch()});
}

bool is_zone_name(std::string_view name) {
  constexpr std::size_t most = 64;
  if (name.empty() || name.size() > most || name.front() == '/' || name.back() == '/') return false;
  return name.find("//") == std::string_view::npos &&
         std::all_of(name.begin(), name.end(), [](char c) {
           return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '+' ||
                  c == '-' || c == '/';
         });
}

} // namespace qb::inline times
