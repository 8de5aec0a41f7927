// Tables of readings as spreadsheets write them; what cannot be; the correction by its printed
// factors.
#include "core/receiving/readings.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

const curve_limits limits{exact(-1440), exact(1440), exact(5000), exact(20)};
const std::string head = "kit,tube,h2_ppm,ch4_ppm,co2_pct,measured_at\n";

read_table read(const std::string& text, const tube_codes& codes = {}) {
  return read_readings(text, limits, codes);
}

std::string shown(const gas_reading& r) {
  const auto one = [](const std::optional<exact>& n) { return n ? n->text() : "-"; };
  return r.kit + " " + std::to_string(r.sample) + " " + one(r.h2_ppm) + " " + one(r.ch4_ppm) + " " +
         one(r.co2_pct) + " " + r.measured_at;
}

std::string where_of(const read_table& t) {
  return t.refused.empty() ? "" : t.refused.front().where;
}

std::string factor(const char* co2, int tenths) {
  const auto one = co2_corrected(exact(1), exact::parse(co2), tenths);
  return one ? one->text() : "-";
}

} // namespace

TEST_CASE("every ordinary form of the same table is read as the same readings") {
  const std::string rows = "FV-2071,1,4.5,1,4.8,2027-04-09 10:30\nFV-2071,2,,2,,2027-04-09 10:31\n";
  const std::vector<std::string> forms{
      head + rows,
      "\xef\xbb\xbf" + head + rows,
      "kit;tube;h2_ppm;ch4_ppm;co2_pct;measured_at\r\nFV-2071;1;4,5;1;4,8;09.04.2027 10:30\r\n"
      "FV-2071;2;;2;;09.04.2027 10:31\r\n",
      "sep=;\r\nKit;Tube;H2_ppm;CH4_ppm;CO2_pct;Measured_at;\r\n"
      "fv-2071;1;4,50;1,0;4,8;2027-04-09T10:30;\r\n;;;;;;\r\nfv-2071;2;;2;;2027-04-09T10:31;\r\n",
      "measured_at\ttube\tkit\tco2_pct\tch4_ppm\th2_ppm\r2027-04-09 10:30\t1\tFV-2071\t4.8\t1\t4.5"
      "\r2027-04-09 10:31\t2\tFV-2071\t\t2\t",
      "\"kit\",\"tube\",\"h2_ppm\",\"ch4_ppm\",\"co2_pct\",\"measured_at\"\n"
      "\"FV-2071\",\"1\",\"4,5\",\"1\",\"4,8\",\"2027-04-09 10:30\"\n"
      " FV-2071 , 2 ,, \"2,000\" ,, 2027-04-09 10:31 \n\n"};
  for (const std::string& form : forms) {
    CAPTURE(form);
    const read_table t = read(form);
    REQUIRE(t.refused.empty());
    REQUIRE(t.readings.size() == 2);
    CHECK(shown(t.readings[0]) == "FV-2071 1 4.5 1 4.8 2027-04-09T10:30");
    CHECK(shown(t.readings[1]) == "FV-2071 2 - 2 - 2027-04-09T10:31");
  }
}

TEST_CASE("the raw line is kept, and carbon dioxide may have no column") {
  const read_table t =
      read("kit,tube,h2_ppm,ch4_ppm,measured_at\nFV-2071,1,4,1,2027-04-09 10:30:59\n");
  REQUIRE(t.refused.empty());
  CHECK(t.readings[0].raw == "FV-2071,1,4,1,2027-04-09 10:30:59");
  CHECK(t.readings[0].measured_at == "2027-04-09T10:30:59");
  CHECK_FALSE(t.readings[0].co2_pct);
}

TEST_CASE("what cannot be is refused with its line and column") {
  const std::vector<std::pair<std::string, std::string>> bad{
      {"FV-2071,1,-1,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,5000.5,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,4,1e9,,2027-04-09 10:30", "line 2, ch4_ppm"},
      {"FV-2071,1,4,1,20.1,2027-04-09 10:30", "line 2, co2_pct"},
      {"FV-2071,1,nan,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,\"1.234,5\",1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,1.2345678,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,<,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,<>1,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,<-1,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,>5001,1,,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,1,,,5,2027-04-09 10:30", "line 2, h2_ppm"},
      {"FV-2071,0,4,1,,2027-04-09 10:30", "line 2, tube"},
      {"FV-2071,100,4,1,,2027-04-09 10:30", "line 2, tube"},
      {"FV-2071,1.5,4,1,,2027-04-09 10:30", "line 2, tube"},
      {",1,4,1,,2027-04-09 10:30", "line 2, kit"},
      {"=1+1,1,4,1,,2027-04-09 10:30", "line 2, kit"},
      {"FV-2071,1,4,1,,", "line 2, measured_at"},
      {"FV-2071,1,4,1,,04/09/2027 10:30", "line 2, measured_at"},
      {"FV-2071,1,4,1,,2027-02-30 10:30", "line 2, measured_at"},
      {"FV-2071,1,4,1,,2027-04-09 10:30:61", "line 2, measured_at"},
      {"FV-2071,1,4,1,,2027-04-09", "line 2, measured_at"},
      {"FV-2071,1,\"4,1,,2027-04-09 10:30", "line 2, character 11"}};
  for (const auto& [row, where] : bad) {
    CAPTURE(row);
    CHECK(where_of(read(head + row + "\n")) == where);
  }
}

