// Words are broken only where they must be.
// Nobody reads "Wednesd" and "ay" with a shaking hand on the button beside it.
#include "tests/unit/kit/harness.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace qb;
using namespace qb::test;

TEST_CASE("evening out the lines breaks no word that a whole line would hold") {
  const std::set<std::string> words{"Wednesday", "7",  "April", "I",
                                    "ate",       "or", "did",   "something"};
  harness h(360, 640);
  int lines_seen = 0;
  h.draw = [&](kit& k) {
    (void)k.page(
        {}, [] {}, [] {});
    const pen p = k.ink();
    for (const char* text : {"Wednesday 7 April", "I ate or did something"}) {
      const float widest = p.widest_word(face::label, text);
      for (float width = widest; width < 3 * widest; width += 3) {
        for (const std::string& line : p.wrap(face::label, text, width, true).text) {
          ++lines_seen;
          std::size_t at = 0;
          while (at <= line.size()) {
            const std::size_t end = std::min(line.find(' ', at), line.size());
            INFO(text << " at " << width);
            CHECK(words.count(line.substr(at, end - at)) == 1);
            at = end + 1;
          }
        }
      }
    }
  };
  h.frames();
  CHECK(lines_seen > 100);
}
