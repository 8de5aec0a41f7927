// An analyser's own table, read by its description; what the description does not fit is named.
#include "core/receiving/readings.hpp"
#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace qb;
using Catch::Contains;

namespace {

const curve_limits limits{exact(-1440), exact(1440), exact(5000), exact(20)};

// Parted by semicolons, with decimal commas, and three units that are not ours.
const std::string described = R"({"format": "quarterbreath-readings-layout", "version": 1,
 "parted_by": "semicolon", "decimal_mark": "comma", "moment": "DD.MM.YYYY hh:mm",
 "columns": {"label": "Tube label", "day": "Read on", "time": "at", "mark": "State"},
 "gases": {"h2": {"column": "Hydrogen", "unit": "ppm"}, "ch4": {"column": "Methane", "unit": "ppb"},
           "co2": {"column": "Carbon dioxide", "unit": "permille"}},
 "marks": [{"is": "fine", "means": "valid"}, {"is": "leak", "means": "invalid"}],
 "controls": [{"is": "within", "means": "passed"}, {"is": "beyond", "means": "failed"}],
 "cells": [{"is": "over", "means": ">200"}, {"is": "none", "means": ""}],
 "head": [{"begins": "Run no.", "is": "run"}, {"begins": "Unit", "is": "analyser"},
          {"begins": "Control gas", "is": "control"}],
 "ends_with": "End"})";
const std::string names = "Tube label;Hydrogen;Methane;Carbon dioxide;Read on;at;State\n";

reading_layout layout_of(const std::string& text = described) {
  auto out = read_reading_layout(text);
  INFO((out ? "" : sentence(out.error())));
  REQUIRE(out);
  return *out;
}

read_table read(const std::string& table, const std::string& layout = described,
                const tube_codes& codes = {}) {
  const reading_layout by = layout_of(layout);
  return read_readings(table, limits, codes, &by);
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != text.npos);
  return text.replace(at, from.size(), to);
}

