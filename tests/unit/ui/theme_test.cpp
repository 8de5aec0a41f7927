// The looks, held to the contrast they promise, and the fonts to the characters they need.
// The formula is WCAG's; its own fixed points are tested first.
#include "app/patient/theme/theme.hpp"
#include "tests/unit/ui/contrast.hpp"
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>
#include <imgui.h>

using namespace qb;
using test::contrast;

TEST_CASE("contrast has the fixed points of its definition") {
  CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21.0));
  CHECK(contrast({255, 255, 255}, {255, 255, 255}) == Approx(1.0));
  CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == Approx(4.48).margin(0.01));
}

TEST_CASE("every colour of text has seven to one on paper, in every look") {
  for (const look kind : {look::light, look::dark, look::high_contrast}) {
    const theme t = make_theme(kind);
    INFO("look " << static_cast<int>(kind));
    CHECK(contrast(t.ink, t.paper) >= 7.0);
    CHECK(contrast(t.quiet, t.paper) >= 7.0);
    CHECK(contrast(t.now, t.paper) >= 7.0);
    CHECK(contrast(t.needs_you, t.paper) >= 7.0);
  }
}

TEST_CASE("text on the tint of chosen rows and keys keeps seven to one") {
  for (const look kind : {look::light, look::dark, look::high_contrast}) {
    const theme t = make_theme(kind);
    INFO("look " << static_cast<int>(kind));
    CHECK(contrast(t.ink, t.wash) >= 7.0);
    CHECK(contrast(t.quiet, t.wash) >= 7.0);
    CHECK(contrast(t.now, t.wash) >= 7.0);
  }
}

TEST_CASE("high contrast has more contrast than light in every colour of text") {
  const theme light = make_theme(look::light);
  const theme high = make_theme(look::high_contrast);
  CHECK(contrast(high.ink, high.paper) > contrast(light.ink, light.paper));
  CHECK(contrast(high.quiet, high.paper) > contrast(light.quiet, light.paper));
  CHECK(contrast(high.now, high.paper) > contrast(light.now, light.paper));
  CHECK(contrast(high.needs_you, high.paper) > contrast(light.needs_you, light.paper));
}

TEST_CASE("the scale grows with the window and is never below one") {
  CHECK(natural_scale(360, 640) == 1.0F);
  CHECK(natural_scale(390, 844) == 1.0F);
  CHECK(natural_scale(800, 480) == 1.0F);
  CHECK(natural_scale(480, 800) == Approx(1.23).margin(0.01));
  CHECK(natural_scale(1600, 960) == Approx(2.0));
}

TEST_CASE("the fonts hold the letters of the languages and the marks of running text") {
  test::harness h;
  h.draw = [](toolkit& k) {
    const fonts& set = k.ink().faces();
    const std::string words = "Ångström œuvre Łódź őű ğış Ω αβγ Привет ẞ – — ’ “ ” … × · € ‰";
    for (const face f : {face::small, face::body, face::bold, face::label, face::headline}) {
      CHECK(has_all_glyphs(set, f, words));
    }
    CHECK(has_all_glyphs(set, face::countdown, "0123456789:–"));
    CHECK_FALSE(has_all_glyphs(set, face::body, "漢"));
  };
  h.frames(1);
}

TEST_CASE("letters of other alphabets are rasterised when a text needs them, and only then") {
  test::harness h;
  const auto drawn = [&h](ImWchar c) {
    return h.faces().of(face::body).font->FindGlyphNoFallback(c) != nullptr;
  };
  std::string words = "plain";
  h.draw = [&words](toolkit& k) { (void)k.ink().width(face::body, words); };
  h.frames(1);
  CHECK(drawn('p'));
  CHECK_FALSE(drawn(0xE9));
  CHECK_FALSE(drawn(0x416));
  words = "café";
  h.frames(1); // one frame for the person, the letters are there in it
  CHECK(drawn(0xE9));
  CHECK_FALSE(drawn(0x416));
  words = "Жук";
  h.frames(1);
  CHECK(drawn(0x416));
  CHECK_FALSE(h.faces().lacking());
}

TEST_CASE("a line that the file has no letters for is a picture, made once and dropped when gone") {
  test::harness h;
  std::string words = "plain";
  const pictured_line* there = nullptr;
  h.draw = [&](toolkit& k) {
    const pen p = k.ink();
    p.text(face::body, {10, 10}, k.colours().ink, words);
    there = k.ink().faces().pictured_width(face::body, words)
                ? k.ink().faces().picture(face::body, words)
                : nullptr;
  };
  const auto ink_of = [&] {
    ImFontAtlas& atlas = *h.faces().of(face::body).font->ContainerAtlas;
    unsigned char* pixels = nullptr;
    int wide = 0;
    int high = 0;
    atlas.GetTexDataAsAlpha8(&pixels, &wide, &high);
    int sum = 0;
    for (int y = 0; y < there->height; ++y)
      for (int x = 0; x < there->width; ++x)
        sum += pixels[(static_cast<int>(there->v0 * static_cast<float>(high) + 0.5F) + y) * wide +
                      static_cast<int>(there->u0 * static_cast<float>(wide) + 0.5F) + x];
    return sum;
  };
  h.frames(1);
  CHECK(there == nullptr);
  for (const char* line : {"محمد", "अनुष्का", "ชื่อ", "\U0001F600", "한길", "漢"}) {
    words = line;
    CAPTURE(line);
    h.frames(1);
    REQUIRE(there != nullptr);
    CHECK_FALSE(h.faces().lacking());
    CHECK(ink_of() > 1000);
  }
}

TEST_CASE("which letters can be printed is known while they are typed") {
  test::harness h;
  h.draw = [](toolkit& k) {
    const fonts& set = k.ink().faces();
    for (const char* name : {"Ada", "Świętosława", "محمد", "अनुष्का", "שרה", "ชื่อ", "ጌታቸው"})
      CHECK(set.printable(name));
    CHECK_FALSE(set.printable("Ada \U0010FFF0")); // of a private plane, in no font
  };
  h.frames(1);
}

TEST_CASE("all figures of the countdown have one width") {
  test::harness h;
  h.draw = [](toolkit& k) {
    const pen p = k.ink();
    for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"}) {
      CHECK(p.width(face::countdown, digit) == Approx(p.width(face::countdown, "0")));
      CHECK(p.width(face::body, digit) == Approx(p.width(face::body, "0")));
    }
  };
  h.frames(1);
}

TEST_CASE("bytes that are no font are refused with their place") {
  ImFontAtlas atlas;
  const font_bytes nonsense{"not a font", "nor this"};
  glyph_supply supply;
  const auto refused = build_fonts(atlas, nonsense, 1, supply);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().kind == refusal_kind::malformed);
  CHECK(refused.error().where == "regular font");
}
