// Events as JSON: the clocks' evidence, and the chain of hashes.
#include "core/record/codec.hpp"

#include "core/base/hex.hpp"
#include "core/base/json_fields.hpp"
#include "core/record/codec_kinds.hpp"
#include "core/record/codec_parts.hpp"
#include "core/session/limits.hpp"
#include "core/time/zone.hpp"

#include <array>
#include <sodium.h>

namespace qb::inline records {

namespace {

using json::fields;
using json::object;
using json::value;

constexpr std::int64_t most_offset_s = std::chrono::seconds{most_zone_offset}.count();

value encode_clock_reading(const clock_reading& r) {
  object at;
  at.emplace_back("wall", rfc3339_utc(r.wall));
  if (r.boot) {
    at.emplace_back("boot_ms", std::int64_t{r.boot->time_since_epoch().count()});
    at.emplace_back("boot", r.boot_id);
  }
  at.emplace_back("zone", r.zone);
  at.emplace_back("offset_s", std::int64_t{r.offset.count()});
  at.emplace_back("synchronised", r.synchronised);
  return at;
}

template <typename Value, typename Fields>
clock_reading decode_clock_reading(const Value& v, Fields& up) {
  Fields f(v, up.place("at"));
  clock_reading r;
  const auto wall = parse_rfc3339_utc(text_to_read(f, "wall"));
  if (wall) {
    r.wall = *wall;
  } else {
    f.refuse("wall", "another form", wall.error().expected);
  }
  const auto boot_ms = f.optional_integer("boot_ms", 0, json::most_whole);
  const auto boot = f.optional_text("boot");
  if (boot_ms.has_value() != boot.has_value())
    f.refuse("boot_ms", "one of boot_ms and boot", "both or neither");
  if (boot_ms) r.boot = boot_time{std::chrono::milliseconds{*boot_ms}};
  if (boot) r.boot_id = *boot;
  r.zone = f.text("zone");
  if (!f.failed() && !is_zone_name(r.zone)) f.refuse("zone", "another text", "a zone's IANA name");
  r.offset = std::chrono::seconds{f.integer("offset_s", -most_offset_s, most_offset_s)};
  r.synchronised = f.boolean("synchronised");
  up.absorb(f.finish());
  return r;
}

} // namespace

value encode_event(const event& e) {
  return object{{"seq", e.seq},
                {"kind", std::string(kind_name(e.what))},
                {"at", encode_clock_reading(e.at)},
                {"data", encode_payload(e.what)}};
}

namespace {

template <typename Fields>
event decode_fields(Fields& f, frozen_rules& known) {
  event e;
  e.seq = f.integer("seq", 1, json::most_whole);
  const std::string kind = f.text("kind");
  if (const auto* at = f.child("at")) e.at = decode_clock_reading(*at, f);
  if (auto p = decode_payload(kind, f, known)) e.what = std::move(*p);
  return e;
}

} // namespace

result<event> decode_event(const value& v, const std::string& place, frozen_rules& known) {
  fields f(v, place);
  event e = decode_fields(f, known);
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return e;
}

result<event> decode_event(const value& v, const std::string& place) {
  frozen_rules known;
  return decode_event(v, place, known);
}

std::optional<canonical_event> decode_event(const json::spot& v, frozen_rules& known) {
  json::canonical_fields f(v);
  canonical_event out{decode_fields(f, known), f.plain_text("hash")};
  if (f.finish()) return std::nullopt;
  return out;
}

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                     bytes.size());
  return hex_of({reinterpret_cast<const char*>(hash.data()), hash.size()});
}

std::string chain_start() {
  return std::string(crypto_hash_sha256_BYTES * 2, '0');
}

bool is_hash(std::string_view text) {
  return text.size() == crypto_hash_sha256_BYTES * 2 &&
         text.find_first_not_of("0123456789abcdef") == text.npos;
}

std::string chain_next(const std::string& previous, std::string_view body) {
  return sha256_hex(previous + "\n" + std::string(body));
}

} // namespace qb::inline records
