// One text, however it was typed; the forms are those of the Unicode Standard Annex 15.
#include "core/base/text.hpp"

#include <catch2/catch.hpp>

namespace qb {

TEST_CASE("a letter and its accent are one character, and a syllable typed in parts is one") {
  CHECK(composed("Zoe\u0308") == "Zoë");
  CHECK(character_count(composed("Zoe\u0308")) == 3);
  CHECK(composed("\u1112\u1161\u11AB") == "한"); // jamo
  CHECK(composed("Zoë") == "Zoë");
  CHECK(composed("") == "");
}

TEST_CASE("only the form is composed: width, ligatures and signs stay what they are") {
  for (const char* text : {"ＦＶ", "ﬁ", "①", "\u0646\u200C\u06CC"})
    CHECK(composed(text) == text);
}

TEST_CASE("bytes that are no UTF-8 stay as they are") {
  CHECK(composed("a\xFF"
                 "b") == "a\xFF"
                         "b");
}

TEST_CASE("texts are compared without the difference of large and small letters") {
  CHECK(folded("ZOE\u0308") == folded("zoë"));
  CHECK(folded("ΜΑΡΊΑ") == folded("μαρία"));
  CHECK(folded("Zoe") != folded("Zoë"));
}

} // namespace qb
