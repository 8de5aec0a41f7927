// Time zones read from compiled zone files (TZif, RFC 8536), and what a civil time means in one.
// Read by our own short reader: the packaged library ignores the rule line at a file's end, so its
// answers after 2037, and for slim files at any date, are wrong.
#pragma once

#include "core/base/result.hpp"
#include "core/time/civil.hpp"
#include "core/time/instant.hpp"
#include "core/time/posix_rule.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace qb::inline times {

// A civil time that names exactly one instant.
struct unique_time {
  instant at;
};
// A civil time that happens twice, because clocks go back over it.
struct twofold_time {
  instant first;
  instant second;
};
// A civil time that does not happen, because clocks jump over it: the last minute shown before the
// jump and the first after it.
struct missing_time {
  instant jump;
  civil_time before;
  civil_time after;
};
using civil_meaning = std::variant<unique_time, twofold_time, missing_time>;

// One time zone. A value: read once from a file's bytes, then it asks nothing of the machine.
class zone {
public:
  // `name` is the IANA name (kept for printing), `bytes` the whole zone file. Refuses anything that
  // is not a version 2 or later TZif file in good order.
  [[nodiscard]] static result<zone> read(std::string name, std::string_view bytes);
  // A zone of one constant offset, for tests and for machines without zone files.
  [[nodiscard]] static zone fixed(std::string name, std::chrono::seconds offset);

  [[nodiscard]] const std::string& name() const { return name_; }

  // Local time minus UTC at that instant.
  [[nodiscard]] std::chrono::seconds offset_at(instant t) const;

  // What the civil time means here. Total: every civil time has one of the three answers.
  [[nodiscard]] civil_meaning meaning_of(civil_time t) const;

  // The wall clock at that instant, cut (not rounded) to the minute.
  [[nodiscard]] civil_time civil_at(instant t) const;

private:
  struct change {
    std::chrono::sys_seconds at;
    std::chrono::seconds offset;
  };
  std::string name_;
  std::chrono::seconds first_offset_{0};
  std::vector<change> changes_;    // ascending
  std::optional<posix_rule> rule_; // holds after the last change
};

// Whether a text may be asked of the zone folder: letters, digits, "_+-", single slashes, no dots.
[[nodiscard]] bool is_zone_name(std::string_view name);

// RFC 3339 with the zone's offset at that instant, in whole seconds: "2027-03-28T09:00:00+01:00".
// Refused where the offset is not a whole minute, which RFC 3339 cannot write (before about 1972).
[[nodiscard]] result<std::string> rfc3339(instant t, const zone& z);

// RFC 3339 in UTC, whole seconds, or milliseconds where there are any: "2027-03-28T08:00:00Z".
[[nodiscard]] std::string rfc3339_utc(instant t);

// Reads what `rfc3339_utc` writes.
[[nodiscard]] result<instant> parse_rfc3339_utc(std::string_view text);

} // namespace qb::inline times
