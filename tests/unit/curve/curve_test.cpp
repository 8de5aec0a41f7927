// Reading curves: CSV files and lines of JSON, what they may look like and what is refused where.
#include "core/curve/curve_csv.hpp"
#include "core/curve/curve_line.hpp"
#include "tests/unit/curve/curves.hpp"

using namespace qb;
using namespace qb::test;
using Catch::Contains;

namespace {

const curve_limits& limits() {
  static const curve_limits l{exact(-60), exact(1440), exact(5000), exact(20)};
  return l;
}

// "0:4/1/- 15.5:-/1/4.1", or the refusal.
std::string shown(const result<curve>& read) {
  if (!read) return sentence(read.error());
  std::string out;
  const auto cell = [](const std::optional<exact>& n) { return n ? n->text() : "-"; };
  for (const curve_sample& s : *read)
    out += (out.empty() ? "" : " ") + s.minute.text() + ":" + cell(s.h2) + "/" + cell(s.ch4) + "/" +
           cell(s.co2);
  return out;
}
std::string csv(const std::string& text) {
  return shown(read_curve_csv(text, limits()));
}
std::string line(const std::string& text) {
  return shown(read_curve_line(text, limits()).samples);
}

const std::string head = "minute,h2_ppm,ch4_ppm\n";

} // namespace

TEST_CASE("a CSV curve: columns in any order, LF or CRLF, fractions, blanks, quotes, empty cells") {
  CHECK(csv(head + "0,4,1\n15.5,10,\n") == "0:4/1/- 15.5:10/-/-");
  CHECK(csv(head + "0,4,1\r\n15,10,2") == "0:4/1/- 15:10/2/-");
  CHECK(csv("co2_pct,ch4_ppm,minute,h2_ppm\n4.1,1,0,4\n") == "0:4/1/4.1");
  CHECK(csv("\xef\xbb\xbf\"minute\", \"h2_ppm\" ,ch4_ppm\r\n\r\n -5 ,\"4\",1\r\n\r\n") ==
        "-5:4/1/-");
  CHECK(csv(head).empty());
  CHECK(csv("minute,h2_ppm,ch4_ppm").empty());
}

TEST_CASE("a reading of nothing and one at the limit are readings") {
  CHECK(csv(head + "0,0,5000\n") == "0:0/5000/-");
  CHECK(csv("minute,h2_ppm,ch4_ppm,co2_pct\n-60,5000,0,0\n1440,0,0,20\n") ==
        "-60:5000/0/0 1440:0/0/20");
}

TEST_CASE("a CSV curve is refused with the line and what stood there") {
  CHECK_THAT(csv(""), Contains("an empty file"));
  CHECK_THAT(csv("0,4,1\n"), Contains("line 1: found the column \"0\""));
  CHECK_THAT(csv("minute,h2_ppm\n"), Contains("no column ch4_ppm"));
  CHECK_THAT(csv("minute,h2_ppm,ch4_ppm,minute\n"), Contains("minute twice"));
  CHECK_THAT(csv(head + "0,4\n"), Contains("line 2: found 2 cells, expected 3"));
  CHECK_THAT(csv(head + "0,4,1\n\n15,NaN,1\n"), Contains("line 4: found h2_ppm \"NaN\""));
  CHECK_THAT(csv(head + "0,4,1\n15,\"1,5\",1\n"), Contains("line 3"));
  CHECK_THAT(csv(head + ",4,1\n"), Contains("line 2: found no minute"));
  CHECK_THAT(csv(head + "0,-0.1,1\n"), Contains("found h2_ppm -0.1, expected 0 to 5000"));
  CHECK_THAT(csv(head + "0,1,5000.1\n"), Contains("found ch4_ppm 5000.1"));
  CHECK_THAT(csv("minute,h2_ppm,ch4_ppm,co2_pct\n0,1,1,20.1\n"), Contains("co2_pct 20.1"));
  CHECK_THAT(csv(head + "15,4,1\n15,5,1\n"), Contains("line 3: found minute 15 after minute 15"));
  CHECK_THAT(csv(head + "15,4,1\n0,5,1\n"), Contains("line 3: found minute 0 after minute 15"));
  CHECK_THAT(csv(head + "-61,5,1\n"), Contains("expected -60 to 1440"));
}

