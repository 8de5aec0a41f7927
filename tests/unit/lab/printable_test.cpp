// Texts made fit for a terminal.
#include "app/lab/context/printable.hpp"

#include "app/lab/context/console.hpp"
#include "core/base/text.hpp"

#include <catch2/catch.hpp>
#include <cstdio>

namespace qb::lab {

using texts = std::vector<std::string>;

TEST_CASE("one line of a log stays one line of a table") {
  CHECK(printable("Świętosława, 山田") == "Świętosława, 山田");
  CHECK(printable("a\nb") == "a\\u000ab");
}

TEST_CASE("whatever a command says, nothing in it moves a terminal or turns the order") {
  std::FILE* const made = std::tmpfile();
  REQUIRE(made != nullptr);
  const console to = console_on(made, made);
  to.out("Kit FV\u009B31m2071\u202E\n");
  to.err("no: \u061C\uFEFF\n");
  to.data("%PDF-\xFF");
  std::rewind(made);
  std::string text(200, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), made));
  std::fclose(made);
  CHECK(text == "Kit FV\\u009b31m2071\\u202e\nno: \\u061c\\ufeff\n%PDF-\xFF");
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
