// What the files that leave this device are called after their stem, "quarterbreath-KIT".
// Who writes one must be understood by who finds out whose it is, so both take it from here. The
// laboratory knows what it looks for by itself: app/lab/intake/unpack.cpp.
#pragma once

namespace qb::handover::ending {

inline constexpr const char* log = ".log.json";
inline constexpr const char* signature = ".log.json.minisig";
inline constexpr const char* samples = ".samples.csv";
inline constexpr const char* sheet = ".sheet.pdf";
inline constexpr const char* sealed = ".age"; // after the ending of what is sealed
inline constexpr const char* sealed_sheet = ".sheet.pdf.age";
inline constexpr const char* sealed_log = ".log.json.age"; // where there is no sheet
inline constexpr const char* code = ".code.txt";           // where the sheet could not be made
inline constexpr const char* reminders = ".reminders.ics";
inline constexpr const char* preparation = ".preparation.pdf";
inline constexpr const char* labels = ".labels.pdf";
inline constexpr const char* empty_sheet = ".empty-sheet.pdf";

} // namespace qb::handover::ending