TEST_CASE(
    "a line's curve: lists, objects or columns, with the name and test that stand beside it") {
  CHECK(line(R"({"curve":[[0,4,1],[15.5,null,1,4.1]]})") == "0:4/1/- 15.5:-/1/4.1");
  CHECK(line(R"({"samples":[{"minute":0,"h2_ppm":4,"ch4_ppm":1},{"co2_pct":4.1,"minute":15}]})") ==
        "0:4/1/- 15:-/-/4.1");
  CHECK(line(R"({"minute":[0,15],"h2_ppm":[4,5],"ch4_ppm":[1,null]})") == "0:4/1/- 15:5/-/-");
  CHECK(line(R"({"curve":[]})").empty());
  CHECK(line(R"({"kit":{"a":[1.5,{"b":null}]},"n":2.5,"x":[[]],"curve":[[0,4,1]]})") == "0:4/1/-");
  CHECK(line(R"({"curve":[[0,4.000000000000000001,1e1]]})") == "0:4.000000000000000001/10/-");
  const curve_line named =
      read_curve_line(R"({"id":"a\"b","curve":[[5,1,1],[0,1,1]],"test":"glucose-75g"})", limits());
  REQUIRE(named.id.text() != nullptr);
  CHECK(*named.id.text() == "a\"b");
  CHECK(named.test == "glucose-75g");
  CHECK_FALSE(named.samples.has_value());
  const curve_line numbered = read_curve_line(R"({"id":12,"curve":[]})", limits());
  REQUIRE(numbered.id.integer() != nullptr);
  CHECK(*numbered.id.integer() == 12);
}

TEST_CASE("a line's curve is refused with the sample's place") {
  CHECK_THAT(line(""), Contains("not JSON"));
  CHECK_THAT(line("[]"), Contains("one JSON object"));
  CHECK_THAT(line("7"), Contains("one JSON object"));
  CHECK_THAT(line("{}"), Contains("no samples"));
  CHECK_THAT(line(R"({"curve":[[0,4,1]]} x)"), Contains("not JSON"));
  CHECK_THAT(line(R"({"curve":[[0,4,1],[15,5]]})"), Contains("sample 2: found 2 numbers"));
  CHECK_THAT(line(R"({"curve":[[0,4,1,2,3]]})"), Contains("sample 1: found more numbers"));
  CHECK_THAT(line(R"({"curve":[[0,"4",1]]})"), Contains("sample 1: found a text"));
  CHECK_THAT(line(R"({"curve":[[null,4,1]]})"), Contains("no minute"));
  CHECK_THAT(line(R"({"curve":[[0,4,1],[0,5,1]]})"), Contains("sample 2: found minute 0 after"));
  CHECK_THAT(line(R"({"curve":[[0,-4,1]]})"), Contains("sample 1: found h2_ppm -4"));
  CHECK_THAT(line(R"({"curve":[[0,1e30,1]]})"), Contains("1e30"));
  CHECK_THAT(line(R"({"curve":[[0,99999999999,1]]})"), Contains("that large"));
  CHECK_THAT(line(R"({"curve":[{"minute":0,"h2":4}]})"), Contains("the name h2"));
  CHECK_THAT(line(R"({"curve":[{"minute":0,"minute":1}]})"), Contains("minute twice"));
  CHECK_THAT(line(R"({"curve":[[[0]]]})"), Contains("a list"));
  CHECK_THAT(line(R"({"curve":[],"curve":[]})"), Contains("twice"));
  CHECK_THAT(line(R"({"curve":[],"samples":[]})"), Contains("one of them"));
  CHECK_THAT(line(R"({"curve":[],"minute":[]})"), Contains("samples and columns"));
  CHECK_THAT(line(R"({"minute":[0],"h2_ppm":[1,2],"ch4_ppm":[1]})"),
             Contains("lists of one length"));
  CHECK_THAT(line(R"({"minute":[0],"h2_ppm":[1]})"), Contains("\"ch4_ppm\""));
  CHECK_THAT(line(R"({"curve":7})"), Contains("for \"curve\" a list"));
  CHECK_THAT(line(std::string("{\"curve\":[]}\0x", 14)), Contains("a zero byte"));
}

TEST_CASE("a curve has at most so many samples, from either reader") {
  std::string rows = head;
  std::string list;
  for (std::size_t i = 0; i <= longest_curve; ++i) {
    rows += std::to_string(i) + ",1,1\n";
    list += (i > 0 ? ",[" : "[") + std::to_string(i) + ",1,1]";
  }
  CHECK_THAT(csv(rows), Contains("line 1002: found more samples"));
  CHECK_THAT(line("{\"curve\":[" + list + "]}"), Contains("found more samples"));
}
