// What may reach a terminal: the ranges are those of Unicode 15's UnicodeData.txt (categories Cc,
// Cf, Zl, Zp) and DerivedCoreProperties.txt (Default_Ignorable_Code_Point).
#include "core/base/visible.hpp"

#include "core/base/json.hpp"
#include "core/base/text.hpp"

#include <catch2/catch.hpp>

namespace qb {

TEST_CASE("letters of any script stay as they are, and so do line ends, tabs and accents") {
  for (const char* text :
       {"Świętosława, ελληνικά, Черноброва, 山田", "한글", "e\u0301", "line\nand\ttab", "1\uFE0F"})
    CHECK(visible(text) == text);
}

TEST_CASE("what moves a terminal, turns the order or is not seen is shown by its number") {
  CHECK(visible("a\x1B[31mb\x7F") == "a\\u001b[31mb\\u007f");
  CHECK(visible("\u009B31m") == "\\u009b31m");
  for (const char32_t c :
       {U'\u061C', U'\u200B', U'\u200E', U'\u2028', U'\u202A', U'\u202E', U'\u2066', U'\u2069',
        U'\u00AD', U'\uFEFF', U'\u3164', U'\u115F', U'\u180E', U'\u206A', U'\uFFF9'}) {
    std::string text = "a";
    append_character(text, c);
    CHECK(visible(text).substr(0, 3) == "a\\u");
  }
  CHECK(visible("a\U000E0041") == "a\\udb40\\udc41"); // a tag letter
  CHECK(visible("a\r\nb") == "a\\u000d\nb");
}

TEST_CASE("joiners stay between letters that join, and show themselves anywhere else") {
  CHECK(visible("\u0645\u06CC\u200C\u062E") == "\u0645\u06CC\u200C\u062E"); // Persian
  CHECK(visible("FV\u200D-2071") == "FV\\u200d-2071");
  CHECK(visible("\u200Ca\u200C") == "\\u200ca\\u200c");
}

TEST_CASE("bytes that are no UTF-8, as a file's name may have them, are shown each") {
  CHECK(visible("a\xFF"
                "b") == "a\\xffb");
  CHECK(visible("cut \xE2\x80") == "cut \\xe2\\x80");
}

TEST_CASE("JSON stays the same value") {
  const std::string text = "{\"name\":\"a\u202Eb\U000E0041\"}";
  const auto before = json::parse(text);
  const auto after = json::parse(visible(text));
  REQUIRE((before && after));
  CHECK(json::canonical(*before) == json::canonical(*after));
  CHECK(visible(text) != text);
}

TEST_CASE("one line shows line ends and tabs too") {
  CHECK(visible_line("a\nb\tc") == "a\\u000ab\\u0009c");
}

} // namespace qb