std::string file(const std::string& name) {
  std::ifstream in(repository() + "/demo-data/readings/" + name);
  return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("an analyser's own table gives readings in our units, with the run above it") {
  const read_table t = read("Bench sheet;\nRun no.;R-7\nUnit: A 2\nControl gas;beyond\n" + names +
                            "FV-2071-02;4,5;1250;48,5;9.4.2027;8:05;fine\n"
                            "FV-2071-03;over;none;<1;09.04.2027;10:31:15;leak\n"
                            "End;;;;;;\nSum;4,5\n");
  REQUIRE(t.refused.empty());
  REQUIRE(t.readings.size() == 2);
  const gas_reading& a = t.readings[0];
  CHECK((a.kit == "FV-2071" && a.sample == 2));
  CHECK(a.h2_ppm == exact::parse("4.5"));
  CHECK(a.ch4_ppm == exact::parse("1.25"));
  CHECK(a.co2_pct == exact::parse("4.85"));
  CHECK(a.measured_at == "2027-04-09T08:05");
  CHECK(a.raw == "FV-2071-02;4,5;1250;48,5;9.4.2027;8:05;fine");
  CHECK(a.of == reading_run{"R-7", "A 2", "", "failed"});
  const gas_reading& b = t.readings[1];
  CHECK((b.h2_is == reading_range::above && b.h2_ppm == exact(200)));
  CHECK_FALSE(b.ch4_ppm);
  CHECK((b.co2_is == reading_range::below && b.co2_pct == exact::parse("0.1")));
  CHECK(b.invalid);
  CHECK(b.measured_at == "2027-04-09T10:31:15");
}

TEST_CASE("the demo's table by its description is the demo's plain table") {
  const read_table raw = read(file("bench-sheet.csv"), file("bench-sheet.layout.json"));
  const read_table plain = read_readings(file("morning.csv"), limits, {});
  REQUIRE(raw.refused.empty());
  REQUIRE(raw.readings.size() == plain.readings.size());
  for (std::size_t i = 0; i < raw.readings.size(); ++i) {
    const gas_reading& a = raw.readings[i];
    const gas_reading& b = plain.readings[i];
    CHECK((a.kit == b.kit && a.sample == b.sample && a.measured_at == b.measured_at));
    CHECK((a.h2_ppm == b.h2_ppm && a.ch4_ppm == b.ch4_ppm && a.co2_pct == b.co2_pct));
    CHECK(a.of.control == "passed");
  }
}

TEST_CASE("what does not fit the description is refused by line and the file's own column") {
  const auto where = [](const std::string& row) {
    const read_table t = read(names + row + "\n");
    return t.refused.empty() ? "" : t.refused.front().where;
  };
  CHECK(where("FV-2071-01;4.5;1;1;09.04.2027;10:30;fine") == "line 2, Hydrogen");
  CHECK(where("FV-2071-01;4;1e3;1;09.04.2027;10:30;fine") == "line 2, Methane");
  CHECK(where("FV-2071-01;4;1000;500;09.04.2027;10:30;fine") == "line 2, Carbon dioxide");
  CHECK(where("FV-2071-01;4;1000;50;04/09/2027;10:30;fine") == "line 2, Read on");
  CHECK(where("FV-2071-01;4;1000;50;2027-04-09;10:30;fine") == "line 2, Read on");
  CHECK(where("FV-2071-01;4;1000;50;31.02.2027;10:30;fine") == "line 2, Read on");
  CHECK(where("FV-2071-01;4;1000;50;09.04.2027;10:30;odd") == "line 2, State");
  CHECK(where("FV-2071;4;1000;50;09.04.2027;10:30;fine") == "line 2, Tube label");
  CHECK(where("FV-2071-01;;;50;09.04.2027;10:30;fine") == "line 2, Hydrogen");
  CHECK(read("Tube label;Hydrogen\n").refused.front().where == "header");
  CHECK(read("Control gas;odd\n" + names + "FV-2071-01;4;1000;50;09.04.2027;10:30;fine\n")
            .refused.front()
            .where == "line 1, Control gas");
}

TEST_CASE("one figure that the description does not fit refuses the whole table") {
  const read_table t = read(names + "FV-2071-01;4;1000;50;09.04.2027;10:30;fine\n"
                                    "FV-2071-02;4.5;1000;50;09.04.2027;10:30;fine\n");
  CHECK(t.readings.empty());
  CHECK(t.refused.size() == 1);
}

TEST_CASE("a date is read as the description says, whichever way it could be meant") {
  const auto moment = [](const std::string& form, const std::string& text) {
    const std::string layout =
        R"({"format": "quarterbreath-readings-layout", "version": 1, "parted_by": "comma",
 "decimal_mark": "point", "moment": ")" +
        form + R"(", "columns": {"kit": "Box", "tube": "No", "measured_at": "When"},
 "gases": {"h2": {"column": "H", "unit": "ppm"}}})";
    const read_table t = read("Box,No,H,When\nFV-2071,1,4," + text + "\n", layout);
    return t.readings.empty() ? "refused" : t.readings.front().measured_at;
  };
  CHECK(moment("DD/MM/YYYY hh:mm", "04/09/2027 10:30") == "2027-09-04T10:30");
  CHECK(moment("MM/DD/YYYY hh:mm", "04/09/2027 10:30") == "2027-04-09T10:30");
  CHECK(moment("MM/DD/YYYY hh:mm", "13/09/2027 10:30") == "refused");
  CHECK(moment("YYYY-MM-DD hh:mm", "2027-04-09T10:30") == "2027-04-09T10:30");
  CHECK(moment("DD.MM.YYYY hh:mm", "2027-04-09 10:30") == "refused");
}

TEST_CASE("a maker's codes stand in the label's column too") {
  const tube_codes codes{{"M77", {"FV-2071", 5}}};
  const read_table t = read(names + "M77;4;1000;50;09.04.2027;10:30;fine\n", described, codes);
  REQUIRE(t.refused.empty());
  CHECK((t.readings.front().kit == "FV-2071" && t.readings.front().sample == 5));
}

TEST_CASE("a description that leaves a way open, or opens two, is refused") {
  const auto no = [](const std::string& from, const std::string& to) {
    return !read_reading_layout(changed(described, from, to)).has_value();
  };
  CHECK(no(R"("label": "Tube label", )", ""));
  CHECK(no(R"("label": "Tube label", )", R"("label": "Tube label", "kit": "Box", )"));
  CHECK(no(R"("day": "Read on", )", ""));
  CHECK(no(R"("day": "Read on")", R"("day": "At")")); // another field's column, in other letters
  CHECK(no(R"("column": "Methane")", R"("column": "hydrogen")"));
  CHECK(no(R"("is": "leak")", R"("is": "fine")"));
  CHECK(no(R"("version": 1)", R"("version": 2)"));
  CHECK(no(R"("ends_with": "End")", R"("ends_wiht": "End")"));
  CHECK_FALSE(no(R"("ends_with": "End")", R"("ends_with": "Sum")"));
}
