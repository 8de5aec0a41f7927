// Words are broken only where they must be.
// Nobody reads "Wednesd" and "ay" with a shaking hand on the button beside it.
#include "tests/unit/ui/harness.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace qb;
using namespace qb::test;

TEST_CASE("evening out the lines breaks no word that a whole line would hold") {
  const std::set<std::string> words{"Wednesday", "7",  "April", "I",
                                    "ate",       "or", "did",   "something"};
  harness h(360, 640);
  int lines_seen = 0;
  h.draw = [&](toolkit& k) {
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

TEST_CASE("a telephone number stays on one line wherever a whole line would hold it") {
  harness h(360, 640);
  int whole = 0;
  h.draw = [&](toolkit& k) {
    (void)k.page(
        {}, [] {}, [] {});
    const pen p = k.ink();
    const std::string number = "01632 960 417";
    const std::string text = "Call the laboratory now: " + number + ". Say that you drank.";
    for (float width = p.width(face::body, number + "."); width < 330; width += 3) {
      const auto lines = p.wrap(face::body, text, width).text;
      whole +=
          static_cast<int>(std::count_if(lines.begin(), lines.end(), [&](const std::string& line) {
            return line.find(number) != std::string::npos;
          }));
      INFO(width);
      CHECK(std::none_of(lines.begin(), lines.end(), [&](const std::string& line) {
        const bool some = line.find("960") != std::string::npos;
        return some && line.find(number) == std::string::npos;
      }));
    }
  };
  h.frames();
  CHECK(whole > 10);
}