TEST_CASE("what is below or above the analyser's range is kept as such, and so is its mark") {
  const read_table t =
      read("kit,tube,h2_ppm,ch4_ppm,co2_pct,measured_at,mark\n"
           "FV-2071,1,<1,> 200,<0.5,2027-04-09 10:30,\nFV-2071,2,4,1,5,2027-04-09 10:31,invalid\n");
  REQUIRE(t.refused.empty());
  CHECK(shown(t.readings[0]) == "FV-2071 1 1 200 0.5 2027-04-09T10:30");
  CHECK(t.readings[0].h2_is == reading_range::below);
  CHECK(t.readings[0].ch4_is == reading_range::above);
  CHECK(t.readings[0].co2_is == reading_range::below);
  CHECK_FALSE(t.readings[0].invalid);
  CHECK(t.readings[1].h2_is == reading_range::within);
  CHECK(t.readings[1].invalid);
  CHECK(where_of(read("kit,tube,h2_ppm,ch4_ppm,measured_at,mark\n"
                      "FV-2071,1,4,1,2027-04-09 10:30,bad\n")) == "line 2, mark");
  const read_table comma = read("kit;tube;h2_ppm;ch4_ppm;measured_at\n"
                                "FV-2071;1;<0,5;1;2027-04-09 10:30\n");
  CHECK(comma.readings.at(0).h2_ppm == exact::parse("0.5"));
}

TEST_CASE("a table has one decimal mark: a figure with the other refuses it with its line") {
  const std::string at = ",1,,2027-04-09 10:30\n";
  CHECK(where_of(read(head + "FV-2071,1,1.5" + at + "FV-2071,2,\"2,5\"" + at)) == "line 3, h2_ppm");
  CHECK(where_of(read(head + "FV-2071,1,\"2,5\"" + at + "FV-2071,2,1.234" + at)) ==
        "line 3, h2_ppm");
  // A figure that could be read two ways is read as the others show.
  const read_table t = read(head + "FV-2071,1,\"1,234\"" + at + "FV-2071,2,\"2,5\"" + at);
  REQUIRE(t.readings.size() == 2);
  CHECK(t.readings[0].h2_ppm == exact::parse("1.234"));
}

TEST_CASE("a figure that could be read two ways refuses the table, however its cells are parted") {
  const auto refused = [](const std::string& text) {
    const read_table t = read(text);
    return t.refused.empty() ? "" : sentence(t.refused.front());
  };
  const std::string at = ",1,,2027-04-09 10:30\n";
  CHECK(refused(head + "FV-2071,1,4" + at + "FV-2071,2,\"1,234\"" + at) ==
        "line 3, h2_ppm: found \"1,234\", expected a figure that can be read one way: this may be "
        "1234 or 1.234");
  CHECK(where_of(read(head + "FV-2071,1,1.234" + at)) == "line 2, h2_ppm");
  CHECK(where_of(read("kit;tube;h2_ppm;ch4_ppm;co2_pct;measured_at\n"
                      "FV-2071;1;1,234;1;;2027-04-09 10:30\n")) == "line 2, h2_ppm");
  // These can be read one way: no number of thousands begins with 0, has other groups than of
  // three, or is more than a column can hold.
  for (const char* figure : {"0.234", "1.2345", "1234.567", "12.34", "9.999"}) {
    CAPTURE(figure);
    const read_table t = read(head + "FV-2071,1," + figure + at);
    REQUIRE(t.readings.size() == 1);
    CHECK(t.readings[0].h2_ppm == exact::parse(figure));
  }
  const read_table co2 = read(head + "FV-2071,1,1.250,1,4.812,2027-04-09 10:30\n");
  REQUIRE(co2.readings.size() == 1); // no breath has 4812 % of carbon dioxide
  CHECK(co2.readings[0].h2_ppm == exact::parse("1.25"));
}

TEST_CASE("a text that is no figure says nothing about the table's mark") {
  const read_table t = read(head + "FV-2071,1,n.a,1,,2027-04-09 10:30\n" +
                            "FV-2071,2,\"2,5\",1,,2027-04-09 10:30\n");
  REQUIRE(t.refused.size() == 1);
  CHECK(where_of(t) == "line 2, h2_ppm");
}

