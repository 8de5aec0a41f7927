// The words of `worklist` and `audit`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* worklist_text =
    R"(First what is to be looked at at once, from the moment its record is here:
warning signs, a stop, a wrong or a vomited drink. Then the oldest first: each
kit, what it waits for (its record, its readings, a choice, a review, a word
whose its box is), and when its result is due, so many working days after
arrival by your profile's calendar. A kit number that several tests bear has a
line for each. A kit whose report was concluded and of which more came since
stands here again. A damaged kit is named, and costs no other.
--all shows what waits for nothing too.)";

constexpr const char* audit_text =
    R"(For each test and tube: how many were on time, early, late and missed, and how
late they were. Logs that do not match their own record are left out, and that
is said. What was forgotten still counts.)";

} // namespace

std::vector<help::command_page> list_pages() {
  const std::string group = "A day at the bench";
  return {{"worklist",
           group,
           "what is here, what it waits for, when it is due",
           worklist_text,
           {{"What waits", "quarterbreath-lab worklist"},
            {"What there was on a day, practice too, for a script",
             "quarterbreath-lab worklist --all --rehearsals --format json \\\n"
             "  --zone Europe/London --now \"2027-04-12 16:00\""}},
           ""},
          {"audit",
           group,
           "how well patients keep time, over all tests",
           audit_text,
           {{"A table to read", "quarterbreath-lab audit"},
            {"One for a spreadsheet",
             "quarterbreath-lab audit --rehearsals --csv build/try/audit.csv"}},
           ""}};
}

} // namespace qb::lab
