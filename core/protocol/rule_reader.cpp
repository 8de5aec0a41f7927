// Reading of rule ids and sources.
#include "core/protocol/rule_reader.hpp"

#include "core/protocol/kit_alphabet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline protocols {

namespace {

bool is_id(const std::string& text) {
  constexpr std::size_t most = 40;
  const auto lower = [](char c) { return c >= 'a' && c <= 'z'; };
  const auto fits = [&](char c) { return lower(c) || (c >= '0' && c <= '9') || c == '-'; };
  return !text.empty() && text.size() <= most && lower(text.front()) && text.back() != '-' &&
         std::all_of(text.begin(), text.end(), fits);
}

} // namespace

int check_format(json::fields& f, const char* format, int newest) {
  f.choice("format", {format});
  constexpr std::int64_t any_version = 1000000;
  const std::int64_t version = f.integer("version", 1, any_version);
  if (!f.failed() && version > newest)
    f.refuse("version", fmt::format("version {}", version),
             fmt::format("version {} (a newer program reads this file)", newest),
             refusal_kind::newer);
  return f.failed() ? 1 : static_cast<int>(version);
}

std::string read_id(json::fields& f, const char* key) {
  std::string text = f.text(key);
  if (!f.failed() && !is_id(text))
    f.refuse(key, "\"" + text + "\"", "1 to 40 lower-case letters, digits and inner hyphens");
  return text;
}

sample_bounds read_sample_bounds(json::fields& f) {
  constexpr std::int64_t most_seconds = 3600; // no bound around a sample is longer than an hour
  const auto seconds_of = [&](const char* key, std::int64_t least) {
    return std::chrono::seconds{f.integer(key, least, most_seconds)};
  };
  sample_bounds b;
  b.heads_up = seconds_of("heads_up_s", 0);
  b.early = seconds_of("early_s", 0);
  b.on_time = seconds_of("on_time_s", 0);
  b.last_call = seconds_of("last_call_s", 1);
  b.lead_in = seconds_of("lead_in_s", 0);
  const auto optional_seconds = [&](const char* key) -> std::optional<std::chrono::seconds> {
    const auto given = f.optional_integer(key, 1, most_seconds);
    return given ? std::optional(std::chrono::seconds{*given}) : std::nullopt;
  };
  b.last_call_last = optional_seconds("last_call_last_s");
  b.apart = optional_seconds("apart_s");
  if (!f.failed() && b.last_call <= b.on_time)
    f.refuse("last_call_s", "a time within on_time_s", "more than on_time_s",
             refusal_kind::out_of_range);
  if (!f.failed() && b.last_call_last && *b.last_call_last <= b.on_time)
    f.refuse("last_call_last_s", "a time within on_time_s", "more than on_time_s",
             refusal_kind::out_of_range);
  return b;
}

rule_reader::rule_reader(json::fields& file, std::vector<source>& sources, int version)
    : sources_(sources), version_(version) {
  static const std::vector<std::string> bases{"read", "memory", "common-practice", "inferred",
                                              "laboratory"};
  constexpr std::size_t most_sources = 40;
  constexpr std::size_t long_citation = 600;
  each(file, "sources", 1, most_sources, [&](json::fields& f) {
    source s;
    s.id = id_text(f, "id");
    s.citation = f.text("citation", long_citation);
    s.basis = bases[f.choice("basis", bases)];
    for (const source& other : sources_) {
      if (other.id == s.id) f.refuse("id", "\"" + s.id + "\" twice", "each source once");
    }
    sources_.push_back(std::move(s));
  });
}

rule_ref rule_reader::ref(json::fields& f) {
  rule_ref out;
  out.rule = id_text(f, "rule");
  if (!f.failed() && !rules_.insert(out.rule).second)
    f.refuse("rule", "\"" + out.rule + "\" twice", "each rule id once in a file");
  out.source = source_id(f, "source");
  return out;
}

std::string rule_reader::source_id(json::fields& f, const char* key) {
  std::string id = id_text(f, key);
  const auto same = [&](const source& s) { return s.id == id; };
  if (!f.failed() && std::none_of(sources_.begin(), sources_.end(), same))
    f.refuse(key, "\"" + id + "\"", "the id of a source listed in \"sources\"");
  return id;
}

std::string rule_reader::kit_letters(json::fields& f, const char* key) {
  std::string text = f.text(key);
  if (!f.failed() && (text.size() != 2 || text.find_first_not_of(kit_alphabet) != text.npos))
    f.refuse(key, "\"" + text + "\"", "two characters of " + std::string(kit_alphabet));
  return text;
}

std::string rule_reader::id_text(json::fields& f, const char* key) {
  return read_id(f, key);
}

} // namespace qb::inline protocols
