// A log that is sound, read at once: its text is canonical, and all in it fits its events. So its
// bytes are hashed as they stand, and no tree is built of them. Most logs are; whatever is not, or
// is in doubt, is `read_log`'s to name, and of a sound one both say the same.
#pragma once

#include "core/record/frozen_rules.hpp"
#include "core/record/log.hpp"
#include "core/record/log_header.hpp"

#include <functional>
#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline records {

// What was read, and what its events add up to.
struct sound_log {
  read_log_result log;
  state folded;
};

// Reads logs one after the other, and remembers the rules that they froze.
class sound_log_reader {
public:
  // SHA-256 of texts after each other, in lower-case hexadecimal: from whoever has a fast one.
  using digest = std::function<std::string(std::initializer_list<std::string_view>)>;

  explicit sound_log_reader(digest hash) : hash_(std::move(hash)) {}

  // Nothing where the log is not sound, or it is in doubt. The text need not outlive it.
  [[nodiscard]] std::optional<sound_log> read(std::string_view text);

private:
  [[nodiscard]] bool read_head(const json::spot& log, read_log_result& out) const;
  [[nodiscard]] bool read_events(const json::spot& events, read_log_result& out);
  [[nodiscard]] bool adds_up(const json::spot& log, const sound_log& read);
  [[nodiscard]] bool has_answers(const json::spot& claimed, const header_events& in);
  [[nodiscard]] bool has_person(const json::spot& claimed, const event& told) const;
  [[nodiscard]] bool are(const json::spot* claimed, const std::vector<const event*>& told);
  [[nodiscard]] bool is(const json::spot& claimed, const event& told);
  [[nodiscard]] const json::spot& data_of(const event& e) const;

  digest hash_;
  json::canonical_scan scan_;
  frozen_rules known_;
  std::vector<const json::spot*> data_; // of each event of the log that is read, by its place
  std::set<std::string, std::less<>> as_written_; // data as we write it, with its kind before it
};

} // namespace qb::inline records
