// Writing and reading the packed result, field by field beside each other.
#include "core/code/packed_result.hpp"

#include "core/code/byte_fields.hpp"
#include "core/code/flags.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::code {

namespace {

using std::chrono::seconds;

constexpr std::size_t digest_size = 4;
constexpr std::size_t tail_size = 8;
constexpr std::size_t id_bytes = 8;
constexpr unsigned skipped = 15;
constexpr std::uint64_t most_counted = 1000000;     // events, a bound on what is believed
constexpr std::uint64_t last_second = 253370764800; // the year 9999 begins
constexpr std::chrono::days longest_test{400}; // far beyond any; a larger figure is no code of ours
constexpr std::int64_t most_seconds = seconds{longest_test}.count();
constexpr std::int64_t most_offset = seconds{most_zone_offset}.count();
constexpr std::uint64_t most_flags = (std::uint64_t{1} << 48U) - 1;

// Bits of a sample's first byte.
constexpr unsigned repeated_bit = 4;
constexpr unsigned again_bit = 8;
constexpr unsigned corrected_bit = 16;
constexpr unsigned elapsed_bit = 32;
constexpr unsigned offset_bit = 64;
constexpr unsigned scores_bit = 128;

constexpr unsigned corrected_after_bit = 2; // of the first byte of scores that belong to no tube

bool is_short_id(const std::string& id) {
  return id.size() == 2 * id_bytes && id.find_first_not_of("0123456789abcdef") == std::string::npos;
}

unsigned half_byte(const std::optional<int>& score) {
  return score ? static_cast<unsigned>(*score) : skipped;
}

void put_id(const std::string& id, byte_writer& w) {
  if (!is_short_id(id)) return w.text(id);
  w.count(0);
  for (std::size_t i = 0; i < id.size(); i += 2)
    w.byte(static_cast<unsigned>(std::stoul(id.substr(i, 2), nullptr, 16)));
}

void put_drink(const packed_drink& d, byte_writer& w) {
  w.byte((d.start ? 1U : 0U) | (d.end ? 2U : 0U) | (d.all_of_it ? 4U : 0U) |
         static_cast<unsigned>(d.start_how) << 3U | static_cast<unsigned>(d.kept) << 5U);
  if (d.start) w.number(d.start->count());
  if (d.end) w.number(d.end->count());
}

void put_scores(const std::vector<std::optional<int>>& scores, byte_writer& w) {
  for (std::size_t i = 0; i < scores.size(); i += 2) {
    const unsigned second = i + 1 < scores.size() ? half_byte(scores[i + 1]) : skipped;
    w.byte(half_byte(scores[i]) << 4U | second);
  }
}

void put_sample(const packed_sample& t, seconds usual_offset, std::size_t symptoms,
                byte_writer& w) {
  const bool own_elapsed = t.taken && t.elapsed != t.closed;
  const bool own_offset = t.taken && t.offset != usual_offset;
  w.byte((t.taken ? static_cast<unsigned>(*t.taken) + 1 : 0U) | (t.repeated ? repeated_bit : 0U) |
         (t.again ? again_bit : 0U) | (t.corrected ? corrected_bit : 0U) |
         (own_elapsed ? elapsed_bit : 0U) | (own_offset ? offset_bit : 0U) |
         (t.scores.empty() ? 0U : scores_bit));
  if (t.taken) w.number(t.closed.count());
  if (own_elapsed) w.number(t.elapsed.count());
  if (own_offset) w.number(t.offset.count());
  QB_BELIEVE(t.scores.empty() || t.scores.size() == symptoms);
  put_scores(t.scores, w);
}

void put_after(const packed_after& t, std::size_t symptoms, byte_writer& w) {
  QB_BELIEVE(t.scores.size() == symptoms);
  w.byte(static_cast<unsigned>(t.what) | (t.corrected ? corrected_after_bit : 0U));
  w.number(t.elapsed.count());
  put_scores(t.scores, w);
}

std::string read_id(byte_reader& r) {
  std::string id = r.text("test id", 0, most_code_text);
  if (!id.empty()) {
    if (is_short_id(id)) r.refuse("test id", "16 digits written out", "their 8 bytes");
    return id;
  }
  for (const char c : r.raw("test id", id_bytes))
    id += fmt::format("{:02x}", static_cast<unsigned char>(c));
  return id;
}

packed_drink read_drink(byte_reader& r) {
  packed_drink d;
  const unsigned bits = r.byte("drink");
  const unsigned how = bits >> 3U & 3U;
  if (bits >= 128 || how == 3) r.refuse("drink", "bits that mean nothing", "those of version 1");
  d.start_how = static_cast<how_known>(how % 3);
  d.kept = static_cast<drink_part>(bits >> 5U & 3U);
  d.all_of_it = (bits & 4U) != 0;
  if ((bits & 1U) != 0) d.start = seconds{r.number("drink's start", most_seconds)};
  if ((bits & 2U) != 0) d.end = seconds{r.number("drink's end", most_seconds)};
  return d;
}

std::optional<int> read_half(unsigned half, byte_reader& r) {
  if (half == skipped) return std::nullopt;
  if (half > static_cast<unsigned>(most_score))
    r.refuse("score", fmt::format("{}", half), "0 to 10, or 15 where skipped");
  return static_cast<int>(half);
}

std::vector<std::optional<int>> read_scores(std::size_t symptoms, byte_reader& r) {
  std::vector<std::optional<int>> out;
  if (symptoms == 0) r.refuse("scores", "scores", "none, since there are no symptoms");
  for (std::size_t i = 0; i < symptoms; i += 2) {
    const unsigned both = r.byte("scores");
    out.push_back(read_half(both >> 4U, r));
    if (i + 1 < symptoms) {
      out.push_back(read_half(both & 15U, r));
    } else if ((both & 15U) != skipped) {
      r.refuse("scores", "a score too many", "15 in the unused half");
    }
  }
  return out;
}

packed_sample read_sample(seconds usual_offset, std::size_t symptoms, byte_reader& r) {
  packed_sample t;
  const unsigned bits = r.byte("sample");
  const unsigned taken = bits & 3U;
  if (taken != 0) t.taken = static_cast<how_known>(taken - 1);
  if (taken == 0 && (bits & (elapsed_bit | offset_bit)) != 0)
    r.refuse("sample", "a time of a tube that was not taken", "none");
  t.repeated = (bits & repeated_bit) != 0;
  t.again = (bits & again_bit) != 0;
  t.corrected = (bits & corrected_bit) != 0;
  if (t.taken) t.closed = seconds{r.number("closing", most_seconds)};
  t.elapsed = t.closed;
  if ((bits & elapsed_bit) != 0) t.elapsed = seconds{r.number("elapsed time", most_seconds)};
  if (t.taken) t.offset = usual_offset;
  if ((bits & offset_bit) != 0) t.offset = seconds{r.number("offset", most_offset)};
  if ((bits & scores_bit) == 0) return t;
  t.scores = read_scores(symptoms, r);
  return t;
}

std::vector<packed_after> read_after(std::size_t symptoms, byte_reader& r) {
  std::vector<packed_after> out;
  const std::uint64_t all = r.count("scores after the tubes", 2);
  if (all == 0) r.refuse("scores after the tubes", "none", "1 or 2, or version 1");
  for (std::uint64_t i = 0; i < all; ++i) {
    packed_after t;
    const unsigned bits = r.byte("scores after the tubes");
    if (bits > 3)
      r.refuse("scores after the tubes", "bits that mean nothing", "those of version 2");
    t.what = static_cast<score_time>(bits & 1U);
    if (!out.empty() && t.what <= out.back().what)
      r.refuse("scores after the tubes", "another order", "each once, the earlier first");
    t.corrected = (bits & corrected_after_bit) != 0;
    t.elapsed = seconds{r.number("time of scores", most_seconds)};
    t.scores = read_scores(symptoms, r);
    out.push_back(std::move(t));
  }
  return out;
}

std::optional<packed_seal> read_seal(byte_reader& r) {
  const unsigned kind = r.byte("seal");
  if (kind > 1) r.refuse("seal", fmt::format("kind {}", kind), "0 for none, or 1");
  if (kind != 1) return std::nullopt;
  packed_seal s;
  const std::string id = r.raw("key id", s.key_id.size());
  const std::string signature = r.raw("signature", s.signature.size());
  std::copy(id.begin(), id.end(), s.key_id.begin());
  std::copy(signature.begin(), signature.end(), s.signature.begin());
  return s;
}

std::string text_of(const unsigned char* bytes, std::size_t size) {
  return {reinterpret_cast<const char*>(bytes), size};
}

} // namespace

