// The words of `backup`, `check` and `which-log`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* backup_text =
    R"(Copies the whole store into a new file, by SQLite's own backup: as it is at one
moment, also while others work with it. Then the copy is checked as `check`
does. A file that is there is never written over. Keep copies on another disk,
one of each day of a week, and try one now and then with --store. No secret key
is in a store or its copy: the identity that opens sealed records is a file of
its own, and needs a safe place of its own. A copy holds what people told, like
the store: `forget` does not reach it.)";

constexpr const char* check_text =
    R"(Is the store whole? SQLite's own check; tables, views and triggers that this
program did not make; rows whose kit or test is nowhere else; every log's chain
of hashes, its signatures, and whether the version counts that should; every
code and all that was received. What is damaged is named with its kit, and the
check goes on. It ends with 0 where nothing is amiss, 1 where something cannot
be read, 2 for the rest. A store that others may read gets a note.)";

constexpr const char* which_log_text =
    R"(Shows all versions of a test's log: the beginning of each one's SHA-256, its
events, how it is signed, and with * the one that counts. Without a person's
word the better signed one counts; of two that are signed alike and contradict
each other the report says that nobody decided. With --log a named person says,
with a reason, which counts; what is told is kept, also when it is told
otherwise later, and a version that comes after it is a finding again.)";

} // namespace

std::vector<help::command_page> care_pages() {
  const std::string group = "The store, and its records";
  return {{"backup",
           group,
           "copy the store into a new file, and check the copy",
           backup_text,
           {{"A copy", "quarterbreath-lab backup build/try/copy.db"},
            {"Look into it", "quarterbreath-lab --store build/try/copy.db list"}},
           ""},
          {"check",
           group,
           "is the store whole, and what in it is not",
           check_text,
           {{"The usual store", "quarterbreath-lab check"},
            {"For a script", "quarterbreath-lab check --format json"}},
           ""},
          {"which-log",
           group,
           "which version of a log counts",
           which_log_text,
           {{"All versions", "quarterbreath-lab which-log FV-2072"},
            {"Say that the one with the * counts",
             "quarterbreath-lab which-log FV-2072 | grep '^[*]' | cut -c 3-14 | \\\n"
             "  xargs quarterbreath-lab which-log FV-2072 --by \"R. Ashdown\" \\\n"
             "  --reason \"asked the patient\" --log"}},
           ""}};
}

} // namespace qb::lab
