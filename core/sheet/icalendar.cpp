// Writing the lines of a calendar file.
#include "core/sheet/icalendar.hpp"

#include "core/base/text.hpp"

#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

constexpr std::size_t most_octets = 75; // a line without CRLF, RFC 5545, 3.1
constexpr const char* product = "-//Quarterbreath//Reminders of a breath test//EN";

void add_alarm(const calendar_alarm& a, std::string& out) {
  out += folded_line("BEGIN:VALARM");
  out += folded_line("ACTION:DISPLAY");
  out += folded_line(a.before.count() == 0 ? "TRIGGER:PT0S"
                                           : fmt::format("TRIGGER:-PT{}M", a.before.count()));
  out += folded_line("DESCRIPTION:" + escaped_text(a.words));
  out += folded_line("END:VALARM");
}

void add_event(const calendar_file& c, const calendar_event& e, std::string& out) {
  out += folded_line("BEGIN:VEVENT");
  out += folded_line("UID:" + e.uid);
  out += folded_line("DTSTAMP:" + utc_stamp(c.stamp));
  out += folded_line("DTSTART:" + utc_stamp(e.from));
  if (e.until && *e.until > e.from) out += folded_line("DTEND:" + utc_stamp(*e.until));
  out += folded_line(fmt::format("SEQUENCE:{}", c.sequence));
  out += folded_line(e.cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
  out += folded_line("TRANSP:TRANSPARENT");
  out += folded_line("SUMMARY:" + escaped_text(e.summary));
  out += folded_line("DESCRIPTION:" + escaped_text(e.description));
  if (!e.cancelled) {
    for (const calendar_alarm& a : e.alarms)
      add_alarm(a, out);
  }
  out += folded_line("END:VEVENT");
}

} // namespace

std::string calendar_bytes(const calendar_file& c) {
  std::string out = folded_line("BEGIN:VCALENDAR");
  out += folded_line("VERSION:2.0");
  out += folded_line(fmt::format("PRODID:{}", product));
  out += folded_line("CALSCALE:GREGORIAN");
  for (const calendar_event& e : c.events)
    add_event(c, e, out);
  out += folded_line("END:VCALENDAR");
  return out;
}

std::string folded_line(std::string_view line) {
  std::string out;
  std::size_t room = most_octets;
  for (const std::string& character : characters(line)) {
    if (character.size() > room) {
      out += "\r\n ";
      room = most_octets - 1; // the space that marks the rest counts as well
    }
    out += character;
    room -= character.size();
  }
  return out.append("\r\n");
}

std::string escaped_text(std::string_view text) {
  constexpr char first_printable = ' ';
  constexpr char del = 0x7F;
  std::string out;
  for (const char c : text) {
    if (c == '\n') {
      out += "\\n";
    } else if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) >= first_printable && c != del) {
      out += c;
    }
  }
  return out;
}

std::string utc_stamp(instant t) {
  const auto day = std::chrono::floor<std::chrono::days>(t);
  const std::chrono::year_month_day date{day};
  const auto s = std::chrono::floor<std::chrono::seconds>(t - day).count();
  constexpr int per_hour = 3600;
  constexpr int per_minute = 60;
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     s / per_hour, s / per_minute % per_minute, s % per_minute);
}

std::vector<std::string> unfolded_lines(std::string_view bytes) {
  std::vector<std::string> out;
  while (!bytes.empty()) {
    const std::size_t end = bytes.find("\r\n");
    const std::string_view line = bytes.substr(0, end);
    if (!line.empty() && line.front() == ' ' && !out.empty()) {
      out.back().append(line.substr(1));
    } else {
      out.emplace_back(line);
    }
    bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + 2);
  }
  return out;
}

} // namespace qb::inline sheets