std::string pack(const packed_result& r) {
  QB_BELIEVE(r.protocol_digest.size() == digest_size && r.head_tail.size() == tail_size);
  byte_writer w;
  w.byte(r.after.empty() ? 1 : packed_version);
  w.byte(r.rehearsal ? 1 : 0);
  w.text(r.kit_number);
  w.text(r.protocol_id);
  w.raw(r.protocol_digest);
  put_id(r.test_id, w);
  w.count(r.events);
  w.raw(r.head_tail);
  w.count(
      static_cast<std::uint64_t>(std::chrono::floor<seconds>(r.zero.time_since_epoch()).count()));
  w.number(r.offset.count());
  w.count(flags_number(r.flags));
  put_drink(r.drink, w);
  w.count(r.symptoms);
  w.count(r.samples.size());
  for (const packed_sample& t : r.samples)
    put_sample(t, r.offset, r.symptoms, w);
  if (r.after.empty()) return w.bytes();
  w.count(r.after.size());
  for (const packed_after& t : r.after)
    put_after(t, r.symptoms, w);
  return w.bytes();
}

std::string to_be_signed(std::string_view packed, const std::array<unsigned char, 8>& key_id) {
  std::string out = "quarterbreath code 1\n";
  out += packed;
  out += '\1';
  return out + text_of(key_id.data(), key_id.size());
}

