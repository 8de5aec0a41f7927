// Rows and cells as spreadsheets write them, and where a quote goes wrong.
#include "core/base/csv.hpp"

#include <catch2/catch.hpp>

namespace qb {

namespace {

// "1[a|b]3[c|d]": each row's line and cells, or the refusal.
std::string shown(std::string_view text, std::string_view separators = ",;\t") {
  auto rows = csv::reader::open(text, separators);
  if (!rows) return sentence(rows.error());
  std::string out;
  auto row = rows->next();
  for (; row && *row; row = rows->next()) {
    out += std::to_string((*row)->line);
    for (const std::string& cell : (*row)->cells)
      out += (&cell == &(*row)->cells.front() ? "[" : "|") + cell;
    out += "]";
  }
  return row ? out : sentence(row.error());
}

} // namespace

TEST_CASE("CSV: lines end in LF, CRLF or CR, and keep their number over blank ones") {
  CHECK(shown("a,b\nc,d") == "1[a|b]2[c|d]");
  CHECK(shown("a,b\r\nc,d\r\n") == "1[a|b]2[c|d]");
  CHECK(shown("a,b\rc,d\r") == "1[a|b]2[c|d]");
  CHECK(shown("\n \t\na,b\r\n\r\nc,d") == "3[a|b]5[c|d]");
  CHECK(shown("").empty());
}

TEST_CASE("CSV: the mark that parts most cells of the first row parts all rows") {
  CHECK(shown("a;b\nc,d;e") == "1[a|b]2[c,d|e]");
  CHECK(shown("a\tb\tc,d\n1,5\t2\t3") == "1[a|b|c,d]2[1,5|2|3]");
  CHECK(shown("sep=;\na;b\nsep=;x") == "2[a|b]3[sep=|x]");
  CHECK(shown("a;b\nc,d", ",") == "1[a;b]2[c|d]");
}

TEST_CASE("CSV: a byte order mark, blanks and quotes around a cell are not its text") {
  CHECK(shown("\xef\xbb\xbf\"a\", \"b\" , c ") == "1[a|b|c]");
  CHECK(shown("\"a,b\",\"say \"\"x\"\"\",\"\"") == "1[a,b|say \"x\"|]");
  CHECK(shown("a\"b,5\" tube") == "1[a\"b|5\" tube]"); // no quote that opens a cell
  CHECK(shown("a,,\n,b,") == "1[a||]2[|b|]");
}

TEST_CASE("CSV: a quote that goes wrong is refused with its line and character") {
  CHECK(shown("a,b\n\xc3\xa4,\"c") ==
        "line 2, character 3: found a quote that does not close, expected quotes around a whole "
        "cell");
  CHECK(shown("\"a\nb\"").substr(0, 22) == "line 1, character 1: f");
  CHECK(shown("\"a\"\"").substr(0, 22) == "line 1, character 1: f");
  CHECK(shown("\"a\" b,c") ==
        "line 1, character 4: found text behind a closing quote, expected quotes around a whole "
        "cell");
}

TEST_CASE("CSV: text that is not UTF-8 is refused") {
  CHECK(shown("\xff\xfe"
              "a")
            .find("not UTF-8") != std::string::npos);
  CHECK(shown(std::string_view("a\0b", 3)).find("not UTF-8") != std::string::npos);
}

} // namespace qb
