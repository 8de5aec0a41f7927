// Where the record is, how it is handed over and erased: what stands in the man page alone.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* record =
    R"(The record is kept on this device alone, in ~/.local/share/quarterbreath (or
below XDG_DATA_HOME), readable only by you. --data DIR takes another folder.
Nothing is sent anywhere. It is sealed under a key that lies beside it, so that
it can be erased for good; who takes the whole device before has the key too. A
copy of a record without its two .key files opens nowhere.)";

constexpr const char* handing_over =
    R"(Press "Save for the laboratory" at the end. A drive appears by itself once it
is plugged in (below /media or /run/media; --drives DIR takes another folder),
and the folder handed-over beside the record is offered. "Safely saved" is
said only of what was written through to the drive and read back. A full,
locked or pulled-out drive is told, and another's file of that name stays. A
file on a drive or on this device is not yet the laboratory's; the page says
so, and whom to ask.

What you hand over is one file: the sheet with the labels (.sheet.pdf), with
the timing log, its signature and the samples as a table attached. Where the
laboratory gave its key, the file is sealed (.sheet.pdf.age), and only the
laboratory opens it; that alone is written to a drive. Your own folder gets
everything, readable for you. The names carry the kit number, never yours.
A sheet that cannot be made takes nothing along: the rest is there, and the
result by code as text (.code.txt). A letter that no font here has is a square
on paper, and a code beside it holds the whole name.

Without any file, the last screen shows the result as a code ("Show it as a
code"), and the sheet has it printed. A scanner or a photo is enough. It holds
kit number, times, scores, the drink and what was noted, and no name, no date
of birth and no answers.)";

constexpr const char* erasing =
    R"(Press "Erase this test", before the test or at its end. It says what goes and
what stays, where the record was written to, and asks twice. Other tests stay.
Without the window, the command erase does it. Copies on a drive or with others
stay there.)";

} // namespace

std::vector<help::topic> record_topics() {
  return {{"The record", record, {}},
          {"Handing it over", handing_over, {}},
          {"Erasing a test", erasing, {}}};
}

} // namespace qb::patient