std::string with_seal(std::string_view packed, const std::optional<packed_seal>& s) {
  byte_writer w;
  w.raw(packed);
  w.byte(s ? 1 : 0);
  if (s) {
    w.raw(text_of(s->key_id.data(), s->key_id.size()));
    w.raw(text_of(s->signature.data(), s->signature.size()));
  }
  return w.bytes();
}

result<packed_result> unpack(std::string_view bytes) {
  byte_reader f(bytes);
  packed_result r;
  const unsigned version = f.byte("version");
  if (version > packed_version)
    return tl::unexpected(refusal{refusal_kind::newer, "", "version",
                                  fmt::format("version {}", version),
                                  fmt::format("version {} or older", packed_version)});
  if (version == 0) f.refuse("version", "version 0", "version 1 or 2");
  const unsigned form = f.byte("form");
  if (form > 1) f.refuse("form", "bits that mean nothing", "those of version 1");
  r.rehearsal = form == 1;
  r.kit_number = f.text("kit number", 1, most_code_text);
  r.protocol_id = f.text("protocol", 1, most_code_text);
  r.protocol_digest = f.raw("protocol's digest", digest_size);
  r.test_id = read_id(f);
  r.events = f.count("events", most_counted);
  r.head_tail = f.raw("hash", tail_size);
  r.zero = instant{seconds{static_cast<std::int64_t>(f.count("time zero", last_second))}};
  r.offset = seconds{f.number("offset", most_offset)};
  r.flags = flags_of(f.count("flags", most_flags));
  r.drink = read_drink(f);
  r.symptoms = static_cast<std::size_t>(f.count("symptoms", most_code_symptoms));
  const std::uint64_t samples = f.count("samples", sample_number::most);
  for (std::uint64_t i = 0; i < samples; ++i)
    r.samples.push_back(read_sample(r.offset, r.symptoms, f));
  if (version > 1) r.after = read_after(r.symptoms, f);
  r.seal = read_seal(f);
  if (const auto no = f.finish()) return tl::unexpected(*no);
  // Each result has one form, so that what is checked by a signature is what was read.
  if (with_seal(pack(r), r.seal) != bytes)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "bytes",
                                  "a field that says what its absence says", "the shortest form"});
  return r;
}

} // namespace qb::code
