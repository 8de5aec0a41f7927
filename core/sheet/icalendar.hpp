// Bytes of a calendar file: iCalendar (RFC 5545), as little of it as reminders need.
//
// Lines end in CRLF and are folded at 75 octets, never inside a character of UTF-8. All times are
// UTC, so no zone needs to be described. There is no METHOD: the file is not a message between
// calendars. A date is "YYYYMMDDTHHMMSSZ". Text is escaped (\\ \; \, \n). Each event has UID,
// DTSTAMP, DTSTART, SEQUENCE, SUMMARY, DESCRIPTION, may have DTEND, is marked TRANSP:TRANSPARENT
// since a person is not busy by fasting, and may have alarms (VALARM with ACTION, TRIGGER,
// DESCRIPTION). Read by calendars of phones and computers that nobody here wrote.
#pragma once

#include "core/time/instant.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline sheets {

// A sound and a line some time before the event begins; 0: as it begins.
struct calendar_alarm {
  std::chrono::minutes before{0};
  std::string words;
};

// One event. `uid` is the same for the same thing in every file that is ever written of it.
struct calendar_event {
  std::string uid;
  instant from;
  std::optional<instant> until; // left out unless it is later than `from`
  std::string summary;
  std::string description;
  std::vector<calendar_alarm> alarms;
  bool cancelled{false}; // a calendar that holds it takes it out; it has no alarms then
};

// The file: the same values give the same bytes.
struct calendar_file {
  instant stamp;            // when this was said
  std::int64_t sequence{0}; // higher replaces lower
  std::vector<calendar_event> events;
};
[[nodiscard]] std::string calendar_bytes(const calendar_file& c);

// A line with its CRLF, folded: after each 75 octets at most, CRLF and a space.
[[nodiscard]] std::string folded_line(std::string_view line);
// TEXT as RFC 5545 writes it; control characters other than the line's end are left out.
[[nodiscard]] std::string escaped_text(std::string_view text);
// "20270406T063000Z", cut to whole seconds.
[[nodiscard]] std::string utc_stamp(instant t);

// The lines of a calendar file as they were before folding, without their ends.
[[nodiscard]] std::vector<std::string> unfolded_lines(std::string_view bytes);

} // namespace qb::inline sheets
