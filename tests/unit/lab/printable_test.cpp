// Texts made fit for a terminal.
#include "app/lab/context/printable.hpp"

#include "core/base/text.hpp"

#include <catch2/catch.hpp>

namespace qb::lab {

using texts = std::vector<std::string>;

TEST_CASE("letters of any script stay, what moves a terminal becomes a question mark") {
  CHECK(printable("Świętosława, ελληνικά, Черноброва, 山田") ==
        "Świętosława, ελληνικά, Черноброва, 山田");
  CHECK(printable("a\x1B[31mb") == "a?[31mb");
  CHECK(printable("a\nb\tc\x7F") == "a?b?c?");
  CHECK(printable("a\xC2\x85"
                  "b\xE2\x80\xA8"
                  "c\xE2\x81\xA6"
                  "d") == "a?b?c?d");
}

TEST_CASE("bytes that are no UTF-8, as a file's name may have them, become question marks") {
  CHECK(printable("a\xFF"
                  "b") == "a?b");
  CHECK(printable("cut \xE2\x80") == "cut ??");
}

TEST_CASE("columns count characters, not bytes") {
  CHECK(character_count("Żółw") == 4);
  CHECK(left_in("Żółw", 6) == "Żółw  ");
  CHECK(right_in("Żółw", 6) == "  Żółw");
  CHECK(right_in("longer", 3) == "longer");
}

TEST_CASE("lines break between words, and within a word only where it must") {
  CHECK(wrapped("one two three", 7) == texts{"one two", "three"});
  CHECK(wrapped("one two three", 100) == texts{"one two three"});
  CHECK(wrapped("abcdefgh", 3) == texts{"abc", "def", "gh"});
  CHECK(wrapped("żółw żółw", 4) == texts{"żółw", "żółw"});
  CHECK(wrapped("", 4) == texts{""});
}

} // namespace qb::lab
