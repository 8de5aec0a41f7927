// The window, step by step: what stands in the man page alone.
#include "app/patient/manual/manual.hpp"

namespace qb::patient {

namespace {

constexpr const char* steps =
    R"(One screen asks for one thing. "I feel unwell" is on every screen (while you
type, press "Done" first), and you may always stop and eat. If the power goes,
start the program again: it goes on where you were, and says what passed
meanwhile.

Agree. Read what the program does and what it keeps. Before you agree nothing
is kept.

Who. Name, date of birth, doctor, kit code: by the keyboard on the screen, a
real one, or a scanner. The code picks your test. Without one you choose the
sugar that is on your packet.

May you take it? Plain questions, one a page: diabetes, pregnancy and others.
"Yes" and "not sure" lead to whom to ask, and what. The plan waits until you
say who answered.

Plan. What you took and when, which days you are at home: the earliest start
that works, and why. Any other start is told what it breaks, and by how much.
Never stop a prescribed medicine for the test: ask your prescriber whether you
may pause it. If not, keep taking it and tell the laboratory.

Prepare. The screen says what you may eat, drink, take and do now, until when,
and what comes next. It makes a calendar file and a page to print, and helps
you lay things out and write the labels, all but date and time. "Labels and a
sheet on paper", in "Other things", makes the labels and an empty sheet to
print, enough if the device fails. If you ate something, say so: it says what
that means, and nobody is blamed. You may move the test or call it off; its
history is kept.

Check before the drink. The packet once more, how you are this morning, then
every rule: what the program saw, what is on your word, what is not kept. Until
then moving the start costs nothing.

Test. Score how you feel, blow tube 1, write its label, drink. Then, for each
tube: rest, one press, a picture and sounds that guide the breath, close the
tube, write the label. A late tube is taken at once and keeps its number; the
next stays due where it was.

Finish. What was recorded and what is missing. Copy the times to your paper
sheet, hand over the record, pack, and post today or on the next working day.)";

constexpr const char* practice =
    R"(Practise first, with tubes and sugar closed. Time runs ten times as fast, a
breath at its real pace, and "Jump" goes to the next change. What is practised
is kept apart from the test and marked. Practice is not offered from the fast
on.)";

constexpr const char* shared_device =
    R"(Where a laboratory's profile says that the device is shared, a test is erased
once it was saved, the person says that they have it, and ticks twice;
otherwise a set time after the last entry, or after the test's planned end if
that is later, with a notice before. "It is mine, keep it" on that notice
begins the time anew. A clock that was set erases nothing.)";

constexpr const char* own_rules =
    R"(The laboratory that comes with the program is invented, and so are its choices.
Write your own profile and tests in a copy of the folder assets, check them,
and let both programs use them by --assets. What is wrong in a file is said
with line and field; the schemas are in assets/schema. A log that was made
under other rules than the laboratory's is noted there.)";

} // namespace

std::vector<help::topic> window_topics() {
  return {
      {"The window", steps, {}},
      {"Practice",
       practice,
       {{"Practise", "quarterbreath --rehearsal"},
        {"On the whole screen, in the look that is easiest to see",
         "quarterbreath --rehearsal --full-screen --look high-contrast"}}},
      {"A shared device",
       shared_device,
       {{"As it is with the invented laboratory's own device",
         "quarterbreath --laboratory fenwick-vale-kiosk"}}},
      {"Rules of your own",
       own_rules,
       {{"A copy, and what to check in it", "cp -r assets build/try/our-rules\n"
                                            "quarterbreath protocol check \\\n"
                                            "  build/try/our-rules/protocols/lactulose-10g.json\n"
                                            "quarterbreath profile check \\\n"
                                            "  build/try/our-rules/laboratories/fenwick-vale.json"},
        {"The window with them",
         "quarterbreath --assets build/try/our-rules --laboratory fenwick-vale"}}}};
}

} // namespace qb::patient
