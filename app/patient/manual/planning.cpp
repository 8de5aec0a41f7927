// The words of `plan` and `earliest`.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* plan_text =
    R"(For one start it tells what to do and what to leave, from when to when, when
each tube is due, and until when to post. No clock is read, so that the same
question has the same answer on any day.

The start is what the clock on the wall shows in that zone. A start that does
not exist, because clocks go forward over it, is refused. One that happens
twice, because they go back, is refused until --fold says which of the two. The
fast is counted in hours that really pass.

--calendar and --page write the reminders (a calendar of RFC 5545) and the
preparation page (A4). A file that is already there and says something else is
left alone, and the command refused. --taking names the rule of a medicine that
is taken, as the plan lists it; once one is named, the others count as not
taken. When the plan is moved, --sequence counts up and --identity stays, so
that calendars replace what they had; --called-off takes the reminders back.

Never stop a prescribed medicine for the test: ask the prescriber whether it
may be paused. If not, keep taking it and tell the laboratory.)";

constexpr const char* earliest_text =
    R"(It tells the earliest start that keeps every rule, the rule that binds it, and
whom to ask first where something has to be asked. With --start it also tells
what another start breaks, and by how much.

What the person told is a file: medicines and when they were last taken, hours
at home, days away, the kit's last day. demo-data/told has two; the form is in
assets/schema/told.schema.json, and `told check` says what is wrong in one. A
moment is "YYYY-MM-DD HH:MM" in the zone, or RFC 3339. No clock is read: --now
says when the question is asked.)";

} // namespace

std::vector<help::command_page> planning_pages() {
  const std::string group = "Plans, without a window";
  return {{"plan",
           group,
           "the days before a test, and its times, for one start",
           plan_text,
           {{"The days before, each tube's time, the last day to post",
             "quarterbreath plan --protocol lactulose-10g \\\n"
             "  --start \"2027-04-06 07:30\" --zone Europe/London"},
            {"Reminders and a page to print, for somebody who takes laxatives",
             "quarterbreath plan --protocol lactulose-10g --kit FV-2C7H \\\n"
             "  --start \"2027-04-06 07:30\" --zone Europe/London \\\n"
             "  --taking laxatives --made-at 2027-03-10T09:00:00Z \\\n"
             "  --calendar build/try/reminders.ics --page build/try/days.pdf"},
            {"The second of two half past ones, in the night clocks go back",
             "quarterbreath plan --protocol lactulose-10g --fold second \\\n"
             "  --start \"2027-10-31 01:30\" --zone Europe/London"},
            {"Refused: clocks go forward over this start",
             "quarterbreath plan --protocol lactulose-10g \\\n"
             "  --start \"2027-03-28 01:30\" --zone Europe/London",
             2}},
           ""},
          {"earliest",
           group,
           "the earliest start that keeps every rule",
           earliest_text,
           {{"The earliest start after what a person told",
             "quarterbreath earliest --protocol lactulose-10g \\\n"
             "  --zone Europe/London --now \"2027-03-10 09:00\" \\\n"
             "  --told demo-data/told/antibiotic-and-shifts.json"},
            {"What another start would break, for a script",
             "quarterbreath earliest --protocol lactulose-10g \\\n"
             "  --zone Europe/London --now \"2027-03-10 09:00\" \\\n"
             "  --told demo-data/told/antibiotic-and-shifts.json \\\n"
             "  --start \"2027-03-30 07:30\" --format json"}},
           ""}};
}

} // namespace qb::patient