TEST_CASE("headers that are others, doubled or lacking are refused, and so is a table of nothing") {
  for (const char* text :
       {"", "\n\n", "kit,tube,h2_ppm,ch4_ppm\n", "kit,tube,h2_ppm,ch4_ppm,measured_at,remark\n",
        "kit,kit,tube,h2_ppm,ch4_ppm,measured_at\n", "kit,tube,h2_ppm,ch4_ppm,measured_at\n"})
    CHECK(read(text).refused.size() == 1);
  CHECK(read(std::string("k\0i", 3)).refused.size() == 1); // as UTF-16 looks
}

TEST_CASE("each bad row has its refusal, up to what a person reads") {
  std::string text = head;
  for (int i = 0; i < 50; ++i)
    text += "FV-2071,1,-1,1,,2027-04-09 10:30\n";
  const read_table t = read(text);
  CHECK(t.refused.size() == most_said_refusals);
  CHECK(t.refused.back().where == "line 21, h2_ppm");
}

TEST_CASE("a maker's code stands for kit and tube, and never for another kit's") {
  const auto codes = read_tube_codes("maker_code;kit;tube\nA9F1;FV-2071;3\nA9F2;FV-2072;1\n");
  REQUIRE(codes);
  const read_table t = read(head + "FV-2071,A9F1,4,1,,2027-04-09 10:30\n"
                                   ",A9F2,5,1,,2027-04-09 10:30\n",
                            *codes);
  REQUIRE(t.refused.empty());
  CHECK(shown(t.readings[0]) == "FV-2071 3 4 1 - 2027-04-09T10:30");
  CHECK(shown(t.readings[1]) == "FV-2072 1 5 1 - 2027-04-09T10:30");
  CHECK(where_of(read(head + "FV-2071,A9F2,4,1,,2027-04-09 10:30\n", *codes)) == "line 2, tube");
  CHECK_FALSE(read_tube_codes("maker_code,kit,tube\nA,FV-1,1\nA,FV-1,2\n"));
}

// The factors that facts about the correction print, to three digits after the point.
TEST_CASE("the correction has the printed factors at 5.5 and 5.0 per cent") {
  CHECK(factor("5.5", 55) == "1");
  CHECK(factor("4.0", 55) == "1.375");
  CHECK(factor("2.75", 55) == "2");
  CHECK(factor("1.4", 55) == "3.928571");
  CHECK(factor("5.5", 50) == "0.909091");
  CHECK(factor("4.0", 50) == "1.25");
  CHECK(factor("2.75", 50) == "1.818182");
  CHECK(factor("1.4", 50) == "3.571429");
}

TEST_CASE("nothing is corrected without a reading or a share of carbon dioxide above zero") {
  CHECK_FALSE(co2_corrected(std::nullopt, exact(5), 50));
  CHECK_FALSE(co2_corrected(exact(5), std::nullopt, 50));
  CHECK_FALSE(co2_corrected(exact(5), exact(0), 50));
  CHECK(co2_corrected(exact(0), exact(4), 50)->text() == "0");
  CHECK(co2_corrected(exact(5000), exact::parse("0.000001"), 50).has_value() == false);
}

TEST_CASE("a line of several words is no tube's label") {
  CHECK(read_tube_label("FV-2071-04").has_value());
  CHECK_FALSE(read_tube_label("y lactulose-10g posted 2027-04-08").has_value());
}

TEST_CASE("a kit is joined by its number in capitals, and what is none stands for itself") {
  CHECK(kit_key("fv-2072") == "FV-2072");
  CHECK(kit_key("FV-2072") == "FV-2072");
  CHECK(kit_key("=1+2") == "=1+2");
  CHECK(kit_key("made by hand") == "made by hand");
}

TEST_CASE("what run the readings are of stands above the header or in columns, which go before") {
  const read_table t = read("run,R-7\nAnalyser,x\n");
  CHECK_FALSE(t.refused.empty()); // names of the head are in small letters, as columns are
  const read_table told =
      read("run,R-7\nanalyser,A2\ncalibration,9 April\ncontrol,passed\n"
           "kit,tube,h2_ppm,ch4_ppm,measured_at,run\nFV-2071,1,4,1,2027-04-09 10:30,\n"
           "FV-2071,2,4,1,2027-04-09 10:31,R-8\n");
  REQUIRE(told.refused.empty());
  CHECK(told.readings.at(0).of == reading_run{"R-7", "A2", "9 April", "passed"});
  CHECK(told.readings.at(1).of == reading_run{"R-8", "A2", "9 April", "passed"});
  CHECK(read(head + "FV-2071,1,4,1,,2027-04-09 10:30\n").readings.at(0).of == reading_run{});
  CHECK(where_of(read("control,fine\n" + head + "FV-2071,1,4,1,,2027-04-09 10:30\n")) ==
        "head, control");
  CHECK(where_of(read("kit,tube,h2_ppm,ch4_ppm,measured_at,control\n"
                      "FV-2071,1,4,1,2027-04-09 10:30,fine\n")) == "line 2, control");
}
