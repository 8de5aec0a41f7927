// The words of `sign-in` and `sign-out`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* sign_in_text =
    R"(Who works at this bench, by a name or code of the list; without one it shows who
does, and the list. From then on `receive`, `paper`, `readings`, `choose`,
`assign`, `take-back`, `requests` and `conclude` need no --by for this store,
and each says in its first line on standard error by whom it is. What they may
do is asked anew by each. What cannot be taken back or is the reader's alone to
settle (`forget`, `override`, `people`, `set-up`, `reader-key`) is told by name.

It is kept in this user's data folder, not in the store: one login is one bench,
and --by says it of one command. It ends with `sign-out`, with the next who
signs in, and 16 hours later.)";

constexpr const char* sign_out_text =
    R"(Nobody is at this bench from then on, and each command needs its --by again.)";

constexpr const char* set_up_of_two =
    "quarterbreath-lab set-up --store build/try/bench.db --for-trying \\\n"
    "  --profile fenwick-vale --zone Europe/London \\\n"
    "  --person \"R. Ashdown / ra / bench\" \\\n"
    "  --person \"Dr L. Fennimore / lf / reader\" --by lf\n";

} // namespace

std::vector<help::command_page> bench_pages() {
  const std::string group = "The laboratory itself";
  return {
      {"sign-in",
       group,
       "who works at this bench until the end of a shift",
       sign_in_text,
       {{"R. Ashdown comes to the bench",
         std::string(set_up_of_two) + "quarterbreath-lab sign-in ra --store build/try/bench.db"},
        {"Who is here", "quarterbreath-lab sign-in --store build/try/bench.db"}},
       ""},
      {"sign-out",
       group,
       "nobody works at this bench any more",
       sign_out_text,
       {{"At the end of a shift", "quarterbreath-lab sign-out"}},
       ""}};
}

} // namespace qb::lab
