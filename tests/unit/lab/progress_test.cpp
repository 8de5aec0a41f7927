// What a terminal is shown of long work, how often, and that nothing else is shown any of it.
#include "app/lab/context/progress.hpp"

#include <catch2/catch.hpp>

namespace qb::lab {

using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;

TEST_CASE("progress says how much is done and, once it can be told, what is left") {
  CHECK(progress_words(0, 100000, seconds{9}) == "0 of 100,000 files (0 %)");
  CHECK(progress_words(12, 40, seconds{1}) == "12 of 40 files (30 %)");
  CHECK(progress_words(1200, 40000, seconds{3}) == "1,200 of 40,000 files (3 %), about 97 s left");
  CHECK(progress_words(30, 40, seconds{30}) == "30 of 40 files (75 %), about 10 s left");
  CHECK(progress_words(0, 0, seconds{30}) == "0 of 0 files (100 %)");
}

TEST_CASE("the time is asked rarely of fast work, and of slow work after each piece") {
  int asked = 0;
  milliseconds now{5};
  pace p([&] { return ++asked, now; }, milliseconds{250});
  for (int i = 0; i < 10000; ++i)
    CHECK_FALSE(p.is_due());
  CHECK(asked < 200);
  int due = 0;
  for (int i = 0; i < 300; ++i) {
    now += milliseconds{300};
    due += p.is_due() ? 1 : 0;
  }
  CHECK(due > 150); // the first few are still asked rarely
  now += milliseconds{250};
  CHECK(p.is_due());
  CHECK_FALSE(p.is_due());
  CHECK(p.since_start() == now - milliseconds{5});
}

TEST_CASE("a line of progress is written over and taken away; without a terminal there is none") {
  std::string seen;
  console to{[](const std::string&) {}, [](const std::string&) {}};
  to.terminal = [&](const std::string& text) { seen += text; };
  {
    progress_line line(to);
    line.clear();
    CHECK(seen.empty());
    line.show("one");
    line.show("two");
  }
  CHECK(seen == "\r\x1b[Kone\r\x1b[Ktwo\r\x1b[K");
  console pipe{[](const std::string&) {}, [&](const std::string&) { FAIL("nothing is said"); }};
  progress_line none(pipe);
  none.show("one");
}

} // namespace qb::lab
