// One text read at once and as everybody reads it: whether both say the same.
#pragma once

#include "core/record/codec.hpp"
#include "core/record/sound_log.hpp"

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

namespace qb::test {

inline std::string digest_of_all(std::initializer_list<std::string_view> texts) {
  std::string all;
  for (const std::string_view text : texts)
    all += text;
  return sha256_hex(all);
}

enum class read_how { not_at_once, at_once_the_same, at_once_otherwise };

inline bool same_log(const sound_log& at_once, const read_log_result& log) {
  const read_log_result& a = at_once.log;
  bool same = log.mismatches.empty() && a.mismatches.empty() && a.version == log.version &&
              a.program == log.program && a.tzdata == log.tzdata && a.rehearsal == log.rehearsal &&
              a.head == log.head && a.events.size() == log.events.size();
  for (std::size_t i = 0; same && i < log.events.size(); ++i)
    same =
        json::canonical(encode_event(a.events[i])) == json::canonical(encode_event(log.events[i]));
  return same && json::canonical(summary_of(at_once.folded)) ==
                     json::canonical(summary_of(fold_events(log.events)));
}

inline read_how read_both_ways(sound_log_reader& reader, const std::string& text) {
  const auto at_once = reader.read(text);
  if (!at_once) return read_how::not_at_once;
  const auto log = read_log(text);
  return log && same_log(*at_once, *log) ? read_how::at_once_the_same : read_how::at_once_otherwise;
}

} // namespace qb::test
