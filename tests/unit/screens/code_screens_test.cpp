// The result as a code on the screen: one whole code a page, large enough for a scanner, no dead
// end.
#include "app/page/qr_symbol.hpp"
#include "core/code/code_text.hpp"
#include "tests/unit/screens/stage.hpp"

#include <cmath>

using namespace qb;
using test::stage;

namespace {

// A code of as many characters as any of ours may have.
code::symbol largest_code() {
  return page::qr_symbol(std::string(code::most_code_characters, 'Q'), page::correction::m).value();
}

struct code_stage : stage {
  explicit code_stage(std::size_t count, float width = 360, float height = 640)
      : stage(draw_code, width, height), codes(count, largest_code()) {
    h.draw = [this](toolkit& k) {
      view v = m.get();
      v.codes = codes;
      if (auto w = what(k, v, u)) wished = w;
    };
    u.nav.open = side_page::code;
  }
  std::vector<code::symbol> codes;
};

} // namespace

TEST_CASE("before tube 1 there is no code, and the page says when there will be one") {
  code_stage s(0);
  CHECK(s.shown() == "code");
  CHECK(s.h.find("none")->name == "There is no code yet. It comes with tube 1.");
  CHECK(s.h.find("show-code") == nullptr);
  REQUIRE(s.press("back"));
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("several codes come one after the other, forwards, back and out") {
  code_stage s(2);
  CHECK(s.shown() == "code");
  REQUIRE(s.press("show-code"));
  CHECK(s.shown() == "code-1");
  CHECK(s.h.find("title")->name == "Code 1 of 2");
  CHECK(s.h.find("code-2") == nullptr);
  REQUIRE(s.press("next-code"));
  CHECK(s.h.find("title")->name == "Code 2 of 2");
  REQUIRE(s.press("back"));
  CHECK(s.shown() == "code-1");
  REQUIRE(s.press("next-code"));
  REQUIRE(s.press("code-done"));
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("the largest code stands whole on the page, with its quiet zone, in whole pixels") {
  struct size {
    float width;
    float height;
  };
  for (const size page : {size{360, 640}, size{480, 800}, size{800, 480}}) {
    CAPTURE(page.width, page.height);
    code_stage s(1, page.width, page.height);
    REQUIRE(s.press("show-code"));
    CHECK(s.shown() == "code-1");
    const auto* picture = s.h.find("code-1");
    REQUIRE(picture != nullptr);
    const box b{picture->x, picture->y, picture->w, picture->h};
    CHECK(b.x >= 0);
    CHECK(b.y >= 0);
    CHECK(b.x + b.w <= page.width);
    CHECK(b.y + b.h <= page.height);
    const float pixels_a_module =
        b.w / static_cast<float>(s.codes[0].side + 2 * code::quiet_modules);
    CHECK(pixels_a_module >= 2);
    CHECK(pixels_a_module == Approx(std::round(pixels_a_module)));
    CHECK(s.h.find("code-done") != nullptr);
  }
}
